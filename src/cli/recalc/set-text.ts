import { ErrorValue, isErrorCode, mayBeNumber, parsePlace, sentence, type CellValue } from "../../workbook/index";
import { BadArgument } from "../shared/bad-argument";

/** One --set as it was typed: the sheet by name, the place zero-based. */
export interface Setting {
  readonly typed: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
}

const example = "--set 'Sheet!B4=512'";

/** Reads "Sheet!B4=512" or "'Air leakage'!B4=512"; throws BadArgument. */
export function readSetting(typed: string): Setting {
  const match = /^(?:'((?:[^']|'')+)'|([^!]+))!\$?([A-Za-z]+)\$?(\d+)\s*=([\s\S]*)$/.exec(typed);
  if (!match) throw new BadArgument(sentence`--set "${typed}" is not understood; write it as ${example}`);
  const [, quoted, plain = "", letters = "", digits = "", text = ""] = match;
  const place = parsePlace(letters + digits);
  if (!place) throw new BadArgument(sentence`--set "${typed}": ${letters}${digits} is not a cell of a sheet`);
  return { typed, sheet: quoted?.replaceAll("''", "'") ?? plain, ...place, value: readValue(text, typed) };
}

/** What a person would get in Excel by typing it, except where that depends on the computer's language: that is refused. */
function readValue(text: string, typed: string): CellValue {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (/^".*"$/s.test(trimmed) && trimmed.length > 1) return trimmed.slice(1, -1).replaceAll('""', '"');
  if (/^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?%?$/i.test(trimmed)) return readNumber(trimmed, typed);
  if (/^(true|false)$/i.test(trimmed)) return trimmed.toLowerCase() === "true";
  if (isErrorCode(trimmed.toUpperCase())) return new ErrorValue(trimmed.toUpperCase() as ErrorValue["code"]);
  if (trimmed.startsWith("=")) throw new BadArgument(sentence`--set "${typed}": only values can be set, not formulas`);
  if (/^[-+]?[\d.,\s'’]+%?$/.test(trimmed)) {
    throw new BadArgument(
      sentence`--set "${typed}": write numbers with a decimal point and no separators, text in double quotes`,
    );
  }
  if (/^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$|^\d{1,2}:\d{2}/.test(trimmed)) {
    throw new BadArgument(sentence`--set "${typed}": give a date or time as its serial number, text in double quotes`);
  }
  if (mayBeNumber(trimmed)) {
    throw new BadArgument(
      sentence`--set "${typed}": some settings of a computer make this a number or date; write numbers with a decimal point, dates as serial numbers, text in double quotes`,
    );
  }
  return text;
}

function readNumber(text: string, typed: string): number {
  const value = text.endsWith("%") ? Number(text.slice(0, -1)) / 100 : Number(text);
  if (!Number.isFinite(value)) throw new BadArgument(sentence`--set "${typed}": the number is too large for a cell`);
  return value;
}
