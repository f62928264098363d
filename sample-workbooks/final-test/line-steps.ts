import type { Conditions } from "./conditions";
import type { Direction } from "./readings";

/** One row from the line to the results; texts are marked for subscripts and superscripts. */
export interface Step {
  readonly symbol: string;
  readonly label: string;
  readonly shown: string;
  readonly formula: string;
  readonly unit: string;
  readonly how: string;
  readonly digits: number;
}

/** ρ0 of ISO 9972: dry air at 20 °C and 101 325 Pa, kg/m³. */
const referenceDensity = "1.2041";

/** The steps in order, for a table whose values stand in column X from a first row on; `inFit` reads a value of the fitted line. */
export function stepsOf(
  direction: Direction,
  conditions: Conditions,
  firstRow: number,
  inFit: (symbol: string) => string,
): readonly Step[] {
  const [leaking, leakDensity] =
    direction === "depressurization" ? ["outdoors", conditions.outdoorDensity] : ["indoors", conditions.indoorDensity];
  const order = ["C", "n", "rho_leak", "rho_0", "C_L", "q50"];
  const at = (symbol: string) => `X${firstRow + order.indexOf(symbol)}`;
  const flowAt = (pressure: string) => `${at("C_L")}*${pressure}^${at("n")}`;
  const area = (pressure: number) => `${flowAt(String(pressure))}/3600*SQRT(${at("rho_0")}/2/${pressure})*10000`;
  return [
    {
      symbol: "C",
      label: "Air flow coefficient at the test’s conditions",
      shown: "C",
      formula: inFit("C"),
      unit: "m³/(h·Pa^{n})",
      how: "from the line above",
      digits: 3,
    },
    {
      symbol: "n",
      label: "Flow exponent",
      shown: "n",
      formula: inFit("n"),
      unit: "",
      how: "from the line above",
      digits: 4,
    },
    {
      symbol: "rho_leak",
      label: `Density of the air in the leaks: from ${leaking}`,
      shown: "ρ",
      formula: leakDensity,
      unit: "kg/m³",
      how: "page before",
      digits: 4,
    },
    {
      symbol: "rho_0",
      label: "Density at reference conditions, 20 °C, dry",
      shown: "ρ_{0}",
      formula: referenceDensity,
      unit: "kg/m³",
      how: "as ISO 9972 states it",
      digits: 4,
    },
    {
      symbol: "C_L",
      label: "Air leakage coefficient, reference conditions",
      shown: "C_{L}",
      formula: `${at("C")}*(${at("rho_leak")}/${at("rho_0")})^(1-${at("n")})`,
      unit: "m³/(h·Pa^{n})",
      how: "C · (ρ/ρ_{0})^{1−n}",
      digits: 3,
    },
    {
      symbol: "q50",
      label: "Air leakage rate at 50 Pa",
      shown: "q_{50}",
      formula: flowAt("50"),
      unit: "m³/h",
      how: "C_{L} · 50^{n}",
      digits: 1,
    },
    {
      symbol: "n50",
      label: "Air change rate at 50 Pa",
      shown: "n_{50}",
      formula: `${at("q50")}/InternalVolume`,
      unit: "1/h",
      how: "q_{50} / V",
      digits: 3,
    },
    {
      symbol: "qE50",
      label: "Specific leakage rate, envelope",
      shown: "q_{E50}",
      formula: `${at("q50")}/EnvelopeArea`,
      unit: "m³/(h·m²)",
      how: "q_{50} / A_{E}",
      digits: 3,
    },
    {
      symbol: "qF50",
      label: "Specific leakage rate, floor",
      shown: "q_{F50}",
      formula: `${at("q50")}/FloorArea`,
      unit: "m³/(h·m²)",
      how: "q_{50} / A_{F}",
      digits: 3,
    },
    {
      symbol: "q_pr",
      label: "Air leakage rate at the criterion’s pressure",
      shown: "q_{pr}",
      formula: flowAt("TargetPressure"),
      unit: "m³/h",
      how: "C_{L} · p_{r}^{n}",
      digits: 1,
    },
    {
      symbol: "ELA4",
      label: "Effective leakage area, 4 Pa, C_{d} 1",
      shown: "ELA_{4}",
      formula: area(4),
      unit: "cm²",
      how: "q_{4} / 3600 · √(ρ_{0}/2) / √4",
      digits: 1,
    },
    {
      symbol: "AL10",
      label: "Leakage area, 10 Pa, C_{d} 1",
      shown: "A_{L10}",
      formula: area(10),
      unit: "cm²",
      how: "q_{10} / 3600 · √(ρ_{0}/2) / √10",
      digits: 1,
    },
  ];
}
