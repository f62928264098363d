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

/** A limit as a person writes it. */
function limitText({ name, limit }: Check): string {
  if (name === "method") return "";
  if (limit === undefined) return "none in this standard";
  if (typeof limit === "string") return limit;
  const shown = (end: number) => String(Number(end.toPrecision(4)));
  const { lower, upper, above } = limit;
  if (above !== undefined) return `> ${shown(above)}`;
  if (upper === undefined) return `≥ ${shown(lower ?? 0)}`;
  return lower === undefined ? `≤ ${shown(upper)}` : `${shown(lower)} to ${shown(upper)}`;
}

function clauseText({ origin }: Check, edition: string): string {
  if (origin === undefined) return "";
  const { clause, mark, find } = origin;
  if (mark === "practice") return "common practice, no source";
  return `${edition}, ${clause} (${mark === "C" ? "C" : `M, from memory: look for “${find}”`})`;
}

/** What to do where the limit is not kept, or what is missing where it cannot be judged. */
function todo({ name, outcome, measured, of }: Check): string {
  const { advice, missing } = wordsOfCheck[name];
  if (outcome === "cannot be judged") return missing;
  if (outcome !== "not met") return "";
  return of === undefined ? advice : `${measured} of ${of} are exactly 0: ${advice}`;
}

/** One check as a row of the table. */
export function rowOf(check: Check, edition: string): (number | string)[] {
  const { name, measured = "", outcome, binding } = check;
  const limit = limitText(check);
  const weight = binding ? "binding" : "advisory";
  const { what, unit } = wordsOfCheck[name];
  return finiteRow([what, name, measured, limit, unit, outcome, weight, clauseText(check, edition), todo(check)]);
}
