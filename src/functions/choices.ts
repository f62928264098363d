import {
  decisionRules,
  densityFormulas,
  directions,
  exposedSides,
  fanStates,
  flowBases,
  foundations,
  infiltrationModels,
  oneDirectionRules,
  pressureSigns,
  resultDirections,
  roofShapes,
  shieldings,
  standards,
  targetQuantities,
  techniques,
  timeUnits,
  unitNamed,
  unitNames,
  volumeConventions,
  windPlaces,
} from "../core/index";
import { leakageAreaChoices } from "./results/leakage-area";
import { unitSystems } from "./cells/units";
import { columnWords } from "./readings/log/columns";
import { budgetQuantities } from "./settings/labels";

/** A word that Excel suggests, with the explanation shown beside it. */
export interface Choice {
  readonly word: string;
  readonly meaning: string;
}

/** The words in the order of the method's list; a word without a meaning is a type error. */
function explained<Word extends string>(
  words: readonly Word[],
  meanings: Readonly<Record<Word, string>>,
): readonly Choice[] {
  return words.map((word) => ({ word, meaning: meanings[word] }));
}

const techniqueMeanings = {
  ordinary: "ordinary least squares on the logarithms: ISO 9972, ASTM E779",
  weighted: "least squares weighted by the uncertainties, or by q² if none are given",
  "organic correlation": "treats neither ln Δp nor ln q as exact",
  "weighted organic correlation": "the same, weighted by the uncertainties",
  "errors in both": "uses the uncertainties of pressure and flow and their correlation: York et al. 2004",
  "weighted with expected exponent":
    "weighted, with the n of other houses as a prior: for planning, mid-construction and repair",
};

/**
 * The suggestions that Excel shows while a choice is typed, by the id of the list. The functions check against the same lists, so they accept every
 * suggestion and nothing else. Not part of functions.js: the meanings are in functions.json only.
 */
export const choiceLists: Readonly<Record<string, readonly Choice[]>> = {
  direction: explained(directions, {
    depressurization: "the fan blows air out of the house; readings are below 0, indoors minus outdoors",
    pressurization: "the fan blows air into the house; readings are above 0, indoors minus outdoors",
  }),
  technique: explained(techniques, techniqueMeanings),
  technique_without_uncertainties: explained(
    ["ordinary", "weighted", "organic correlation", "weighted with expected exponent"],
    {
      ...techniqueMeanings,
      weighted: "least squares weighted by q²",
      "weighted with expected exponent": "weighted by 1 Pa and 1 %, with the n of other houses as a prior",
    },
  ),
  pressure_sign: explained(pressureSigns, {
    "indoors minus outdoors": "ISO 9972: readings are below 0 when depressurizing",
    "outdoors minus indoors": "the other way round: readings are above 0 when depressurizing",
    magnitude: "readings without a sign; the direction must be given",
  }),
  convention: explained(volumeConventions, {
    "whole internal": "partitions are not deducted",
    "room by room": "the clear volumes of the rooms only",
  }),
  definition: explained(leakageAreaChoices, {
    "effective 4 Pa": "ELA: C_d 1, ASTM E779",
    "ISO 9972 10 Pa": "C_d 1, ISO 9972",
    "equivalent 10 Pa": "EqLA: C_d 0.611, CAN/CGSB-149.10",
    custom: "a pressure and a C_d of your choice; give both",
  }),
  one_direction: explained(oneDirectionRules, {
    refuse: "no mean as long as one direction is missing",
    accept: "one direction alone is the result",
  }),
  directions: explained(resultDirections, {
    both: "the mean of both directions: each needs its checks",
    depressurization: "depressurization alone",
    pressurization: "pressurization alone",
  }),
  rule: explained(decisionRules, {
    plain: "pass if result ≤ limit",
    "guarded acceptance":
      "pass if the upper limit of the result ≤ target, fail if its lower limit > target, else not proven",
    "guarded rejection": "fail only if the lower limit of the result > target",
  }),
  units: explained(unitSystems, {
    SI: "m³/h, m³, m², °C, Pa, cm²",
    "SI L/s": "like SI, with flows in L/s and L/(s·m²)",
    IP: "cfm, ft³, ft², °F, inHg, in²",
  }),
  model: explained(infiltrationModels, {
    "n50/20": "the flow at 50 Pa divided by 20: Sherman 1987",
    basic: "stack and wind from the leakage area: ASHRAE Fundamentals 2021 ch. 16",
    enhanced: "stack and wind from C and n: ASHRAE Fundamentals 2021 ch. 16",
    "EN ISO 13789": "exposure, shielding, supply and extract: EN ISO 13789:2017",
    "ASHRAE 62.2": "normalized leakage times a weather and shielding factor",
    "normalized leakage": "NL of ASHRAE 62.2, without a unit",
  }),
  headings: explained(["yes", "no"], { yes: "a heading row above the results", no: "the results only" }),
  unit: unitNames().map((word) => ({ word, meaning: `unit of ${unitNamed(word)?.quantity}` })),
};

