import type { Sheet } from "../blocks/sheet";
import { decimals, palette, style } from "../blocks/style";
import type { ResultPlaces } from "./result-places";

/** The verdict in words a client reads from across the table, with the result, the limit and the rule that was used; eight rows. */
export function verdictPanel(sheet: Sheet, at: number, results: ResultPlaces, digits: number): void {
  const last = at + 6;
  const word = results.verdict;
  const words = ["pass", "fail", "not proven", "not valid"];
  const shown = words.reduceRight(
    (otherwise, one) => `IF(${word}="${one}","${one.toUpperCase()}",${otherwise})`,
    '"OPEN"',
  );
  const wordLook = style({
    size: 28,
    bold: true,
    colour: palette.white,
    fill: palette.open,
    align: "center",
    shrink: true,
  });
  sheet.formula(`B${at}`, `IFERROR(${shown},"OPEN")`, wordLook).merge(`B${at}:C${last}`);
  for (const [value, rgb] of [
    ["PASS", palette.pass],
    ["FAIL", palette.fail],
  ] as const) {
    sheet.when(`B${at}:C${last}`, `$B$${at}="${value}"`, {
      fill: { type: "pattern", pattern: "solid", bgColor: { rgb } },
    });
  }
  const panel = { fill: palette.petrolPale, align: "left", indent: 1 } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey });
  const big = style({ ...panel, size: 26, colour: palette.petrol });
  const what = `TargetQuantity&" at "&TargetPressure&" Pa, "&TargetUnit`;
  sheet.formula(`D${at}`, `IFERROR(${what},"No criterion chosen")`, small).merge(`D${at}:E${at}`);
  sheet.formula(`F${at}`, `IFERROR("limit, "&TargetUnit,"")`, small).merge(`F${at}:H${at}`);
  sheet
    .formula(
      `D${at + 1}`,
      `IFERROR(IF(${results.deciding}="","–",${results.deciding}),"–")`,
      style({ format: decimals(digits) }, big),
    )
    .merge(`D${at + 1}:E${at + 2}`);
  sheet
    .formula(`F${at + 1}`, 'IFERROR(TargetLimit,"–")', style({ format: "0.0###" }, big))
    .merge(`F${at + 1}:H${at + 2}`);
  sheet.moreDigitsNear(`D${at + 1}`, `F${at + 1}`);
  const sentence = style({ ...panel, size: 8.5, wrap: true });
  sheet
    .formula(`D${at + 3}`, `IF(TargetName="","No criterion chosen",TargetName)&". "&${results.directions}`, sentence)
    .merge(`D${at + 3}:H${at + 3}`);
  sheet.formula(`D${at + 4}`, results.rule, sentence).merge(`D${at + 4}:H${at + 5}`);
  sheet
    .formula(`D${last}`, results.state, style({ bold: true, size: 8.5, shrink: true }, sentence))
    .merge(`D${last}:H${last}`);
  sheet
    .height(20, at)
    .heightOf(16, at + 1, at + 3)
    .heightOf(14, at + 4, last - 1)
    .height(26, last);
}
