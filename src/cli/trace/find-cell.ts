import { parsePlace, sentence, shorten, type Book } from "../../workbook/index";
import { BadArgument } from "../shared/bad-argument";
import { listed } from "../shared/words";

export interface Found {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** Finds "Sheet!C7", "'Air leakage'!C7", or the one cell of a defined name; throws BadArgument, saying what there is instead. */
export function findCell(book: Book, typed: string): Found {
  const match = /^(?:'((?:[^']|'')+)'|([^!]+))!\$?([A-Za-z]+)\$?(\d+)$/.exec(typed.trim());
  if (!match) return cellOfName(book, typed.trim());
  const [, quoted, plain = "", letters = "", digits = ""] = match;
  const place = parsePlace(letters + digits);
  if (!place) throw new BadArgument(sentence`${letters}${digits} is not a cell of a sheet`);
  const name = quoted?.replaceAll("''", "'") ?? plain;
  const sheet = book.sheets.findIndex((one) => one.name.toLowerCase() === name.toLowerCase());
  if (sheet < 0) throw new BadArgument(`there is no sheet "${shorten(name)}"; the workbook has ${sheetNames(book)}`);
  // In merged cells only the first holds something, and that is the one meant.
  const merged = book.sheets[sheet]?.mergedAreas.find(
    ({ top, left, bottom, right }) =>
      place.row >= top && place.row <= bottom && place.column >= left && place.column <= right,
  );
  return merged ? { sheet, row: merged.top, column: merged.left } : { sheet, ...place };
}

function cellOfName(book: Book, typed: string): Found {
  const name = book.names.find((one) => one.name.toLowerCase() === typed.toLowerCase());
  if (!name) {
    const what = parsePlace(typed.replaceAll("$", ""))
      ? "needs its sheet before it"
      : "is neither a cell nor a name of the workbook";
    throw new BadArgument(`"${shorten(typed)}" ${what}; write it as 'Sheet!C7' (sheets: ${sheetNames(book)})`);
  }
  if (/^(?:'(?:[^']|'')+'|[^!']+)!\$?[A-Za-z]+\$?\d+$/.test(name.text)) return findCell(book, name.text);
  throw new BadArgument(sentence`the name ${name.name} is not one cell (${name.text}); choose a cell of it`);
}

function sheetNames({ sheets }: Book): string {
  return listed(
    sheets.map(({ name }) => shorten(name)),
    12,
  );
}
