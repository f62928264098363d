import { ErrorValue } from "../../model";
import type { Caller } from "../calls/caller";
import { isError, toInteger, toText } from "../values/coerce";
import { takes, takesMany, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { numberOfText } from "../values/text-number";
import { errors, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { directScalar, firstValue } from "./gather";
import { countOf, joinedTexts, longest } from "./text-length";

/** Every text of ranges, arrays and single values, in order; `ends` drops nothing, blanks are empty texts. */
function textsIn(values: readonly Value[], caller: Caller, keepsBlanks = false): string[] | ErrorValue {
  const texts: string[] = [];
  for (const value of values) {
    const scalars: readonly Scalar[] | ErrorValue =
      value instanceof Reference || value instanceof Matrix ? allOf(value, caller, keepsBlanks) : [directScalar(value)];
    if (scalars instanceof ErrorValue) return scalars;
    for (const scalar of scalars) {
      const text = toText(scalar);
      if (isError(text)) return text;
      texts.push(text);
    }
  }
  return texts;
}

function allOf(value: Reference | Matrix, caller: Caller, keepsBlanks: boolean): readonly Scalar[] | ErrorValue {
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
  UPPER: takes(["text"], ([text]) => cased(text, text.toUpperCase())),
  LOWER: takes(["text"], ([text]) => cased(text, text.toLowerCase())),
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
    const texts = textsIn(values, caller);
    return isError(texts) ? texts : joinedTexts(texts);
  }),
  CONCATENATE: takesMany([], ["text"], 1, (_, texts) => joinedTexts(texts)),
  TEXTJOIN: takesMany(["values", "logical"], ["values"], 3, ([delimiter, ignoreEmpty], values, caller) => {
    const delimiters = delimiter instanceof Omitted ? [""] : textsIn([delimiter], caller);
    if (isError(delimiters)) return delimiters;
    const texts = textsIn(values, caller, !ignoreEmpty);
    if (isError(texts)) return texts;
    const kept = ignoreEmpty ? texts.filter((text) => text !== "") : texts;
    return joinedTexts(
      kept.flatMap((text, place) => (place === 0 ? [text] : [delimiters[(place - 1) % delimiters.length] ?? "", text])),
    );
  }),
  T: takes(["values"], ([value], caller) => {
    const first = firstValue(value, caller);
    return typeof first === "string" || isError(first) ? first : "";
  }),
  VALUE: takes(["scalar"], ([value]) => {
    if (typeof value === "boolean") return errors.value;
    return typeof value === "string" ? (numberOfText(value) ?? errors.value) : (value ?? 0);
  }),
  HYPERLINK: takes(["scalar", "scalar?"], ([link, shown]) => {
    if (shown !== undefined) return shown ?? 0;
    return typeof link === "string" ? link : refuse("HYPERLINK to something that is no text");
  }),
};

/** Some letters have no single letter in the other case; there Excel keeps them. */
function cased(text: string, result: string): Scalar {
  return result.length === text.length ? result : refuse("a letter whose other case is more than one letter");
}
