import { expect } from "vitest";
import { validityChecks } from "../../../src/functions";
import { column } from "../errors";

export type Table = unknown[][];

export const rowOf = (table: Table, symbol: string) => {
  const row = table.find((cells) => cells[1] === symbol);
  if (row === undefined) return expect.fail(`no row ${symbol}`);
  const [check, , measured, limit, unit, outcome, weight, clause, advice] = row;
  return { check, measured, limit, unit, outcome, weight, clause, advice };
};

export const outcome = (table: Table, symbol: string) => rowOf(table, symbol).outcome;

export const symbolsWith = (table: Table, wanted: string, weight = "binding") =>
  table.filter((row) => row[5] === wanted && row[6] === weight).map((row) => row[1]);

export const certificates: [string, unknown][] = [
  ["test date", 46000],
  ["gauge certificate valid until", 46000],
  ["flow device certificate valid until", 46365],
];

export const complete: [string, unknown][] = [
  ["volume", 420],
  ["flow basis", "actual at the fan"],
  ["indoor temperature", 21],
  ["outdoor temperature", 5],
  ...certificates,
];

export const pressures = [-61.3, -51.3, -41.3, -31.3, -21.3];

export const flows = [574, 507, 441, 364, 281];

export interface Case {
  readonly direction?: "depressurization" | "pressurization";
  readonly pressures?: readonly unknown[];
  readonly flows?: readonly unknown[];
  readonly before?: readonly unknown[];
  readonly after?: readonly unknown[] | undefined;
  readonly settings?: readonly (readonly [string, unknown])[];
}

/** Checks of a calm test, with what a case changes; its settings stand below the complete ones. */
export function checks(given: Case = {}): Table {
  const after = "after" in given ? given.after : [-1, -1.4, -1.2];
  return validityChecks(
    given.direction ?? "depressurization",
    column(...(given.pressures ?? pressures)),
    column(...(given.flows ?? flows)),
    column(...(given.before ?? [-1.2, -1.6, -1.4])),
    after && column(...after),
    [...complete.map((row) => [...row]), ...(given.settings ?? []).map((row) => [...row])],
  );
}
