import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import { readingRows } from "./steps";

const logarithms = { heads: 6, first: 7 } as const;
const last = logarithms.first + readingRows.last - readingRows.first;

/** A difference in per cent; none at all is a plain 0. */
export const differenceFormat = '0.000000;"−"0.000000;0';

/** C, n and r² once more by native functions over the logarithms, compared with the add-in's line; three rows below a heading. */
export function nativeLine(sheet: Sheet, at: number, inFit: (symbol: string) => string): void {
  section(sheet, logarithms.heads - 1, ["AD", "AF"], "Logarithms");
  columnHeads(sheet, logarithms.heads, "AD", ["^no.", "ln Δp", "ln q"]);
  for (let index = 0; index <= last - logarithms.first; index++) {
    const [row, reading] = [logarithms.first + index, readingRows.first + index];
    const [induced, flow, use] = [`K${reading}`, `N${reading}`, `C${reading}`];
    const log = (cell: string) => `IF(COUNT(${induced},${flow})<2,"",IF(${use}="no","",LN(ABS(${cell}))))`;
    sheet.put(`AD${row}`, index + 1, looks.unit);
    sheet.formula(`AE${row}`, log(induced), native(decimals(4))).formula(`AF${row}`, log(flow), native(decimals(4)));
  }
  const [x, y] = ["AE", "AF"].map((letters) => `$${letters}$${logarithms.first}:$${letters}$${last}`) as [
    string,
    string,
  ];
  section(sheet, at, ["V", "AB"], "The same line by native functions over the logarithms beside it");
  columnHeads(sheet, at + 1, "V", ["<what it is", "<symbol", "native", "add-in", "difference, %", "", "<<how"]);
  const lines = [
    ["Air flow coefficient", "C", "C", `EXP(INTERCEPT(${y},${x}))`, "EXP(INTERCEPT(ln q, ln Δp))", 3],
    ["Flow exponent", "n", "n", `SLOPE(${y},${x})`, "SLOPE(ln q, ln Δp)", 4],
    ["Fit of the line", "r²", "r2", `RSQ(${y},${x})`, "RSQ(ln q, ln Δp)", 5],
  ] as const;
  lines.forEach(([label, shown, symbol, formula, how, digits], index) => {
    const row = at + 2 + index;
    sheet.put(`V${row}`, label, looks.label).put(`W${row}`, shown, looks.label).put(`AB${row}`, how, looks.unit);
    sheet.formula(`X${row}`, `IFERROR(${formula},NA())`, native(decimals(digits)));
    sheet.formula(`Y${row}`, inFit(symbol), native(decimals(digits)));
    const difference = `ROUND(100*(X${row}/Y${row}-1),9)`;
    sheet.formula(`Z${row}`, `IF(COUNT(X${row}:Y${row})<2,"",${difference})`, native(differenceFormat));
    sheet.paint(`V${row}:AB${row}`, looks.label);
  });
}
