import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { decimals, shortDay } from "../blocks/style";
import { sheets } from "./layout";
import type { Leak } from "./leaks";

export const states = ["open", "repaired", "retested", "accepted"] as const;
export const severities = ["small", "medium", "large"] as const;
export const payers = ["trade", "builder", "client"] as const;

export const table = { heads: 8, first: 9, last: 48 } as const;

export type Field = keyof Leak;

export interface Column {
  readonly head: string;
  readonly width: number;
  readonly format?: string;
}

/** The table's columns, in order: where and what on the first printed page, who and how much on the second. */
export const columns = {
  no: { head: "no", width: 4.5, format: decimals(0) },
  storey: { head: "storey", width: 11.5 },
  place: { head: "place", width: 27 },
  element: { head: "element", width: 12 },
  trade: { head: "trade", width: 12.5 },
  byWhom: { head: "by whom", width: 16 },
  action: { head: "action", width: 28 },
  photo: { head: "photo", width: 6, format: decimals(0) },
  due: { head: "due", width: 10.5, format: shortDay },
  state: { head: "state", width: 8.5 },
  found: { head: "found", width: 7, format: "d mmm" },
  foundBy: { head: "found by", width: 8 },
  direction: { head: "direction", width: 14 },
  severity: { head: "severity", width: 7.5 },
  retest: { head: "retest", width: 7, format: "d mmm" },
  planned: { head: "planned", width: 7 },
  pays: { head: "pays", width: 7 },
  cost: { head: "cost", width: 7, format: "0.##" },
  likely: { head: "likely", width: 6, format: "0.0##" },
  low: { head: "low", width: 5.5, format: "0.0##" },
  high: { head: "high", width: 5.5, format: "0.0##" },
} as const satisfies Record<Field, Column>;

export const fields = Object.keys(columns) as Field[];
/** The letter of a column. */
export const letterOf = (field: Field) => lettersOf(columnOf("B") + fields.indexOf(field));

/** Columns that follow from the table: outside it, because a protected sheet sorts a table only if all its cells are unlocked. */
export const derived = {
  flow: "W",
  from: "X",
  to: "Y",
  basis: "Z",
  worth: "AA",
  rank: "AB",
  remark: "AD",
  step: "AE",
  planned: "AF",
  plannedLikely: "AG",
  plannedLow: "AH",
  plannedHigh: "AI",
  key: "AJ",
  share: "AK",
} as const;

const whole = (letter: string) => onSheet(sheets.register, `${letter}${table.first}:${letter}${table.last}`);

/** What other sheets read from the register: a column's cells, and how many rows it has. */
export const register = {
  rows: table.last - table.first + 1,
  /** A typed column. */
  typed: (field: Field) => whole(letterOf(field)),
  /** A column that follows from it. */
  derived: (name: keyof typeof derived) => whole(derived[name]),
  /** Likely, low and high flow of the planned repairs; a blank row for every other leak. */
  planned: onSheet(sheets.register, `${derived.plannedLikely}${table.first}:${derived.plannedHigh}${table.last}`),
} as const;

/** A cell of the table, its column fixed. */
export function at(field: Field, row: number): string {
  return `$${letterOf(field)}${row}`;
}

/** Whether a leak is repaired and tested again. */
export function isDone(row: number): string {
  return `OR(${at("state", row)}="retested",${at("state", row)}="accepted")`;
}
