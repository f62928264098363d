import { roundDecimal } from "./functions/rounding";
import { refuse } from "./values/refusal";
import type { Scalar } from "./values/value";
import { sentence } from "../file/problem";

/** A format that shows digits, at most with a per cent sign, thousands separators, a sign and text in quotes. */
const plain = /^[#0,]*(?:\.([#0]+))?(%?)$/;

/**
 * What a cell keeps of a number where the workbook calculates with the precision as displayed: the digits that its format shows,
 * and all of them under General. Formats of which that is not certain are refused.
 */
export function asDisplayed(value: Scalar, format: string): Scalar {
  if (typeof value !== "number" || /^(general|@)?$/i.test(format)) return value;
  const bare = format.split(";").map((part) => part.replace(/"[^"]*"|[\\_*].|\[[a-z]+\]|[-+() $€£]/gi, ""));
  const matches = bare.map((part) => plain.exec(part));
  const places = matches.map((match) => (match ? (match[1]?.length ?? 0) + (match[2] ? 2 : 0) : undefined));
  const [first] = places;
  // Commas behind the digits divide by a thousand; parts that show differently many digits leave it open which of them counts.
  if (first === undefined || bare.some((part) => /,(?:$|[.%])/.test(part)) || places.some((other) => other !== first))
    return refuse(
      sentence`a cell with the format ${format} in a workbook that calculates with the precision as displayed`,
    );
  return roundDecimal(value, first, "nearest");
}
