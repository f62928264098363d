import { rowsOf } from "../../../functions/cells/cells";
import type { AddInCall } from "../../formula/calls/add-in";
import { type ComparedResult, type ComputedRun, isNear } from "./computed-runs";

/** A limit as a flow: the maximum leakage at one pressure. */
export interface TestLimit {
  readonly pressure: number;
  readonly flow: number;
  /** As the workbook states it, such as n50, 0.6, "1/h"; undefined if it states the flow itself. */
  readonly stated: { readonly quantity: string; readonly value: number; readonly unit: string } | undefined;
}

/**
 * The limits that a workbook compares these runs with, as flows. PASSFAIL does not say what its numbers are; they are identified by finding the same number among the runs' results
 * and their mean. TARGETGAP gives the flow itself. A limit on any other number (one rounded before) is not guessed.
 */
export function findLimits(group: readonly ComputedRun[], recorded: readonly AddInCall[]): TestLimit[] {
  const results = averageResults(group);
  const found: TestLimit[] = [];
  const add = (target: TestLimit): void => {
    const known = found.some(({ pressure, flow }) => pressure === target.pressure && isNear(flow, target.flow));
    if (!known && target.flow > 0 && target.flow < Infinity) found.push(target);
  };
  for (const { id, given, answer } of recorded) {
    const [result, limit] = [readOnlyNumber(given[0]), readOnlyNumber(given[1])];
    if (result === undefined || limit === undefined) continue;
    const same = results.find(({ value }) => isNear(value, result));
    if (!same) continue;
    const { quantity, unit, pressure, flow, value } = same;
    if (id === "PASSFAIL") {
      const stated = /^q\d/.test(quantity) ? undefined : { quantity, value: limit, unit };
      add({ pressure, flow: (limit * flow) / value, stated });
    } else if (id === "TARGETGAP" && pressure === 50) {
      const row = rowsOf(answer).find(([, symbol]) => symbol === "q50_limit");
      if (typeof row?.[2] === "number") add({ pressure, flow: row[2], stated: undefined });
    }
  }
  return found;
}

/** Results of each run, and the mean of the directions, each direction's runs averaged first. */
function averageResults(group: readonly ComputedRun[]): ComparedResult[] {
  const all = group.flatMap(({ results }) => results);
  const byDirection = groupByDirection(group);
  const quantities = new Set(all.map(({ quantity }) => quantity));
  const means = [...quantities].flatMap((quantity): ComparedResult[] => {
    const runs = [...byDirection.values()].map((ofDirection) =>
      ofDirection.flatMap(({ results }) => results.filter((result) => result.quantity === quantity)),
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

function groupByDirection(group: readonly ComputedRun[]): Map<string, ComputedRun[]> {
  const found = new Map<string, ComputedRun[]>();
  for (const run of group) {
    const key = run.direction ?? "";
    found.set(key, [...(found.get(key) ?? []), run]);
  }
  return found;
}

const computeMean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

function readOnlyNumber(argument: unknown): number | undefined {
  const cells = rowsOf(argument).flat();
  return cells.length === 1 && typeof cells[0] === "number" ? cells[0] : undefined;
}
