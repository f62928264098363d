import { call } from "../blocks/add-in";
import type { Units } from "../blocks/units";
import type { Direction } from "./scenario";

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

/** Rows of the table of runs on the sheet Results: whether a run has readings, then its results, last the one that is limited. */
export const runsFirst = 7;

/** How many results belong to one run alone, and how many are averaged. */
export const quantityCount = 7;

export const limitedRow = runsFirst + 1 + 2 * quantityCount;

/** The columns of the runs, in the order of the tabs. */
export const runColumns = ["D", "E", "F", "G"] as const;

/** Those of the two runs of one direction. */
export function runColumnsOf(direction: Direction): readonly [first: string, second: string] {
  return direction === "depressurization" ? [runColumns[0], runColumns[1]] : [runColumns[2], runColumns[3]];
}

/** Cells of the runs of one direction in a row of that table. */
export function runCells(direction: Direction, row: number): string {
  const [first, second] = runColumnsOf(direction);
  return `$${first}$${row}:$${second}$${row}`;
}

/** A formula: one of the direction's runs has readings. */
export function isTested(direction: Direction): string {
  return `COUNTIF(${runCells(direction, runsFirst)},"yes")>0`;
}

const noRun = `COUNTIF($${runColumns[0]}$${runsFirst}:$${runColumns[3]}$${runsFirst},"yes")=0`;

/** A formula: the word for a run or a direction without readings; in a form that no run is typed into yet it is no choice. */
export const untested = `IF(${noRun},"not tested yet","not tested")`;

/** The same for what needs both directions: blank as soon as one run has readings. */
export const untestedYet = `IF(${noRun},"not tested yet","")`;

/** The runs of a direction as numbers: "not tested" is no number, an error stays one. */
export function numbersOf(cells: string): string {
  return `IF(${cells}="not tested","",${cells})`;
}

/** The mean of a direction's runs; #N/A while none of them has the result, as without a volume. */
export function meanOfRuns(direction: Direction, row: number): string {
  const cells = runCells(direction, row);
  const none = `COUNT(${cells})+SUMPRODUCT(ISERROR(${cells})*1)=0`;
  return `IF(${isTested(direction)},IF(${none},NA(),AVERAGE(${cells})),${untested})`;
}

/** The mean of both directions, each averaged over its runs first; a word or a blank while a direction is missing that is asked for. */
export function meanOfDirections(row: number, otherwise = '""'): string {
  const [d, p] = [isTested("depressurization"), isTested("pressurization")];
  const mean = call(
    "AVERAGEDRESULT",
    numbersOf(runCells("depressurization", row)),
    numbersOf(runCells("pressurization", row)),
    "OneDirection",
  );
  return `IF(OR(AND(${d},${p}),AND(OneDirection="accept",OR(${d},${p}))),${mean},${otherwise})`;
}
