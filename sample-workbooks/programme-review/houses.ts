import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writePageHead } from "../blocks/heading";
import type { CellStyle } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, day, text, validateTemperatures } from "../blocks/validation";
import { rowFormulas } from "./house-formulas";
import { houseColumns as at, houseRows, sheets } from "./layout";
import { footer, type House, madeHouses, type Stations } from "./scenario";

type Column = keyof typeof at;
const { head, first, last } = houseRows;

/** Heads of the table's columns; a table's own heads are single cells and all different. */
const heads: readonly (readonly [Column, string, number])[] = [
  ["id", "report", 6.5],
  ["tester", "tested by", 21.5],
  ["day", "day", 12.5],
  ["reported", "n50 reported, 1/h", 8.5],
  ["n50", "n50 recomputed, 1/h", 10],
  ["difference", "reported less recomputed, %", 10],
  ["verdict", "verdict", 9.5],
  ["probability", "probability of meeting the limit", 10],
  ["validity", "validity", 9.5],
  ["notMet", "what is not met", 34],
  ["score", "points", 7],
  ["why", "why to look at it", 36],
  ["volume", "volume, m³", 9],
  ["indoor", "indoors, °C", 8.5],
  ["outdoor", "outdoors, °C", 8.5],
  ["baseline", "baseline, Pa", 8.5],
  ["certificate", "certificates valid until", 13],
  ["cDown", "C, depr.", 9],
  ["nDown", "n, depr.", 8],
  ["r2Down", "r², depr.", 8.5],
  ["clDown", "C_L, depr.", 9],
  ["n50Down", "n50, depr.", 8.5],
  ["cUp", "C, press.", 9],
  ["nUp", "n, press.", 8],
  ["r2Up", "r², press.", 8.5],
  ["clUp", "C_L, press.", 9],
  ["n50Up", "n50, press.", 8.5],
  ["apart", "directions apart, %", 9.5],
  ["order", "order", 8],
];

const blocks: readonly (readonly [from: Column, title: string])[] = [
  ["firstPressureDown", "Δp depr."],
  ["firstFlowDown", "q depr."],
  ["firstPressureUp", "Δp press."],
  ["firstFlowUp", "q press."],
];

