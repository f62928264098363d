import type { Units } from "../blocks/units";

/** A result that the sheets show, by its symbol in the whole test. */
export interface Quantity {
  readonly symbol: string;
  readonly label: string;
  readonly shown: string;
  readonly unit: string;
  readonly digits: number;
  readonly column?: "lower" | "upper";
}

/** What belongs to one run: the mean of C and n over directions means nothing. */
export function ofOneRun(units: Units): readonly Quantity[] {
  const { flow, coefficient } = units;
  return [
    { symbol: "count", label: "Readings used", shown: "N", unit: "", digits: 0 },
    { symbol: "n", label: "Flow exponent", shown: "n", unit: "", digits: 3 },
    { symbol: "C", label: "Air flow coefficient", shown: "C_{env}", unit: coefficient, digits: 2 },
    { symbol: "C_L", label: "Air leakage coefficient", shown: "C_{L}", unit: coefficient, digits: 2 },
    { symbol: "r2", label: "Fit of the line", shown: "r²", unit: "", digits: 4 },
    {
      symbol: "q50",
      label: "Lower limit of q_{50}, from the fit alone",
      shown: "",
      unit: flow,
      digits: 1,
      column: "lower",
    },
    {
      symbol: "q50",
      label: "Upper limit of q_{50}, from the fit alone",
      shown: "",
      unit: flow,
      digits: 1,
      column: "upper",
    },
  ];
}

/** What is averaged over runs and directions. */
export function averaged(units: Units): readonly Quantity[] {
  const { flow, perArea, leakageArea } = units;
  const area = units.system === "SI" ? 0 : 1;
  const specific = units.system === "SI" ? 3 : 4;
  return [
    { symbol: "n50", label: "Air change rate at 50 Pa", shown: "n_{50}", unit: "1/h", digits: 3 },
    { symbol: "q50", label: "Air leakage rate at 50 Pa", shown: "q_{50}", unit: flow, digits: 1 },
    {
      symbol: "qE50",
      label: "Specific leakage rate, envelope area",
      shown: "q_{E50}",
      unit: perArea,
      digits: specific,
    },
    { symbol: "qF50", label: "Specific leakage rate, floor area", shown: "q_{F50}", unit: perArea, digits: specific },
    {
      symbol: "ELA4",
      label: "Effective leakage area at 4 Pa, C_{d} 1",
      shown: "ELA_{4}",
      unit: leakageArea,
      digits: area,
    },
    { symbol: "AL10", label: "Leakage area at 10 Pa, C_{d} 1", shown: "A_{L10}", unit: leakageArea, digits: area },
    {
      symbol: "EqLA10",
      label: "Equivalent leakage area at 10 Pa, C_{d} 0.611",
      shown: "EqLA_{10}",
      unit: leakageArea,
      digits: area,
    },
  ];
}
