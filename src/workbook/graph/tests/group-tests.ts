import { rowsOf } from "../../../functions/cells/cells";
import type { AddInCall } from "../../formula/calls/add-in";
import type { GraphData, GraphLine, GraphTarget } from "../data";
import { type DrawnTest, isNear } from "./find-tests";

/**
 * Tests that belong on one graph: those whose results the workbook averages over both directions; otherwise the only depressurization with the only pressurization
 * of the workbook, or of one sheet. Every other test is on its own: which runs of many houses belong together is not guessed.
 */
export function groupTests(tests: readonly DrawnTest[], calls: readonly AddInCall[]): DrawnTest[][] {
  const groups: DrawnTest[][] = [];
  const left = new Set(tests);
  const take = (group: readonly DrawnTest[]): void => {
    groups.push([...group]);
    for (const test of group) left.delete(test);
  };
  for (const { id, given } of calls) {
    if (id !== "AVERAGEDRESULT") continue;
    const [depressurization = [], pressurization = []] = given.slice(0, 2).map(listNumbers);
    const averaged = [...left].filter(({ direction, results }) => {
      const values = direction === "depressurization" ? depressurization : pressurization;
      return direction !== undefined && results.some(({ value }) => values.some((other) => isNear(value, other)));
    });
    if (averaged.length > 1) take(averaged);
  }
  const sheets = [...new Set([...left].map(({ sheetName }) => sheetName))];
  for (const candidates of [[...left], ...sheets.map((name) => [...left].filter((test) => test.sheetName === name))]) {
    const remaining = candidates.filter((test) => left.has(test));
    const isPair = remaining.length === 2 && remaining[0]?.direction !== remaining[1]?.direction;
    if (isPair && remaining.every(({ direction, flowUnit }) => direction && flowUnit === remaining[0]?.flowUnit))
      take(remaining);
  }
  for (const test of left) groups.push([test]);
  const place = (group: readonly DrawnTest[]) => Math.min(...group.map((test) => tests.indexOf(test)));
  return groups.sort((one, other) => place(one) - place(other));
}

function listNumbers(argument: unknown): number[] {
  return rowsOf(argument)
    .flat()
    .filter((cell) => typeof cell === "number");
}

/** The graph of several tests: names that distinguish runs, and a note on the figures. */
export function describeGraph(
  group: readonly DrawnTest[],
  targets: readonly GraphTarget[],
  words: { readonly title: string; readonly subtitle: string },
): GraphData {
  const [first] = group;
  const lines = group.map((test) => nameLine(test, group));
  return {
    ...words,
    flowUnit: first?.flowUnit ?? "in the sheet's unit of flow",
    lines,
    targets,
    confidence: first?.confidence ?? 0.95,
    note: `${describeConditions(group, targets)}${describeTechnique(group, lines)}`,
  };
}

/** A direction occurring once is name enough; several runs are named by their sheet, which may include the direction, or by cell if they share a sheet. */
function nameLine(test: DrawnTest, group: readonly DrawnTest[]): GraphLine {
  const alike = group.filter(({ line }) => line.name === test.line.name);
  if (alike.length === 1) return test.line;
  const ownSheets = new Set(alike.map(({ sheetName }) => sheetName)).size === alike.length;
  const saysIt = ownSheets && new RegExp(`(?<!\\p{L})${test.line.name}`, "iu").test(test.sheetName);
  return {
    ...test.line,
    name: saysIt ? test.sheetName : `${test.line.name}, ${ownSheets ? test.sheetName : test.cell}`,
  };
}

/** How the lines were fitted, unless by ordinary least squares, and the influence of an expected exponent on each. */
function describeTechnique(group: readonly DrawnTest[], lines: readonly GraphLine[]): string {
  const techniques = new Set(group.map(({ fit }) => fit.technique));
  if (techniques.size === 1 && techniques.has("ordinary")) return "";
  const shares = group.flatMap(({ fit }, index) =>
    fit.prior === undefined ? [] : `${(100 * fit.prior.share).toFixed(0)} % in ${lines[index]?.name}`,
  );
  const prior = shares.length === 0 ? "" : ` Prior on n for houses weighs ${shares.join(", ")}; the limits include it.`;
  return ` Technique of the line: ${[...techniques].join("; ")}.${prior}`;
}

function describeConditions(group: readonly DrawnTest[], targets: readonly GraphTarget[]): string {
  if (!group.every(({ atReference }) => atReference)) return "All values are at the conditions of the test.";
  const limit = targets.length > 0 ? "q50 and the limit are" : "q50 is";
  return (
    `${limit} at reference conditions (20 °C, 101 325 Pa, dry air); readings, C and lines are at the conditions of the test, ` +
    `so a line crosses 50 Pa slightly off q50.`
  );
}
