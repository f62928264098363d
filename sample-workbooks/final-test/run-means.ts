import { call } from "../blocks/add-in";
import type { Direction } from "./scenario";

/** Rows of the table of runs on the sheet Results: whether a run has readings, then its results. */
export const runsFirst = 7;

/** The columns of the runs, in the order of the tabs. */
export const runColumns = ["D", "E", "F", "G"] as const;

/** Cells of the runs of one direction in a row of that table. */
export function runCells(direction: Direction, row: number): string {
  return direction === "depressurization" ? `$D$${row}:$E$${row}` : `$F$${row}:$G$${row}`;
}

/** A formula: one of the direction's runs has readings. */
export function isTested(direction: Direction): string {
  return `COUNTIF(${runCells(direction, runsFirst)},"yes")>0`;
}

/** The runs of a direction as numbers: "not tested" is no number, an error stays one. */
export function numbersOf(cells: string): string {
  return `IF(${cells}="not tested","",${cells})`;
}

/** The mean of a direction's runs; #N/A while none of them has the result, as without a volume. */
export function meanOfRuns(direction: Direction, row: number): string {
  const cells = runCells(direction, row);
  const none = `COUNT(${cells})+SUMPRODUCT(ISERROR(${cells})*1)=0`;
  return `IF(${isTested(direction)},IF(${none},NA(),AVERAGE(${cells})),"not tested")`;
}

/** The mean of both directions, each averaged over its runs first; blank while a direction is missing that is asked for. */
export function meanOfDirections(row: number): string {
  const [d, p] = [isTested("depressurization"), isTested("pressurization")];
  const mean = call(
    "AVERAGEDRESULT",
    numbersOf(runCells("depressurization", row)),
    numbersOf(runCells("pressurization", row)),
    "OneDirection",
  );
  return `IF(OR(AND(${d},${p}),AND(OneDirection="accept",OR(${d},${p}))),${mean},"")`;
}
