import type { Check } from "../../../core/index";
import { finiteRow } from "../../cells/finite";
import { wordsOfCheck } from "./words";

export const headings = [
  "check",
  "symbol",
  "measured",
  "limit",
  "unit",
  "outcome",
  "binding or advisory",
  "clause",
  "what to do",
];

function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** A limit as a person writes it. */
function limitText(limit: Check["limit"]): string {
  if (limit === undefined) return "none in this standard";
  if (typeof limit === "string") return limit;
  const { lower, upper } = limit;
  if (upper === undefined) return `≥ ${shown(lower ?? 0)}`;
  return lower === undefined ? `≤ ${shown(upper)}` : `${shown(lower)} to ${shown(upper)}`;
}

const sourceOfMark = { C: " (C)", M: " (M: check against your own copy)" } as const;

function clauseText({ clause, mark }: Check, edition: string): string {
  if (mark === undefined) return "";
  return mark === "practice" ? "common practice, no source" : `${edition}, ${clause}${sourceOfMark[mark]}`;
}

/** One check as a row of the table. */
export function rowOf(check: Check, edition: string): (number | string)[] {
  const { name, measured = "", limit, outcome, binding } = check;
  const { what, unit, advice, missing } = wordsOfCheck[name];
  const todo = outcome === "not met" ? advice : outcome === "cannot be judged" ? missing : "";
  const weight = binding ? "binding" : "advisory";
  return finiteRow([what, name, measured, limitText(limit), unit, outcome, weight, clauseText(check, edition), todo]);
}
