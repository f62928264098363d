import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, style } from "../blocks/style";
import type { ResultPlaces } from "./results";

/** The verdict in words a client reads from across the table, with the result, the limit and the rule that was used; seven rows. */
export function verdictPanel(sheet: Sheet, at: number, results: ResultPlaces): void {
  const last = at + 5;
  const word = `${results.verdict}`;
  const shown = `IFERROR(IF(${word}="pass","PASS",IF(${word}="fail","FAIL",IF(${word}="not proven","NOT PROVEN","NOT VALID"))),"OPEN")`;
  const wordLook = style({ size: 30, bold: true, colour: palette.white, fill: palette.open, align: "center" });
  sheet.formula(`B${at}`, shown, wordLook).merge(`B${at}:B${last}`);
  for (const [value, rgb] of [
    ["PASS", palette.pass],
    ["FAIL", palette.fail],
  ] as const) {
    sheet.when(`B${at}:B${last}`, `$B$${at}="${value}"`, {
      fill: { type: "pattern", pattern: "solid", bgColor: { rgb } },
    });
  }
  const panel = { fill: palette.petrolPale } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey, indent: 1 });
  const big = style({ ...panel, size: 26, colour: palette.petrol, align: "left", indent: 1 });
  sheet.formula(`C${at}`, `TargetQuantity&" at "&TargetPressure&" Pa"`, small).merge(`C${at}:F${at}`);
  sheet.put(`G${at}`, "limit", small).merge(`G${at}:H${at}`);
  sheet.formula(`C${at + 1}`, results.deciding, style({ format: decimals(2) }, big)).merge(`C${at + 1}:D${at + 2}`);
  const unit = style({ ...panel, size: 11, colour: palette.petrol, vertical: "bottom" });
  sheet.formula(`E${at + 1}`, "TargetUnit", unit).merge(`E${at + 1}:F${at + 2}`);
  sheet.formula(`G${at + 1}`, "TargetLimit", style({ format: "0.0##" }, big)).merge(`G${at + 1}:G${at + 2}`);
  sheet.formula(`H${at + 1}`, "TargetUnit", unit).merge(`H${at + 1}:H${at + 2}`);
  const words = style({ ...panel, size: 8.5, wrap: true, indent: 1, vertical: "center" });
  sheet
    .formula(`C${at + 3}`, `"Criterion: "&TargetName&". "&${results.directions}`, words)
    .merge(`C${at + 3}:H${at + 3}`);
  sheet.formula(`C${at + 4}`, results.rule, words).merge(`C${at + 4}:H${at + 5}`);
}
