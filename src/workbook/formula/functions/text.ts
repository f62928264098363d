import { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes, takesMany } from "../calls/function-entry";
import { isError, toInteger, toText } from "../values/coerce";
import { parseNumber } from "../values/number-text";
import { refuse } from "../values/refusal";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { readDirectScalar, readFirstValue } from "./gather";
import { roundDecimal } from "./rounding";

/** The longest text that a cell holds. */
export const longest = 32_767;
/** A text, or #VALUE! where it is too long for a cell. */
export const limitText = (text: string): Scalar => (text.length > longest ? errors.value : text);

/** Texts in a row, or #VALUE! where they are too long for a cell: then they are not joined at all. */
function joinTexts(texts: readonly string[]): Scalar {
  let length = 0;
  for (const text of texts) if ((length += text.length) > longest) return errors.value;
  return texts.join("");
}

/** A count of letters: negative ones are #VALUE!. */
export const countOf = (value: number): number | ErrorValue =>
  value < 0 ? errors.value : toInteger(Math.min(value, longest + 1));

/** Every text of ranges, arrays and single values, in order; `ends` drops nothing, blanks are empty texts. */
function collectTexts(values: readonly Value[], caller: Caller, keepsBlanks = false): string[] | ErrorValue {
  const texts: string[] = [];
  for (const value of values) {
    const scalars: readonly Scalar[] | ErrorValue =
      value instanceof Reference || value instanceof Matrix
        ? readAll(value, caller, keepsBlanks)
        : [readDirectScalar(value)];
    if (scalars instanceof ErrorValue) return scalars;
    for (const scalar of scalars) {
      const text = toText(scalar);
      if (isError(text)) return text;
      texts.push(text);
    }
  }
  return texts;
}

function readAll(value: Reference | Matrix, caller: Caller, keepsBlanks: boolean): readonly Scalar[] | ErrorValue {
  const scalars = caller.scalars(value);
  if (scalars instanceof Matrix) {
    return scalars.beyond && keepsBlanks ? refuse(`a whole column inside ${caller.name}`) : scalars.values;
  }
  return isError(scalars) ? scalars : [scalars];
}

/** Text in pieces, cases and joins. Lengths count UTF-16 units, as Excel counts them. */
export const textFunctions: FunctionTable = {
  LEN: takes(["text"], ([text]) => text.length),
  LEFT: takes(["text", "number?"], ([text, count = 1]) => {
    const length = countOf(count);
    return isError(length) ? length : text.slice(0, length);
  }),
  RIGHT: takes(["text", "number?"], ([text, count = 1]) => {
    const length = countOf(count);
    return isError(length) ? length : text.slice(Math.max(0, text.length - length));
  }),
  MID: takes(["text", "number", "number"], ([text, start, count]) => {
    const length = countOf(count);
    if (isError(length)) return length;
    return start < 1 ? errors.value : text.slice(toInteger(start) - 1, toInteger(start) - 1 + length);
  }),
  REPT: takes(["text", "number"], ([text, count]) => {
    const times = countOf(count);
    if (isError(times)) return times;
    return text.length * times > longest ? errors.value : text.repeat(times);
  }),
  TRIM: takes(["text"], ([text]) => text.replace(/ +/g, " ").replace(/^ | $/g, "")),
  CLEAN: takes(["text"], ([text]) => [...text].filter((letter) => letter.charCodeAt(0) >= 32).join("")),
  UPPER: takes(["text"], ([text]) => refuseUncertainCase(text, text.toUpperCase())),
  LOWER: takes(["text"], ([text]) => refuseUncertainCase(text, text.toLowerCase())),
  EXACT: takes(["text", "text"], ([a, b]) => a === b),
  CHAR: takes(["number"], ([code]) => {
    const unit = toInteger(code);
    if (unit < 1 || unit > 255) return errors.value;
    return unit < 128 ? String.fromCharCode(unit) : refuse("CHAR above 127 depends on the machine's code page");
  }),
  CODE: takes(["text"], ([text]) => {
    if (text === "") return errors.value;
    const code = text.charCodeAt(0);
    return code < 128 ? code : refuse("CODE above 127 depends on the machine's code page");
  }),
  UNICHAR: takes(["number"], ([code]) =>
    code >= 1 && code < 0xd800 ? String.fromCodePoint(toInteger(code)) : refuse("UNICHAR outside the plain characters"),
  ),
  CONCAT: takesMany([], ["values"], 1, (_, values, caller) => {
    const texts = collectTexts(values, caller);
    return isError(texts) ? texts : joinTexts(texts);
  }),
  CONCATENATE: takesMany([], ["text"], 1, (_, texts) => joinTexts(texts)),
  TEXTJOIN: takesMany(["values", "logical"], ["values"], 3, ([delimiter, ignoreEmpty], values, caller) => {
    const delimiters = delimiter instanceof Omitted ? [""] : collectTexts([delimiter], caller);
    if (isError(delimiters)) return delimiters;
    const texts = collectTexts(values, caller, !ignoreEmpty);
    if (isError(texts)) return texts;
    const kept = ignoreEmpty ? texts.filter((text) => text !== "") : texts;
    return joinTexts(
      kept.flatMap((text, place) => (place === 0 ? [text] : [delimiters[(place - 1) % delimiters.length] ?? "", text])),
    );
  }),
  T: takes(["values"], ([value], caller) => {
    const first = readFirstValue(value, caller);
    return typeof first === "string" || isError(first) ? first : "";
  }),
  VALUE: takes(["scalar"], ([value]) => {
    if (typeof value === "boolean") return errors.value;
    return typeof value === "string" ? (parseNumber(value) ?? errors.value) : (value ?? 0);
  }),
  HYPERLINK: takes(["scalar", "scalar?"], ([link, shown]) => {
    if (shown !== undefined) return shown ?? 0;
    return typeof link === "string" ? link : refuse("HYPERLINK to something that is no text");
  }),
};

