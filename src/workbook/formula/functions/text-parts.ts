import { isError, toInteger } from "../coerce";
import { takes, type FunctionTable, type Lazy } from "../function-entry";
import { refuse } from "../refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../value";
import type { Caller } from "../caller";
import { roundDecimal } from "./rounding";

/** Where a delimiter stands in a text, from the front. */
function placesOf(text: string, delimiter: string, anyCase: boolean): number[] {
  const within = anyCase ? text.toLowerCase() : text;
  const wanted = anyCase ? delimiter.toLowerCase() : delimiter;
  const places: number[] = [];
  for (let at = within.indexOf(wanted); at >= 0; at = within.indexOf(wanted, at + wanted.length)) places.push(at);
  return places;
}

const delimiterOf = (given: Value, caller: Caller): Scalar => {
  if (given instanceof Matrix || (given instanceof Reference && caller.scalars(given) instanceof Matrix))
    return refuse(`${caller.name} with several delimiters`);
  return given instanceof Omitted ? "" : caller.scalar(given);
};

/** TEXTBEFORE and TEXTAFTER: the text on one side of the delimiter's n-th place, counted from the end where n is negative. */
const besideDelimiter = (before: boolean) =>
  takes(
    ["text", "values", "number??", "number??", "number??", "lazy??"],
    ([text, given, instance = 1, mode = 0, end = 0, missing], caller) => {
      const delimiter = delimiterOf(given, caller);
      if (isError(delimiter)) return delimiter;
      if (typeof delimiter !== "string" || delimiter === "" || end !== 0 || (mode !== 0 && mode !== 1))
        return refuse(`${caller.name} with an empty delimiter, a number for one, or the end of the text as one`);
      const turn = toInteger(instance);
      if (turn === 0) return errors.value;
      const places = placesOf(text, delimiter, mode === 1);
      const place = turn > 0 ? places[turn - 1] : places[places.length + turn];
      if (place === undefined) return otherwise(missing);
      return before ? text.slice(0, place) : text.slice(place + delimiter.length);
    },
  );

const otherwise = (missing: Lazy | undefined): Value => (missing ? missing.value() : errors.notAvailable);

/** Every word with a capital, all other letters small; whatever is no letter ends a word, an apostrophe too. */
function proper(text: string): Scalar {
  const small = text.toLowerCase();
  const result = small.replace(/(^|\P{L})(\p{L})/gu, (_, gap: string, letter: string) => gap + letter.toUpperCase());
  return result.length === text.length && !/ß/.test(result)
    ? result
    : refuse("a letter whose other case is more than one letter");
}

function fixed(value: number, decimals: number, plain: boolean): Scalar {
  const places = toInteger(decimals);
  if (Math.abs(value) * 10 ** Math.max(0, places) >= 1e15) return refuse("FIXED with more digits than are certain");
  const rounded = roundDecimal(value, places, "nearest");
  const digits = Math.abs(rounded).toFixed(Math.max(0, places));
  const [whole = "0", rest] = digits.split(".");
  const grouped = plain ? whole : whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return `${rounded < 0 ? "-" : ""}${grouped}${rest === undefined ? "" : `.${rest}`}`;
}

/** A number written with separators of its own: blanks do not count, a per cent sign at the end divides by a hundred. */
function separated(text: string, decimal: string, group: string): Scalar {
  const bare = text.replace(/\s/g, "");
  if (bare === "") return 0;
  const [point = "", comma = ""] = [decimal[0], group[0]];
  if (point === "" || comma === "") return errors.value;
  if (point === comma || /[\d+%e-]/i.test(point + comma)) return refuse("NUMBERVALUE with such signs as separators");
  const [whole = "", rest, ...more] = bare.split(point);
  if (more.length > 0 || (rest ?? "").includes(comma)) return errors.value;
  const written = whole.split(comma).join("") + (rest === undefined ? "" : `.${rest}`);
  const match = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)(%*)$/i.exec(written);
  if (!match) return /\d/.test(written) ? refuse("NUMBERVALUE of a text that is not a plain number") : errors.value;
  return Number(match[1]) / 100 ** (match[2] ?? "").length;
}

/** Parts of texts, and numbers as texts of a fixed form. */
export const textParts: FunctionTable = {
  TEXTBEFORE: besideDelimiter(true),
  TEXTAFTER: besideDelimiter(false),
  PROPER: takes(["text"], ([text]) => proper(text)),
  // Decimal point and comma are taken for granted, as in TEXT.
  FIXED: takes(["number", "number??", "logical?"], ([value, decimals = 2, plain = false]) =>
    fixed(value, decimals, plain),
  ),
  NUMBERVALUE: takes(["text", "text?", "text?"], ([text, decimal, group]) => {
    if (decimal === undefined || group === undefined) {
      return /^\d+$/.test(text) ? Number(text) : refuse("NUMBERVALUE without separators depends on the locale");
    }
    return separated(text, decimal, group);
  }),
};
