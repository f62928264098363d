import { toInteger } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, type Scalar } from "../values/value";
import { roundDecimal } from "./rounding";

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
  const match = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)(%*)$/i.exec(written);
  if (!match) return /\d/.test(written) ? refuse("NUMBERVALUE of a text that is not a plain number") : errors.value;
  return Number(match[1]) / 100 ** (match[2] ?? "").length;
}

/** Texts and numbers in a fixed form. */
export const textParts: FunctionTable = {
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
