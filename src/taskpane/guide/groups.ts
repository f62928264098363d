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
    purpose: "What the air weighs, indoors and outdoors, and what that does to a flow.",
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
    purpose: "Whether the test counts, how sure its result is, and the result against a limit or another team's.",
    ids: ["VALIDITYCHECKS", "UNCERTAINTYBUDGET", "PASSFAIL", "CONFORMANCEPROBABILITY", "DECISIONRISK", "ENSCORE"],
  },
  {
    name: "Quick tests",
    purpose: "One or two readings, with what the exponent leaves open.",
    ids: ["ONEPOINTFLOW", "TWOPOINTFLOW"],
  },
  {
    name: "Repair",
    purpose: "What is to be sealed, what a repair brought, what the final test will give.",
    ids: ["TARGETGAP", "LEAKAGEDIFFERENCE", "HOLEDIAMETER", "FINALFORECAST"],
  },
  {
    name: "Planning",
    purpose: "Before the test: what a limit allows, what the fan must give, what the weather does.",
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
    purpose: "What the leakage means without the fan: infiltration and heat.",
    ids: ["INFILTRATIONFLOW", "HEATLOSS"],
  },
  { name: "Units and version", purpose: "For the sheet around it.", ids: ["CONVERTUNITS", "METHODVERSION"] },
];
