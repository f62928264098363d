import type { MethodError } from "../../../core/index";
import {
  type Check,
  type CheckName,
  checkNames,
  directions,
  firstCheckNames,
  type resultDirections,
} from "../../../core/index";
import { isBlankOrZero, plain, wordIn } from "../../cells/cells";
import { differenceFromMethod, fromMethod, type UnitSystem } from "../../cells/units";
import { wordsOfCheck } from "./words";
import { invalid, missing } from "../../cells/rule-codes";

/** Columns of a table of VALIDITYCHECKS. */
const columns = { check: 0, symbol: 1, measured: 2, limit: 3, outcome: 5, weight: 6, advice: 8 } as const;
const width = 9;

const weights = ["binding", "advisory"];

/** True where a range holds checks rather than single words. */
export function isChecksTable(rows: readonly (readonly unknown[])[]): boolean {
  return rows.some((row) =>
    row.some((cell) => typeof cell === "string" && weights.includes(cell.trim().toLowerCase())),
  );
}

function text(cell: unknown): string {
  return typeof cell === "string" ? cell : "";
}

function notWhole(argument = "validity", row?: number): MethodError {
  return invalid(argument, "checksNeeded", { columns: width, rows: checkNames.length }, row);
}

/** Throws unless the table has every check once per direction; a table of an earlier version is named as such. */
function requireWhole(counts: ReadonlyMap<string, number>): void {
  const tables = counts.get(checkNames[0]) ?? 0;
  const isTableOf = (names: readonly string[]) =>
    counts.size === names.length && names.every((name) => counts.get(name) === tables);
  if (isTableOf(checkNames)) return;
  throw isTableOf(firstCheckNames)
    ? invalid("validity", "checksOutdated", { older: firstCheckNames.length, rows: checkNames.length })
    : notWhole();
}

/**
 * Sums up one or more whole tables of VALIDITYCHECKS, one below the other or in two arguments: "not valid" where a binding check is not met.
 * @param of What the judged result is of; where it is not said, both directions, unless the standard asks for one.
 * Errors: a binding check that cannot be judged, or holds no outcome, and a direction of the result that no table covers (missing, naming it); a table of an
 * earlier version, or one that was cut: a check that is not met might be what is left out.
 */
export function requireJudged(
  tables: Readonly<Record<string, readonly (readonly unknown[])[]>>,
  of: (typeof resultDirections)[number] | undefined,
): "valid" | "not valid" {
  const counts = new Map<string, number>();
  const covered = new Set<unknown>();
  let open: MethodError | undefined;
  let wanted: unknown = of;
  let broken = false;
  for (const [argument, rows] of Object.entries(tables)) {
    rows.forEach((cells, index) => {
      const row = index + 1;
      const values = cells.map((cell) => plain(cell, argument, row));
      if (values.every(isBlankOrZero) || values[columns.symbol] === "symbol") return;
      if (values.length !== width) throw notWhole(argument);
      const weight = wordIn(values[columns.weight], argument, row) ?? "";
      if (!weights.includes(weight)) throw notWhole(argument, row);
      const symbol = text(values[columns.symbol]);
      counts.set(symbol, (counts.get(symbol) ?? 0) + 1);
      if (symbol === checkNames[0]) {
        covered.add(values[columns.measured]);
        wanted ??= values[columns.limit];
      }
      if (weight === "advisory") return;
      const outcome = wordIn(values[columns.outcome], argument, row);
      if (outcome === "not met") broken = true;
      else if (outcome !== "met") {
        const [check, advice] = [text(values[columns.check]), text(values[columns.advice])];
        open ??= missing(argument, "checkOpen", { check, advice }, row);
      }
    });
  }
  requireWhole(counts);
  if (broken) return "not valid";
  if (open !== undefined) throw open;
  const ofOne = directions.find((direction) => direction === wanted);
  const uncovered = directions.find((direction) => !covered.has(direction) && direction === (ofOne ?? direction));
  if (uncovered !== undefined) throw missing("validity", "directionOpen", { direction: uncovered });
  return "valid";
}

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
