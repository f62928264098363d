import type { ComputedRun } from "../book/tests/computed-runs";
import type { TestLimit } from "../book/tests/test-limits";
import type { HouseTest } from "../book/tests/tests-in-book";
import { formatSignificant } from "./axes";
import type { GraphData, GraphLine, GraphTarget } from "./data";

/** The graph of a test: names that distinguish its runs, the origin of its limits, and a note on the figures. */
export function describeGraph(
  { runs, limits }: HouseTest,
  words: { readonly title: string; readonly subtitle: string },
): GraphData {
  const [first] = runs;
  const lines = runs.map((run) => nameLine(run, runs));
  const targets = limits.map(({ pressure, flow, stated }): GraphTarget => ({
    pressure,
    flow,
    words: stated ? describeOrigin(stated) : "",
  }));
  return {
    ...words,
    flowUnit: first?.flowUnit ?? "in the sheet's unit of flow",
    lines,
    targets,
    confidence: first?.confidence ?? 0.95,
    note: `${describeConditions(runs, targets)}${describeTechnique(runs, lines)}`,
  };
}

const describeOrigin = ({ quantity, value, unit }: NonNullable<TestLimit["stated"]>): string =>
  `${quantity} ${formatPlainNumber(value)} ${unit}`.trim();

function formatPlainNumber(value: number): string {
  return Math.abs(value) < 1e-4 ? formatSignificant(value, 3) : String(Number(value.toPrecision(6)));
}

/** A direction occurring once is name enough; several runs are named by their sheet, which may include the direction, or by cell if they share a sheet. */
function nameLine(run: ComputedRun, runs: readonly ComputedRun[]): GraphLine {
  const { direction, curve, sheetName, cell } = run;
  const name = nameDirection(run);
  const look = direction ?? "other";
  const alike = runs.filter((other) => other.direction === direction);
  if (alike.length === 1) return { ...curve, look, name };
  const ownSheets = new Set(alike.map((other) => other.sheetName)).size === alike.length;
  const saysIt = ownSheets && new RegExp(`(?<!\\p{L})${name}`, "iu").test(sheetName);
  return { ...curve, look, name: saysIt ? sheetName : `${name}, ${ownSheets ? sheetName : cell}` };
}

/** What a run is, in a word or two. */
export const nameDirection = ({ direction }: ComputedRun): string => direction ?? "leakage curve";

/** How the lines were fitted, unless by ordinary least squares, and the influence of an expected exponent on each. */
function describeTechnique(runs: readonly ComputedRun[], lines: readonly GraphLine[]): string {
  const techniques = new Set(runs.map(({ fit }) => fit.technique));
  if (techniques.size === 1 && techniques.has("ordinary")) return "";
  const shares = runs.flatMap(({ fit }, index) =>
    fit.prior === undefined ? [] : `${(100 * fit.prior.share).toFixed(0)} % in ${lines[index]?.name}`,
  );
  const prior = shares.length === 0 ? "" : ` Prior on n for houses weighs ${shares.join(", ")}; the limits include it.`;
  return ` Technique of the line: ${[...techniques].join("; ")}.${prior}`;
}

function describeConditions(runs: readonly ComputedRun[], targets: readonly GraphTarget[]): string {
  if (!runs.every(({ atReference }) => atReference)) return "All values are at the conditions of the test.";
  const limit = targets.length > 0 ? "q50 and the limit are" : "q50 is";
  return (
    `${limit} at reference conditions (20 °C, 101 325 Pa, dry air); readings, C and lines are at the conditions of the test, ` +
    `so a line crosses 50 Pa slightly off q50.`
  );
}
