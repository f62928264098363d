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
    ids: ["BASELINEPRESSURE", "INDUCEDPRESSURE", "FANFLOW"],
  },
  {
    name: "Air leakage graph",
    purpose: "The line through the readings, and how well each one fits it.",
    ids: ["LEAKAGEFIT", "LEAKAGECOEFFICIENT", "FLOWEXPONENT", "LEAKAGEFLOW", "FITRESIDUALS", "REFERENCECOEFFICIENT"],
  },
  {
    name: "Results",
    purpose: "Rates, areas and the whole test in one table.",
    ids: ["AIRCHANGERATE", "SPECIFICLEAKAGE", "LEAKAGEAREA", "AVERAGEDRESULT", "TESTRESULT"],
  },
  { name: "Judgement", purpose: "The result against a limit.", ids: ["PASSFAIL"] },
  { name: "Units and version", purpose: "For the sheet around it.", ids: ["CONVERTUNITS", "METHODVERSION"] },
];
