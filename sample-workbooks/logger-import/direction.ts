import { call, keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { guardedCell, placeIn, tableHeads, tableLook, wholeTestSymbols } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { palette } from "../blocks/style";
import { type Direction, sheets } from "./places";
import { argumentsOf } from "./readings";
import { footer } from "./scenario";

const first = 7;
const last = first + wholeTestSymbols.length - 1;

/** The whole test of one direction from its stations, every step a row. */
export function directionPage(direction: Direction): Page {
  const name = sheets[direction];
  const sheet = new Sheet(name, [1.5, 42, 10, 24, 10, 10, 13, 40], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:H${last}`],
    pages: 1,
    footer,
  });
  pageHead(
    sheet,
    letterhead,
    ["B", "H"],
    name,
    "The stations of this direction as readings of a whole test, in one call.",
  );
  sheet.heightOf(13.5, 5, last);
  section(sheet, 5, ["B", "H"], "Every step of the test, a row each");
  columnHeads(sheet, 6, "B", tableHeads);
  const { pressures, flows, before, after, include } = argumentsOf(direction);
  const formula = call(
    "TESTRESULT",
    quoted(direction),
    pressures,
    flows,
    before,
    after,
    keepBlanks("TestSettings"),
    include,
  );
  sheet.addIn(`B${first}:H${last}`, formula, (row, column) => tableLook(column, wholeTestSymbols[row] ?? ""));
  return { sheet, names: {} };
}

const letters = { symbol: "C", value: "D", lower: "E", upper: "F" } as const;

/** The cell of a direction's table in the row of a symbol. */
export function resultCell(direction: Direction, symbol: string, column: keyof typeof letters = "value"): string {
  return onSheet(sheets[direction], `${letters[column]}${first + placeIn(wholeTestSymbols, symbol)}`);
}

/** A value of a direction's table, by its symbol. */
export function resultOf(direction: Direction, symbol: string, column: "value" | "lower" | "upper" = "value"): string {
  return guardedCell(symbol, resultCell(direction, symbol, "symbol"), resultCell(direction, symbol, column));
}
