import { parsePlace, readTypedValue, sentence, type TypedValue } from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";

/** A cell of a sheet, zero-based. */
export type CellPlace = Readonly<Record<"row" | "column", number>>;

/** One --set as typed: the sheet by name, if any, and the cell, or the words of its label. */
export interface Setting {
  readonly typed: string;
  readonly sheet: string | undefined;
  readonly target: CellPlace | string;
  readonly value: TypedValue;
}

export const example = "--set 'Sheet!B4=512'";

/** Reads "Sheet!B4=512", "'Air leakage'!B4=512", "Rooms!tolerance of each length=0.03" or "internal volume=512"; throws BadArgument. */
export function readSetting(typed: string): Setting {
  const match = /^(?:(?:'((?:[^']|'')+)'|([^!=]+))!)?([^=]+)=([\s\S]*)$/.exec(typed);
  const [, quoted, plain, words = "", text = ""] = match ?? [];
  const target = words.trim();
  if (!match || target === "") throw new BadArgument(sentence`--set "${typed}" is not valid; write it as ${example}`);
  const sheet = quoted?.replaceAll("''", "'") ?? plain;
  const refuse = (why: string): BadArgument => new BadArgument(sentence`--set "${typed}": ` + why);
  const [, letters, digits] = /^\$?([A-Za-z]+)\$?(\d+)$/.exec(target) ?? [];
  if (sheet === undefined || letters === undefined || digits === undefined)
    return { typed, sheet, target, value: readTypedValue(text, refuse) };
  const place = parsePlace(letters + digits);
  if (!place) throw refuse(sentence`${target} is not a cell of a sheet`);
  return { typed, sheet, target: place, value: readTypedValue(text, refuse) };
}
