import type { Sheet } from "../blocks/sheet";
import { decimals, palette, style } from "../blocks/style";
import type { ForecastPlaces } from "./forecast";

const words: readonly (readonly [outlook: string, shown: string, colour: string])[] = [
  ["meets the limit with a margin", "MEETS WITH A MARGIN", palette.pass],
  ["probably meets the limit", "PROBABLY MEETS", palette.petrol],
  ["can go either way", "CAN GO EITHER WAY", palette.grey],
  ["probably misses the limit", "PROBABLY MISSES", palette.copper],
  ["misses the limit by a margin", "MISSES BY A MARGIN", palette.fail],
];

/** The outlook in words that can be read from across the table, with likely, best and worst result and the limit; seven rows. */
export function outlookPanel(sheet: Sheet, at: number, forecast: ForecastPlaces): void {
  const last = at + 6;
  const shown = words.reduceRight(
    (otherwise, [outlook, word]) => `IF(${forecast.outlook}="${outlook}","${word}",${otherwise})`,
    '"OPEN"',
  );
  const fits = 'IF(ConventionFits="agrees"';
  const look = {
    size: 20,
    bold: true,
    colour: palette.white,
    fill: palette.open,
    align: "center",
    wrap: true,
  } as const;
  sheet.formula(`B${at}`, `${fits},${shown},"OPEN")`, style(look)).merge(`B${at}:C${last}`);
  for (const [, word, rgb] of words)
    sheet.when(`B${at}:C${last}`, `$B$${at}="${word}"`, {
      fill: { type: "pattern", pattern: "solid", bgColor: { rgb } },
    });
  const panel = { fill: palette.petrolPale, align: "left", indent: 1 } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey });
  const big = style({ ...panel, size: 22, colour: palette.petrol, format: decimals(2) });
  const what = `"final test, likely: "&TargetQuantity&", "&TargetUnit`;
  sheet.formula(`D${at}`, `IF(TargetLimit="","No criterion chosen",${what})`, small).merge(`D${at}:F${at}`);
  sheet.formula(`G${at}`, 'IF(TargetLimit="","","limit, "&TargetUnit)', small).merge(`G${at}:H${at}`);
  const orDash = (value: string) => `IF(COUNT(${value})=0,"–",${value})`;
  sheet.formula(`D${at + 1}`, orDash(forecast.likely), big).merge(`D${at + 1}:F${at + 2}`);
  sheet.formula(`G${at + 1}`, orDash("TargetLimit"), style({ format: "0.0##" }, big)).merge(`G${at + 1}:H${at + 2}`);
  const sentence = style({ ...panel, size: 8.5, wrap: true });
  const number = (value: string, format: string) => `TEXT(${value},"${format}")`;
  const chance = `IF(${forecast.probability}>=0.9995,"more than 99.9 %",IF(${forecast.probability}<0.0005,"less than 0.1 %",TEXT(100*${forecast.probability},"0.0")&" %"))`;
  const range = `"Probability that the final test meets the limit: "&${chance}&". From "&${number(forecast.best, "0.00")}&" at best to "&${number(forecast.worst, "0.00")}&" at worst, if the planned repairs hold and no other openings come."`;
  const lines: readonly string[] = [
    `IF(COUNT(${forecast.best},${forecast.worst})<2,"No forecast yet: a test and a criterion are needed.",${range})`,
    `IF(COUNT(${forecast.flow})=0,"","Now: "&${number(forecast.flow, "0")}&" m³/h at 50 Pa, "&${number(forecast.result, "0.000")}&" "&TargetUnit&", from "&${forecast.from}&".")`,
    'IF(TargetName="","",TargetName&". ")&IF(ConventionFits="differs","The volume is not the one that the criterion means: no outlook.","An outlook is no verdict: the final test decides.")',
  ];
  lines.forEach((line, index) => {
    const row = at + 3 + index;
    sheet
      .formula(`D${row}`, `IFERROR(${line},"")`, index === 2 ? style({ bold: true }, sentence) : sentence)
      .merge(`D${row}:H${row}`);
  });
  sheet.put(`D${last}`, null, sentence).merge(`D${last}:H${last}`);
  sheet
    .heightOf(16, at, last)
    .height(24, at + 3, at + 5)
    .height(4, last);
}
