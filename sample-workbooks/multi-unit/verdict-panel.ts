import type { Sheet } from "../blocks/sheet";
import { decimals, palette, style } from "../blocks/style";
import type { BuildingPlaces } from "./building-results";

/** The verdict in words that can be read from across the table, with result, limit and what they rest on; seven rows. */
export function buildingPanel(sheet: Sheet, at: number, places: BuildingPlaces): void {
  const last = at + 6;
  const words = ["pass", "fail", "not proven", "not valid"];
  const shown = words.reduceRight(
    (otherwise, word) => `IF(${places.verdict}="${word}","${word.toUpperCase()}",${otherwise})`,
    '"OPEN"',
  );
  const look = {
    size: 28,
    bold: true,
    colour: palette.white,
    fill: palette.open,
    align: "center",
    shrink: true,
  } as const;
  sheet.formula(`B${at}`, `IFERROR(${shown},"OPEN")`, style(look)).merge(`B${at}:B${last}`);
  for (const [value, rgb] of [
    ["PASS", palette.pass],
    ["FAIL", palette.fail],
  ] as const)
    sheet.when(`B${at}:B${last}`, `$B$${at}="${value}"`, {
      fill: { type: "pattern", pattern: "solid", bgColor: { rgb } },
    });
  const panel = { fill: palette.petrolPale, align: "left", indent: 1 } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey });
  const big = style({ ...panel, size: 24, colour: palette.petrol });
  const what = 'TargetQuantity&" of the building at "&TargetPressure&" Pa, "&TargetUnit';
  sheet.formula(`C${at}`, `IF(TargetLimit="","No criterion chosen",${what})`, small).merge(`C${at}:F${at}`);
  sheet.formula(`G${at}`, 'IF(TargetLimit="","","limit, "&TargetUnit)', small).merge(`G${at}:H${at}`);
  const orDash = (value: string) => `IF(COUNT(${value})=0,"–",${value})`;
  sheet
    .formula(`C${at + 1}`, orDash(places.result), style({ format: decimals(3) }, big))
    .merge(`C${at + 1}:F${at + 2}`);
  sheet.formula(`G${at + 1}`, orDash("TargetLimit"), style({ format: "0.0##" }, big)).merge(`G${at + 1}:H${at + 2}`);
  sheet.moreDigitsNear(`C${at + 1}`, `G${at + 1}`);
  const sentence = style({ ...panel, size: 8.5, wrap: true });
  const lines: readonly string[] = [
    'IF(TargetName="","",TargetName&". ")&"The sum of the flows over the sum of the sizes, "&Basis&" runs, depressurization alone."',
    `IF(COUNT(${places.expanded})=0,"No result yet.","± "&TEXT(${places.expanded},"0.00")&" expanded uncertainty for information. Rule: plain acceptance, the "&IF(TargetDecimals="","unrounded","once rounded")&" result must not exceed the limit.")`,
    `"Rests on the "&Basis&" runs of "&IF(Basis="guarded",${places.guardedUnits},${places.unguardedUnits})&" of "&COUNTA(UnitNames)&" units; positions not in the sample: "&SampleGaps&". Conditions: "&${places.conditions}&"."`,
  ];
  lines.forEach((line, index) => {
    const row = at + 3 + index;
    sheet.formula(`C${row}`, line, index === 2 ? style({ bold: true }, sentence) : sentence).merge(`C${row}:H${row}`);
  });
  sheet.put(`C${last}`, null, sentence).merge(`C${last}:H${last}`);
  sheet
    .heightOf(16, at, last)
    .height(24, at + 3, at + 4, at + 5)
    .height(4, last);
}
