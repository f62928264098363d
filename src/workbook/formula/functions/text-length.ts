import type { ErrorValue } from "../../model";
import { toInteger } from "../values/coerce";
import { errors, type Scalar } from "../values/value";

/** The longest text that a cell holds. */
export const longest = 32_767;
/** A text, or #VALUE! where it is too long for a cell. */
export const fitting = (text: string): Scalar => (text.length > longest ? errors.value : text);

/** Texts in a row, or #VALUE! where they are too long for a cell: then they are not joined at all. */
export function joinedTexts(texts: readonly string[]): Scalar {
  let length = 0;
  for (const text of texts) if ((length += text.length) > longest) return errors.value;
  return texts.join("");
}

/** A count of letters: negative ones are #VALUE!. */
export const countOf = (value: number): number | ErrorValue =>
  value < 0 ? errors.value : toInteger(Math.min(value, longest + 1));