/** Five hundred reports, a row each: a typed row, its steps and its judgement side by side, so that the whole table filters as one. */
export function housesPage(): Page {
  const columns = layout();
  const sheet = new Sheet(sheets.houses, [1.5, ...columns.map(({ width }) => width)], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:M${last}`],
    titleRows: `1:${head}`,
    footer,
  });
  const lead =
    "Judgement on the left, what the reports say in the middle, the steps between on the right. Filter by the heads; the judgement is printed.";
  writePageHead(sheet, letterhead, ["B", "M"], "The houses", lead);
  sheet.put("B4", "", looks.note).height(6, 4, 5).height(50, head).freeze(head);
  for (const { letter, head: words } of columns) {
    const isIndented = wordColumns.some((column) => at[column] === letter);
    const isWord = [
      "report",
      "tested by",
      "day",
      "verdict",
      "validity",
      "what is not met",
      "why to look at it",
    ].includes(words);
    sheet.put(
      `${letter}${head}`,
      words,
      style({ vertical: "bottom", indent: isIndented ? 1 : 0 }, isWord ? looks.columnHeadLeft : looks.columnHead),
    );
  }
  madeHouses().forEach((house, index) => writeHouseRow(sheet, first + index, house));
  sheet.table(
    "Houses",
    `B${head}:${at.order}${last}`,
    columns.map(({ head: words }) => words),
  );
  sheet.fold(`B${first}:B${last}`);
  addRules(sheet);
  markRows(sheet);
  return { sheet, names: { HouseTable: onSheet(sheets.houses, `B${first}:${at.order}${last}`) } };
}

/** Every column's head and width, from the first to the last. */
function layout(): readonly { readonly letter: string; readonly head: string; readonly width: number }[] {
  const named = heads.map(([column, words, width]) => ({ letter: at[column], head: words, width }));
  const stations = blocks.flatMap(([from, title]) =>
    Array.from({ length: 6 }, (_, index) => ({
      letter: lettersOf(columnOf(at[from]) + index),
      head: `${title} ${index + 1}`,
      width: 7,
    })),
  );
  return [...named, ...stations].sort((a, b) => columnOf(a.letter) - columnOf(b.letter));
}

const formats: Partial<Record<Column, string>> = {
  n50: "0.000",
  difference: decimals(1),
  probability: "0.000",
  score: "0",
  cDown: "0.00",
  cUp: "0.00",
  nDown: "0.000",
  nUp: "0.000",
  r2Down: "0.0000",
  r2Up: "0.0000",
  clDown: "0.00",
  clUp: "0.00",
  n50Down: "0.000",
  n50Up: "0.000",
  apart: "0.0",
  order: "0.00000",
};
const wordColumns: readonly Column[] = ["verdict", "validity", "notMet", "why"];

/** Ground without a frame: five hundred framed rows would be a fence. */
function typedLook(format: string | undefined, align: "left" | "right"): CellStyle {
  return { ...input(format, align), border: { bottom: { style: "thin", color: { rgb: palette.hair } } } };
}

function writeHouseRow(sheet: Sheet, row: number, house: House): void {
  const typed = (column: Column, value: string | number, format?: string) =>
    sheet.put(
      `${at[column]}${row}`,
      value,
      typedLook(format, typeof value === "string" || format === "d mmm yyyy" ? "left" : "right"),
    );
  typed("id", house.id);
  typed("tester", house.tester);
  typed("day", house.day, "d mmm yyyy");
  typed("reported", house.reported, "0.00");
  typed("volume", house.volume, "0.0");
  typed("indoor", house.indoor, decimals(1));
  typed("outdoor", house.outdoor, decimals(1));
  typed("baseline", house.baseline, "0.0");
  typed("certificate", house.certificateUntil, "d mmm yyyy");
  writeStations(sheet, row, "firstPressureDown", "firstFlowDown", house.depressurization);
  writeStations(sheet, row, "firstPressureUp", "firstFlowUp", house.pressurization);
  for (const { column, formula, addIn } of rowFormulas(row)) {
    const isWord = wordColumns.includes(column);
    const place = `${at[column]}${row}`;
    const isLong = column === "why" || column === "notMet";
    const touches = { indent: isWord ? 1 : 0, size: isLong ? 8 : 9, ...(isLong && { wrap: true }) };
    const side = isWord ? "left" : "right";
    if (addIn === true) sheet.addIn(place, formula, style(touches, fromAddIn(formats[column], side)));
    else sheet.formula(place, formula, style(touches, native(formats[column], side)));
  }
}

function writeStations(
  sheet: Sheet,
  row: number,
  pressuresFrom: Column,
  flowsFrom: Column,
  { pressures, flows }: Stations,
): void {
  for (const [from, values] of [
    [pressuresFrom, pressures],
    [flowsFrom, flows],
  ] as const)
    for (let index = 0; index < 6; index += 1)
      sheet.put(`${lettersOf(columnOf(at[from]) + index)}${row}`, values[index] ?? null, typedLook("0.0", "right"));
}

function addRules(sheet: Sheet): void {
  const column = (from: Column, to: Column = from) => `${at[from]}${first}:${at[to]}${last}`;
  validateTemperatures(sheet, { indoors: column("indoor"), outdoors: column("outdoor") }, "Mean over the test");
  sheet.validate(
    text(column("id", "tester"), "Report", "Number of the report, and who tested."),
    day(column("day"), "Day of the test", "As the report has it."),
    between(column("reported"), 0.01, 50, "n50 reported", "1/h, as the report has it."),
    between(column("volume"), 10, 1e6, "Volume", "Internal volume, m³, as the report has it."),
    between(
      column("baseline"),
      0,
      100,
      "Baseline",
      "Largest mean of the positive or negative baseline readings, Pa, without its sign.",
    ),
    day(column("certificate"), "Certificates", "The earliest day on which a certificate of the instruments runs out."),
    between(
      column("firstPressureDown", "lastPressureDown"),
      1,
      200,
      "Induced pressure",
      "Pa, without its sign, from the report’s table.",
    ),
    between(
      column("firstFlowDown", "lastFlowDown"),
      0.1,
      1e6,
      "Flow",
      "Through the envelope, m³/h, from the report’s table.",
    ),
    between(column("firstPressureUp", "lastPressureUp"), 1, 200, "Induced pressure", "Pa, from the report’s table."),
    between(
      column("firstFlowUp", "lastFlowUp"),
      0.1,
      1e6,
      "Flow",
      "Through the envelope, m³/h, from the report’s table.",
    ),
  );
}

/** Words that say "look" are bold; colour is only added. */
function markRows(sheet: Sheet): void {
  const bold = (rgb: string) => ({ font: { bold: true, color: { rgb } } });
  sheet.when(
    `${at.verdict}${first}:${at.verdict}${last}`,
    `OR($${at.verdict}${first}="fail",$${at.verdict}${first}="not valid")`,
    bold(palette.fail),
  );
  sheet.when(`${at.validity}${first}:${at.validity}${last}`, `$${at.validity}${first}="not valid"`, bold(palette.fail));
}
