import { rowsOf } from "../../functions/cells/cells";
import type { AddInCall } from "../formula/calls/add-in";
import type { DrawnTest } from "./drawn-test";
import { isNear } from "./tests-in-book";

/**
 * Tests that belong on one graph: those whose results the workbook averages over both directions; otherwise the only depressurization with the only pressurization
 * of the workbook, or of one sheet. Every other test stands alone: which runs of many houses belong together is not guessed.
 */
export function groupsOf(tests: readonly DrawnTest[], calls: readonly AddInCall[]): DrawnTest[][] {
  const groups: DrawnTest[][] = [];
  const left = new Set(tests);
  const take = (group: readonly DrawnTest[]): void => {
    groups.push([...group]);
    for (const test of group) left.delete(test);
  };
  for (const { id, given } of calls) {
    if (id !== "AVERAGEDRESULT") continue;
    const [depressurization = [], pressurization = []] = given.slice(0, 2).map(numbersIn);
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

function numbersIn(argument: unknown): number[] {
  return rowsOf(argument)
    .flat()
    .filter((cell) => typeof cell === "number");
}
