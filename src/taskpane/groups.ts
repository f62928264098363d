/** A group of functions, in the order in which a tester works. */
export interface Group {
  readonly name: string;
  readonly purpose: string;
  readonly ids: readonly string[];
}

export const groups: readonly Group[] = [
  {
    name: "Envelope",
    purpose: "The size of the building under test.",
    ids: ["FLOORAREA", "ENVELOPEVOLUME", "ENVELOPESIZE"],
  },
  {
    name: "Air",
    purpose: "Air density indoors and outdoors, and how it corrects a flow.",
    ids: ["AIRDENSITY", "BAROMETRICPRESSURE", "AIRVISCOSITY", "DENSITYCORRECTION"],
  },
  {
    name: "Readings",
    purpose: "From the gauge to pressures and flows that can be fitted.",
    ids: ["BASELINEPRESSURE", "INDUCEDPRESSURE", "FANFLOW", "CALIBRATEDVALUE", "LOGSTATIONS"],
  },
  {
    name: "Air leakage graph",
    purpose: "The line through the readings, and how well each one fits it.",
    ids: ["LEAKAGEFIT", "LEAKAGECOEFFICIENT", "FLOWEXPONENT", "LEAKAGEFLOW", "FITRESIDUALS", "REFERENCECOEFFICIENT"],
  },
  {
    name: "Results",
    purpose: "Rates, areas and the whole test in one table.",
    ids: ["AIRCHANGERATE", "SPECIFICLEAKAGE", "LEAKAGEAREA", "AVERAGEDRESULT", "TESTRESULT", "RESULTCARD"],
  },
  {
    name: "Judgement",
    purpose:
      "Whether the test is valid, how certain its result is, and how it compares with a limit or another team's result.",
    ids: ["VALIDITYCHECKS", "UNCERTAINTYBUDGET", "PASSFAIL", "CONFORMANCEPROBABILITY", "DECISIONRISK", "ENSCORE"],
  },
  {
    name: "Quick tests",
    purpose: "Results from one or two readings, with the uncertainty that the exponent leaves.",
    ids: ["ONEPOINTFLOW", "TWOPOINTFLOW"],
  },
  {
    name: "Repair",
    purpose: "How much to seal, what a repair achieved, and what the final test is likely to give.",
    ids: ["TARGETGAP", "LEAKAGEDIFFERENCE", "HOLEDIAMETER", "FINALFORECAST"],
  },
  {
    name: "Planning",
    purpose: "Before the test: what a limit allows, what the fan must deliver, what the weather does.",
    ids: [
      "ALLOWEDLEAKAGE",
      "PRESSURESTATIONS",
      "FANDEMAND",
      "STACKPRESSURE",
      "WINDPRESSURE",
      "COMPONENTLEAKAGE",
      "AREAFLOW",
    ],
  },
  {
    name: "The house in use",
    purpose: "What the leakage means in everyday use: infiltration and heat loss.",
    ids: ["INFILTRATIONFLOW", "HEATLOSS"],
  },
  { name: "Units and version", purpose: "Helpers for the rest of the sheet.", ids: ["CONVERTUNITS", "METHODVERSION"] },
];
