import { type Caller, type FunctionTable, type Lazy, takes } from "../calls/function-entry";
import { boundArray } from "../values/broadcast";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { isSingleCell } from "../../book/area";
import { buildFromRows } from "./arrays";

/** The positions of a delimiter in a text, from the front. */
function findPlaces(text: string, delimiter: string, anyCase: boolean): number[] {
  const within = anyCase ? text.toLowerCase() : text;
  const wanted = anyCase ? delimiter.toLowerCase() : delimiter;
  const places: number[] = [];
  for (let at = within.indexOf(wanted); at >= 0; at = within.indexOf(wanted, at + wanted.length)) places.push(at);
  return places;
}

const readDelimiter = (given: Value, caller: Caller): Scalar => {
  if (given instanceof Matrix || (given instanceof Reference && caller.scalars(given) instanceof Matrix))
    return refuse(`${caller.name} with several delimiters`);
  return given instanceof Omitted ? "" : caller.scalar(given);
};

/** TEXTBEFORE and TEXTAFTER: the text on one side of the delimiter's n-th place, counted from the end where n is negative. */
const defineBesideDelimiter = (before: boolean) =>
  takes(
    ["text", "values", "number??", "number??", "number??", "lazy??"],
    ([text, given, instance = 1, mode = 0, end = 0, missing], caller) => {
      const delimiter = readDelimiter(given, caller);
      if (isError(delimiter)) return delimiter;
      if (typeof delimiter !== "string" || delimiter === "" || end !== 0 || (mode !== 0 && mode !== 1))
        return refuse(`${caller.name} with an empty delimiter, a number for one, or the end of the text as one`);
      const turn = instance < 0 ? Math.floor(instance) : toInteger(instance);
      if (turn === 0) return errors.value;
      if (delimiter.length > text.length) return refuse(`${caller.name} with a delimiter longer than the text`);
      const places = findPlaces(text, delimiter, mode === 1);
      const place = turn > 0 ? places[turn - 1] : places[places.length + turn];
      if (place === undefined) return evaluateFallback(missing, caller);
      return before ? text.slice(0, place) : text.slice(place + delimiter.length);
    },
  );

/** TEXTSPLIT: columns at one delimiter, rows at another; rows that are too short are filled up. */
function split(
  text: string,
  column: Scalar,
  row: Scalar,
  ignoreEmpty: boolean,
  anyCase: boolean,
  padding: Scalar,
): Value {
  const cut = (whole: string, delimiter: Scalar): string[] => {
    if (delimiter === null) return [whole];
    if (typeof delimiter !== "string" || delimiter === "")
      return refuse("TEXTSPLIT with an empty delimiter or a number for one");
    const places = findPlaces(whole, delimiter, anyCase);
    const ends = [...places, whole.length];
    const parts = ends.map((end, place) =>
      whole.slice(place === 0 ? 0 : (places[place - 1] ?? 0) + delimiter.length, end),
    );
    return ignoreEmpty ? parts.filter((part) => part !== "") : parts;
  };
  const rows = cut(text, row).map((line) => cut(line, column));
  const width = rows.reduce((most, parts) => Math.max(most, parts.length), 0);
  boundArray(rows.length, width);
  return buildFromRows(rows.map((parts) => [...parts, ...Array<Scalar>(width - parts.length).fill(padding)]));
}

/** What is given for "not found"; a blank cell as the empty text. */
function evaluateFallback(missing: Lazy | undefined, caller: Caller): Value {
  if (!missing) return errors.notAvailable;
  const value = missing.value();
  return value instanceof Reference && value.area && isSingleCell(value.area) ? (caller.scalar(value) ?? "") : value;
}

/** Parts of texts between delimiters. */
export const textDelimiters: FunctionTable = {
  TEXTBEFORE: defineBesideDelimiter(true),
  TEXTAFTER: defineBesideDelimiter(false),
  TEXTSPLIT: takes(
    ["text", "values??", "values??", "logical??", "number??", "any??"],
    ([text, column, row, ignoreEmpty = false, mode = 0, padding = errors.notAvailable], caller) => {
      const delimiters = [column, row].map((given) => (given === undefined ? null : readDelimiter(given, caller)));
      const [wrong] = delimiters.filter((delimiter) => isError(delimiter));
      if (wrong !== undefined) return wrong;
      if (mode !== 0 && mode !== 1) return errors.value;
      if (column === undefined && row === undefined) return errors.value;
      return split(text, delimiters[0] ?? null, delimiters[1] ?? null, ignoreEmpty, mode === 1, padding);
    },
  ),
};