/** Some letters have no single letter in the other case; there Excel keeps them. */
function refuseUncertainCase(text: string, result: string): Scalar {
  return result.length === text.length ? result : refuse("a letter whose other case is more than one letter");
}

/** Every word with a capital, all other letters small; whatever is no letter ends a word, an apostrophe too. */
function capitalizeWords(text: string): Scalar {
  const small = text.toLowerCase();
  const result = small.replace(/(^|\P{L})(\p{L})/gu, (_, gap: string, letter: string) => gap + letter.toUpperCase());
  return result.length === text.length && !/ß/.test(result)
    ? result
    : refuse("a letter whose other case is more than one letter");
}

function formatFixed(value: number, decimals: number, plain: boolean): Scalar {
  const places = toInteger(decimals);
  if (Math.abs(value) * 10 ** Math.max(0, places) >= 1e15) return refuse("FIXED with more digits than are certain");
  const rounded = roundDecimal(value, places, "nearest");
  const digits = Math.abs(rounded).toFixed(Math.max(0, places));
  const [whole = "0", rest] = digits.split(".");
  const grouped = plain ? whole : whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return `${rounded < 0 ? "-" : ""}${grouped}${rest === undefined ? "" : `.${rest}`}`;
}

/** A number written with the given separators: blanks do not count, a trailing per cent sign divides by a hundred. */
function parseSeparated(text: string, decimal: string, group: string): Scalar {
  const bare = text.replace(/\s/g, "");
  if (bare === "") return 0;
  const [point = "", comma = ""] = [decimal[0], group[0]];
  if (point === "" || comma === "") return errors.value;
  if (point === comma || /[\d+%e-]/i.test(point + comma)) return refuse("NUMBERVALUE with such signs as separators");
  const [whole = "", rest, ...more] = bare.split(point);
  if (more.length > 0 || (rest ?? "").includes(comma)) return errors.value;
  const written = whole.split(comma).join("") + (rest === undefined ? "" : `.${rest}`);
  const match = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)(%*)$/i.exec(written);
  if (!match) return /\d/.test(written) ? refuse("NUMBERVALUE of a text that is not a plain number") : errors.value;
  return Number(match[1]) / 100 ** (match[2] ?? "").length;
}

/** Texts and numbers in a fixed form. */
export const textParts: FunctionTable = {
  PROPER: takes(["text"], ([text]) => capitalizeWords(text)),
  // Decimal point and comma are taken for granted, as in TEXT.
  FIXED: takes(["number", "number??", "logical?"], ([value, decimals = 2, plain = false]) =>
    formatFixed(value, decimals, plain),
  ),
  NUMBERVALUE: takes(["text", "text?", "text?"], ([text, decimal, group]) => {
    if (decimal === "" || group === "") return errors.value;
    if (decimal === undefined || group === undefined) {
      return /^\d+$/.test(text) ? Number(text) : refuse("NUMBERVALUE without separators depends on the locale");
    }
    return parseSeparated(text, decimal, group);
  }),
};
