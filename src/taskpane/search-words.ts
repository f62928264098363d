/**
 * What testers, builders and officials say for a function, by its id, or a setting, by its label, where neither its name nor its description says it. In
 * small letters; a phrase is found by any of its words. Common practice, no source.
 */
export const tradeWords: Readonly<Record<string, readonly string[]>> = {
  FLOORAREA: ["floor plan", "footprint", "polygon", "odd shaped room", "square metres", "square feet"],
  ENVELOPEVOLUME: ["house volume", "building volume", "air volume", "cubic metres", "cubic feet", "conditioned space"],
  ENVELOPESIZE: ["take-off", "surface area", "walls and roof", "box", "quick size", "six sides"],
  AIRDENSITY: ["air weight", "hot air", "cold air", "humid air"],
  BAROMETRICPRESSURE: ["altitude", "elevation", "barometer", "station pressure", "mountain", "weather report"],
  AIRVISCOSITY: ["sutherland", "sticky air"],
  DENSITYCORRECTION: ["temperature correction", "cold weather", "summer", "winter"],
  BASELINEPRESSURE: ["zero flow", "zero pressure", "bias pressure", "fan off", "fan covered", "natural pressure"],
  INDUCEDPRESSURE: ["house pressure", "building pressure", "subtract the baseline", "corrected pressure"],
  FANFLOW: ["fan pressure", "ring", "plate", "orifice", "blower door flow", "calibration curve", "calibrated fan"],
  CALIBRATEDVALUE: ["gauge certificate", "manometer correction", "calibration certificate", "gauge error"],
  LOGSTATIONS: ["logger", "data log", "recording", "auto test", "automatic test", "time series", "csv"],
  LEAKAGEFIT: ["regression", "best fit", "log-log", "power law", "leakage curve", "leakage line", "blower door graph"],
  LEAKAGECOEFFICIENT: ["c value", "air leakage coefficient", "power law", "intercept"],
  FLOWEXPONENT: ["n value", "slope", "power law", "0.65"],
  LEAKAGEFLOW: ["cfm50", "cfm75", "q50", "v50", "flow at 50", "flow at 75", "flow at 4", "another pressure"],
  FITRESIDUALS: ["outlier", "bad reading", "gust", "which reading", "scatter"],
  REFERENCECOEFFICIENT: ["standard conditions", "standard air", "c0", "cl"],
  AIRCHANGERATE: ["ach50", "ach", "n50", "air changes per hour", "blower door result", "airtightness", "air tightness"],
  SPECIFICLEAKAGE: [
    "permeability",
    "air permeability",
    "qe50",
    "q50 per area",
    "ap50",
    "w50",
    "cfm75 per square foot",
    "normalized by envelope area",
  ],
  LEAKAGEAREA: ["ela", "eqla", "total hole", "how big a hole", "how big are the leaks", "equivalent hole"],
  AVERAGEDRESULT: ["both directions", "average of both", "mean result", "blower door result"],
  TESTRESULT: ["blower door test", "whole test", "multipoint", "multi-point", "ach50", "cfm50", "airtightness test"],
  RESULTCARD: ["blower door test", "one cell", "card", "ach50"],
  VALIDITYCHECKS: ["valid test", "too windy", "is it valid", "conditions", "rejected", "checklist", "chimney effect"],
  UNCERTAINTYBUDGET: [
    "how sure",
    "error bar",
    "plus or minus",
    "accuracy of the test",
    "measurement error",
    "tolerance",
  ],
  PASSFAIL: ["did it pass", "passed", "failed", "compliance", "code limit", "verdict", "target met", "passive house"],
  CONFORMANCEPROBABILITY: ["how likely", "chance of passing", "how sure", "borderline"],
  DECISIONRISK: ["wrong verdict", "false pass", "false fail", "borderline", "consumer's risk", "producer's risk"],
  ENSCORE: ["two teams", "round robin", "second test", "retest", "dispute", "interlaboratory", "verification test"],
  ONEPOINTFLOW: ["single point", "one-point", "quick test", "cfm50", "spot reading", "blower door quick"],
  TWOPOINTFLOW: ["two-point", "quick test", "repeat readings", "single-zone"],
  TARGETGAP: ["how much to seal", "how far off", "how big a hole", "what is missing", "left to seal", "air sealing"],
  LEAKAGEDIFFERENCE: ["before and after", "what did it bring", "seal one hole", "tape off", "taped", "improvement"],
  HOLEDIAMETER: ["how big a hole", "round hole", "size of the hole", "hole in the wall"],
  FINALFORECAST: ["mid-construction", "rough-in", "will it pass", "still to come", "pre-drywall", "interim test"],
  ALLOWEDLEAKAGE: ["maximum leakage", "how much may it leak", "code limit", "budget of leaks", "target flow"],
  PRESSURESTATIONS: ["pressure points", "target pressures", "which pressures", "test points", "steps"],
  FANDEMAND: ["which fan", "fan size", "how many fans", "ring", "enough fan", "big building", "can't reach 50"],
  STACKPRESSURE: ["chimney effect", "stack effect", "tall building", "warm air rises"],
  WINDPRESSURE: ["wind", "gusts", "storm", "windy day", "beaufort"],
  COMPONENTLEAKAGE: ["windows", "doors", "sockets", "joints", "tape", "membrane", "parts list", "rated leakage"],
  AREAFLOW: ["how much through a hole", "hole flow", "vent", "cat flap", "orifice", "trickle vent"],
  INFILTRATIONFLOW: [
    "natural air change",
    "everyday leakage",
    "divide by 20",
    "lbl",
    "draught",
    "drafts",
    "ventilation",
  ],
  HEATLOSS: ["energy cost", "heating bill", "kilowatt hours", "savings", "degree days"],
  CONVERTUNITS: ["cfm to m³/h", "metric", "imperial", "litres per second", "inches of water", "fahrenheit"],
  METHODVERSION: ["which version", "software version", "release"],
  volume: ["house volume", "building volume", "cubic metres", "cubic feet"],
  "envelope area": ["surface area", "shell", "enclosure", "six sides"],
  "floor area": ["square metres", "square feet", "footprint"],
  "building height": ["chimney effect", "stack effect", "storeys high", "eaves"],
  "indoor temperature": ["inside", "room temperature", "warm"],
  "outdoor temperature": ["outside", "weather", "cold"],
  "barometric pressure": ["barometer", "station pressure", "weather"],
  altitude: ["elevation", "sea level", "mountain"],
  "flow basis": ["standard flow", "indicated flow", "as shown by the gauge", "corrected flow"],
  "calibration density": ["standard air", "gauge set to", "1.2041", "1.204"],
  "pressure sign": ["plus", "minus", "negative", "positive", "sign convention"],
  openings: ["ring", "plate", "range of the fan", "configuration"],
  standard: ["code", "norm", "protocol", "iso", "astm", "resnet", "cgsb", "en 13829"],
  technique: ["regression", "least squares", "best fit"],
  "reference pressure": ["75 pa", "25 pa", "another pressure", "cfm75"],
  units: ["metric", "imperial", "inch pound", "cfm", "litres"],
  quantity: ["what the limit is in", "ach50", "permeability", "per square metre"],
  "wind speed": ["gusts", "anemometer", "weather station", "breeze"],
  beaufort: ["wind force", "leaves move", "breeze"],
  "gauge certificate valid until": ["calibration due", "calibration date", "expired", "manometer"],
  "flow device certificate valid until": ["calibration due", "calibration date", "expired", "fan certificate"],
  "low pressure reason": ["could not reach 50", "cannot reach test pressure", "too leaky"],
  "gauge accuracy": ["manometer", "data sheet", "percent of reading", "gauge error"],
  "gauge zero": ["auto zero", "drift", "manometer"],
  "gauge resolution": ["digits", "0.1 pa", "display"],
  "flow calibration uncertainty": ["fan accuracy", "flow accuracy", "blower door accuracy", "percent of flow"],
  "volume uncertainty": ["how well measured", "drawing", "take-off"],
  "baseline uncertainty": ["wind", "gusts", "fluctuation"],
  "wind coefficient": ["exposed site", "gusts", "facade"],
  shielding: ["sheltered", "exposed", "trees", "wind"],
  "shelter class": ["sheltered", "exposed", "trees", "wind"],
  flue: ["chimney", "fireplace", "stove"],
};

/** Something that is found by its words: a function by its id, a setting by its label, with what the page says of it. */
export interface Findable {
  readonly name: string;
  readonly text: string;
}

/** Those that have every word of a search in their text or among the trade's words, in their order; all of them for no word. */
export function findByWords<Found extends Findable>(words: string, entries: readonly Found[]): Found[] {
  const wanted = words
    .toLowerCase()
    .split(/[\s,;?!]+/)
    .filter(Boolean);
  return entries.filter(({ name, text }) => {
    const all = [name, text, ...(tradeWords[name] ?? [])].join(" ").toLowerCase();
    return wanted.every((word) => all.includes(word));
  });
}