/** The words of a settings range and of a log's cells, which no cell suggests, by the label or by what they say. */
const otherWords: Readonly<Record<string, readonly Choice[]>> = {
  "air density": explained(densityFormulas, {
    "moist air": "from temperature, barometric pressure and relative humidity",
    "ASTM E779": "from temperature and altitude, by the formula of ASTM E779",
  }),
  "flow basis": explained(flowBases, {
    "indicated at calibration density": "as the device shows it, valid for the air density of its calibration",
    "actual at the fan": "the volume flow of the air as it passes the device",
    "through the envelope": "corrected already to the flow through the leaks",
  }),
  standard: explained(standards, {
    "ISO 9972": "ISO 9972:2015, and EN ISO 9972",
    "EN 13829": "EN 13829:2001, withdrawn",
    "ASTM E779": "ASTM E779-19, leakage by fan pressurization, several pressures",
    "ASTM E1827": "ASTM E1827-22, one or two pressures",
    "ASTM E3158": "ASTM E3158, large or multizone buildings",
    "US Army Corps": "air leakage protocol for building envelopes of the US Army Corps of Engineers",
    "CGSB 149.10": "CAN/CGSB-149.10-M86, several pressures or two",
    "CGSB 149.10-2019": "CAN/CGSB-149.10-2019, several pressures",
    "CGSB 149.10-2019 one-point": "the same, at one pressure",
    "RESNET/ICC 380": "ANSI/RESNET/ICC 380, at one pressure",
    "RESNET/ICC 380 multi-point": "the same, at several pressures",
  }),
  quantity: explained(targetQuantities, {
    "air change rate": "flow over the volume, 1/h, such as n50",
    "per envelope area": "flow over the envelope area, such as q_E50",
    "per floor area": "flow over the floor area, such as q_F50",
    "leakage area per envelope area": "leakage area over the envelope area; its definition must be named",
  }),
  "time unit": explained(timeUnits, { seconds: "counted in seconds", days: "Excel's own times" }),
  foundation: explained(foundations, {
    "basement or slab": "the ground floor lies on the ground or above a basement",
    "crawl space": "the ground floor lies above a crawl space",
  }),
  "exposed sides": explained(exposedSides, {
    several: "wind meets more than one façade",
    one: "wind meets one façade only",
  }),
  shielding: explained(shieldings, {
    none: "open country, high buildings in a city",
    moderate: "trees or other buildings around, suburbs",
    heavy: "buildings of average height in a city, forest",
  }),
  "wind place": explained(windPlaces, {
    "near the ground": "read at the building",
    "weather station": "reported by a station, usually 10 m above open ground",
  }),
  "budget quantity": explained(budgetQuantities, {
    n: "flow exponent",
    C: "leakage coefficient at test conditions",
    C_L: "leakage coefficient at reference conditions",
    q50: "flow at 50 Pa",
    n50: "air change rate at 50 Pa",
    qE50: "flow at 50 Pa over the envelope area",
    qF50: "flow at 50 Pa over the floor area",
    q_pr: "flow at the reference pressure",
    n_pr: "air change rate at the reference pressure",
    qE_pr: "flow at the reference pressure over the envelope area",
    qF_pr: "flow at the reference pressure over the floor area",
    ELA4: "effective leakage area at 4 Pa",
    AL10: "leakage area of ISO 9972 at 10 Pa",
    EqLA10: "equivalent leakage area at 10 Pa",
  }),
  columns: explained(columnWords, {
    time: "Excel's time or seconds",
    pressure: "building pressure, Pa",
    "fan pressure": "pressure at the flow device, Pa",
    flow: "flow of the device",
    state: "what the fan did",
    other: "a column that does not count",
  }),
  state: explained(fanStates, { "zero flow": "fan off and covered: a baseline", "fan running": "a reading" }),
  validity: explained(["valid", "met", "not valid", "not met", "open", "cannot be judged"], {
    valid: "the test counts",
    met: "the same",
    "not valid": "no result of the test can pass",
    "not met": "the same",
    open: "not judged yet",
    "cannot be judged": "the same",
  }),
  "roof shape": explained(roofShapes, {
    flat: "no rise",
    gable: "two slopes and two gables",
    hip: "four slopes",
    "mono-pitch": "one slope",
  }),
};

/** What words mean that a function accepts; undefined for yes and no, which answer the label, and for words that explain themselves. */
export function explainWords(words: readonly string[]): readonly Choice[] | undefined {
  if (words.length === 0 || words.includes("yes")) return undefined;
  const lists = [...Object.values(choiceLists), ...Object.values(otherWords)];
  const list = lists.find((choices) => words.every((word) => choices.some((choice) => choice.word === word)));
  return list && words.map((word) => list.find((choice) => choice.word === word)!);
}

/** Parameters whose list has another name; some functions have fewer techniques. */
const otherLists: Readonly<Record<string, string>> = {
  "CONVERTUNITS from": "unit",
  "CONVERTUNITS to": "unit",
  "FITRESIDUALS technique": "technique_without_uncertainties",
  "FLOWEXPONENT technique": "technique_without_uncertainties",
  "LEAKAGECOEFFICIENT technique": "technique_without_uncertainties",
};

/** The id of a parameter's list of suggestions; undefined if it is not a choice. */
export function choiceListOf(functionId: string, parameter: string): string | undefined {
  const id = otherLists[`${functionId} ${parameter}`] ?? parameter;
  return Object.hasOwn(choiceLists, id) ? id : undefined;
}
