import { rowsOf } from "../../../functions/cells/cells";
import type { AddInCall } from "../../formula/calls/add-in";
import { formatSignificant } from "../axes";
import type { GraphTarget } from "../data";
import { type ComparedResult, type DrawnTest, isNear } from "./find-tests";

/**
 * The limits that a workbook compares these tests with, as flows. PASSFAIL does not say what its numbers are; they are identified by finding the same number among the tests' results
 * and their mean. TARGETGAP gives the flow itself. A limit on any other number (one rounded before) is not guessed.
 */
export function findLimits(group: readonly DrawnTest[], calls: readonly AddInCall[]): GraphTarget[] {
  const results = averageResults(group);
  const found: GraphTarget[] = [];
  const add = (target: GraphTarget): void => {
    const known = found.some(({ pressure, flow }) => pressure === target.pressure && isNear(flow, target.flow));
    if (!known && target.flow > 0 && target.flow < Infinity) found.push(target);
  };
  for (const { id, given, answer } of calls) {
    const [result, limit] = [readOnlyNumber(given[0]), readOnlyNumber(given[1])];
    if (result === undefined || limit === undefined) continue;
    const same = results.find(({ value }) => isNear(value, result));
    if (!same) continue;
    const { quantity, unit, pressure, flow, value } = same;
    if (id === "PASSFAIL") {
      const words = /^q\d/.test(quantity) ? "" : `${quantity} ${formatPlainNumber(limit)} ${unit}`.trim();
      add({ pressure, flow: (limit * flow) / value, words });
    } else if (id === "TARGETGAP" && pressure === 50) {
      const row = rowsOf(answer).find(([, symbol]) => symbol === "q50_limit");
      if (typeof row?.[2] === "number") add({ pressure, flow: row[2], words: "" });
    }
  }
  return found;
}

/** Results of each test, and the mean of the directions, each direction's runs averaged first. */
function averageResults(group: readonly DrawnTest[]): ComparedResult[] {
  const all = group.flatMap(({ results }) => results);
  const byDirection = groupByDirection(group);
  const quantities = new Set(all.map(({ quantity }) => quantity));
  const means = [...quantities].flatMap((quantity): ComparedResult[] => {
    const runs = [...byDirection.values()].map((tests) =>
      tests.flatMap(({ results }) => results.filter((result) => result.quantity === quantity)),
    );
    const [first] = all.filter((result) => result.quantity === quantity);
    if (!first || runs.some(({ length }) => length === 0)) return [];
    const averageOverDirections = (pick: (result: ComparedResult) => number) =>
      computeMean(runs.map((own) => computeMean(own.map(pick))));
    return [
      { ...first, value: averageOverDirections(({ value }) => value), flow: averageOverDirections(({ flow }) => flow) },
    ];
  });
  return [...means, ...all];
}

function groupByDirection(group: readonly DrawnTest[]): Map<string, DrawnTest[]> {
  const found = new Map<string, DrawnTest[]>();
  for (const test of group) {
    const key = test.direction ?? "";
    found.set(key, [...(found.get(key) ?? []), test]);
  }
  return found;
}

const computeMean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

function readOnlyNumber(argument: unknown): number | undefined {
  const cells = rowsOf(argument).flat();
  return cells.length === 1 && typeof cells[0] === "number" ? cells[0] : undefined;
}

function formatPlainNumber(value: number): string {
  return Math.abs(value) < 1e-4 ? formatSignificant(value, 3) : String(Number(value.toPrecision(6)));
}
