import { ErrorValue } from "../../model";
import { type Caller, type FunctionEntry, type FunctionTable, takes } from "../calls/function-entry";
import { isError, toInteger, toText } from "../values/coerce";
import { isSameText } from "../values/comparison";
import { refuse } from "../values/refusal";
import { errors, Matrix, type Reference, type Scalar, type Value } from "../values/value";
import { aggregates } from "./aggregate";
import { type Criterion, parseCriterion } from "./conditional";
import { splitIntoRows } from "./arrays";
import { readMatrix } from "./gather";
import { statistics } from "./statistics";

/** Which column of a list is meant: by its heading or its number; undefined for none. */
function findField(list: Matrix, field: Exclude<Scalar, ErrorValue>): number | undefined {
  if (typeof field === "number") {
    const place = toInteger(field) - 1;
    return place >= 0 && place < list.columns ? place : undefined;
  }
  return typeof field === "string" ? findHeading(list, field) : undefined;
}

function findHeading(list: Matrix, heading: Scalar): number | undefined {
  const wanted = toText(heading);
  if (isError(wanted)) return undefined;
  const headings = list.values.slice(0, list.columns).map(toText);
  const place = headings.findIndex((text) => typeof text === "string" && isSameText(text.trim(), wanted.trim()));
  return place < 0 ? undefined : place;
}

/** A condition as it is written under a heading: a text alone means every text that begins with it. */
function readCondition(given: Scalar): Criterion {
  if (typeof given !== "string" || /^[<>=]/.test(given)) return parseCriterion(given);
  if (typeof parseCriterion(given).wanted === "number") return parseCriterion(given);
  return parseCriterion(`=${given}*`);
}

interface Condition {
  readonly column: number;
  readonly meets: Criterion;
}

/** The rows of conditions under the headings: all of a row must be met, and any of the rows. */
function readConditions(list: Matrix, criteria: Matrix, caller: Caller): Condition[][] {
  if (criteria.rows < 2) refuse(`${caller.name} without conditions`);
  const columns = Array.from({ length: criteria.columns }, (_, column) => findHeading(list, criteria.at(0, column)));
  return splitIntoRows(criteria)
    .slice(1)
    .map((row) =>
      row.flatMap((given, place): Condition[] => {
        if (given === null) return [];
        const column = columns[place];
        if (column === undefined)
          return refuse(`${caller.name} with a condition under a heading that the list does not have`);
        return [{ column, meets: readCondition(given) }];
      }),
    );
}

/** The values of a field in the rows that meet the conditions; without a field one 1 for each such row. */
function chooseValues(
  range: Reference,
  field: Exclude<Scalar, ErrorValue> | undefined,
  conditions: Reference,
  caller: Caller,
): Scalar[] | ErrorValue {
  const [list, criteria] = [range, conditions].map((given) => readMatrix(given, caller));
  if (!(list instanceof Matrix) || !(criteria instanceof Matrix)) return errors.value;
  if (list.beyond || criteria.beyond) return refuse(`a whole column inside ${caller.name}`);
  const place = field === undefined ? undefined : findField(list, field);
  if (field !== undefined && place === undefined) return errors.value;
  const alternatives = readConditions(list, criteria, caller);
  return splitIntoRows(list)
    .slice(1)
    .filter((row) => alternatives.some((all) => all.every(({ column, meets }) => meets(row[column] ?? null))))
    .map((row) => (place === undefined ? 1 : (row[place] ?? null)));
}

/** A function of the chosen values, as if they were a range. */
const defineOnChosen = (entry: FunctionEntry | undefined, fieldMayLack = false) =>
  takes(["reference", fieldMayLack ? "scalar??" : "scalar", "reference"], ([list, field, criteria], caller): Value => {
    const chosen = chooseValues(list, field, criteria, caller);
    if (isError(chosen)) return chosen;
    return entry?.compute(caller, [new Matrix(chosen.length, 1, chosen, false, undefined, true)]) ?? errors.value;
  });

/** Sums, counts and extremes of the rows of a list that meet conditions written in cells. */
export const databaseFunctions: FunctionTable = {
  DSUM: defineOnChosen(aggregates["SUM"]),
  DAVERAGE: defineOnChosen(aggregates["AVERAGE"]),
  DCOUNT: { ...defineOnChosen(aggregates["COUNT"], true), least: 3 },
  DCOUNTA: { ...defineOnChosen(aggregates["COUNTA"], true), least: 3 },
  DMAX: defineOnChosen(aggregates["MAX"]),
  DMIN: defineOnChosen(aggregates["MIN"]),
  DPRODUCT: defineOnChosen(aggregates["PRODUCT"]),
  DSTDEV: defineOnChosen(statistics["STDEV"]),
  DSTDEVP: defineOnChosen(statistics["STDEVP"]),
  DVAR: defineOnChosen(statistics["VAR"]),
  DVARP: defineOnChosen(statistics["VARP"]),
  DGET: takes(["reference", "scalar", "reference"], ([list, field, criteria], caller) => {
    const chosen = chooseValues(list, field, criteria, caller);
    if (isError(chosen)) return chosen;
    const [only, ...others] = chosen.filter((value) => value !== null);
    if (only === undefined) return errors.value;
    return others.length > 0 ? errors.number : only;
  }),
};
