import type { Check, CheckName } from "../../../core/index";
import { differenceFromMethod, fromMethod, type UnitSystem } from "../../cells/units";
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

/** The unit in which a person reads a measured value and its limit, and the way there from the method's. */
interface Scale {
  readonly unit: string;
  readonly toUser: (value: number) => number;
}

type Range = Exclude<NonNullable<Check["limit"]>, string>;

const measures: Readonly<Partial<Record<CheckName, keyof UnitSystem>>> = {
  wind: "speed",
  theta_e: "temperature",
  ci_qE75: "permeability",
};

function scaleOf(name: CheckName, system: UnitSystem): Scale {
  if (name === "height_dT") {
    return {
      unit: `${system.length}·${system.temperature === "°F" ? "°F" : "K"}`,
      toUser: (product) => fromMethod(differenceFromMethod(product, system), "length", system),
    };
  }
  const measured = measures[name];
  if (measured === undefined) return { unit: wordsOfCheck[name].unit, toUser: (value) => value };
  return { unit: system[measured], toUser: (value) => fromMethod(value, measured, system) };
}

/** A range as a person writes it, its ends converted where a way is given. */
export function rangeText({ lower, upper, above }: Range, toUser = (end: number) => end): string {
  const shown = (end: number) => String(Number(toUser(end).toPrecision(4)));
  if (above !== undefined) return `> ${shown(above)}`;
  if (upper === undefined) return `≥ ${shown(lower ?? 0)}`;
  return lower === undefined ? `≤ ${shown(upper)}` : `${shown(lower)} to ${shown(upper)}`;
}

function limitText({ name, limit }: Check, { toUser }: Scale): string {
  if (name === "method") return "";
  if (limit === undefined) return "none in this standard";
  return typeof limit === "string" ? limit : rangeText(limit, toUser);
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
  return of === undefined ? advice : `${measured} of ${of} are exactly 0; ${advice}`;
}

/** One check as a row of the table, in the user's units. */
export function rowOf(check: Check, edition: string, system: UnitSystem): (number | string)[] {
  const { name, measured = "", outcome, binding } = check;
  const scale = scaleOf(name, system);
  const value = typeof measured === "number" ? scale.toUser(measured) : measured;
  const limit = limitText(check, scale);
  const weight = binding ? "binding" : "advisory";
  const { what } = wordsOfCheck[name];
  return [what, name, value, limit, scale.unit, outcome, weight, clauseText(check, edition), todo(check)];
}
