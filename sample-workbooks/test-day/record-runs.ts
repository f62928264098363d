import { keepBlanks } from "../blocks/add-in";
import type { Sheet } from "../blocks/sheet";
import { dateFormat, palette, style } from "../blocks/style";
import { metric } from "../blocks/units";
import { readingRows, type RunNumber, sheetOf } from "../final-test/layout";
import type { Direction } from "../final-test/scenario";
import { gaugeCell } from "./pressures";
import { columnAt, head, label, lastColumn, writeBlockHeading, writeBox, writingHeight } from "./record-grid";
import { lastOfHouse } from "./record-house";

/** The runs in the order of the form's tabs. */
const runs: readonly (readonly [direction: Direction, run: RunNumber])[] = [
  ["depressurization", 1],
  ["depressurization", 2],
  ["pressurization", 1],
  ["pressurization", 2],
];

const conditions: readonly (readonly [words: string, unit: string])[] = [
  ["Temp. indoors", metric.temperature],
  ["Temp. outdoors", metric.temperature],
  ["Humidity indoors", "fraction"],
  ["Humidity outdoors", "fraction"],
  ["Barometric pressure", metric.barometer],
  ["Wind speed", metric.speed],
];

/** The sign tells the direction; a slip of it would be typed. */
const signed = '"+"0.0;"−"0.0;0.0';

const readings = readingRows.last - readingRows.first + 1;

const first = lastOfHouse + 1;
const rows = {
  title: first,
  note: first + 1,
  run: first + 2,
  air: first + 3,
  baseline: first + 4 + conditions.length,
  /** The lower row of the heads of the readings. */
  heads: first + 10 + conditions.length,
  reason: first + 11 + conditions.length + readings,
} as const;

/** The last row of the second page. */
export const lastOfRuns = rows.reason;

/** A page of four runs beside each other, each in the order of its sheet. */
export function writeRuns(sheet: Sheet): void {
  const { title, note, air, baseline, heads, reason } = rows;
  sheet.heightOf(writingHeight, title, reason).height(16, title).height(11, note).height(12, air);
  sheet.height(13, baseline).heightOf(11, heads - 1, heads);
  writeTitle(sheet);
  runs.forEach(([direction, run], place) => {
    writeBlockHeading(sheet, rows.run, [columnAt(place, 0), columnAt(place, 5)], "", sheetOf(direction, run));
    writeConditions(sheet, place, air);
    writeBaseline(sheet, place, baseline);
    writeReadings(sheet, place, heads, direction);
    sheet.put(`${columnAt(place, 0)}${reason}`, "no., why left out", label);
    writeBox(sheet, `${columnAt(place, 3)}${reason}:${columnAt(place, 5)}${reason}`);
  });
}

function writeTitle(sheet: Sheet): void {
  const { title, note } = rows;
  sheet.put(`B${title}`, "Site record: runs; a second run may stay blank", style({ size: 12, colour: palette.petrol }));
  // Ruled, so that the house can be written on a blank record, whose pages may part.
  const right = style({ size: 9, align: "right", bottom: palette.grey });
  sheet.paint(`${columnAt(3, 0)}${title}:${columnAt(3, 1)}${title}`, right);
  sheet.formula(`${columnAt(3, 2)}${title}`, keepBlanks("House"), right);
  sheet.formula(`${columnAt(3, 3)}${title}`, keepBlanks("TestDate"), style({ format: dateFormat }, right));
  sheet.merge(`${columnAt(3, 3)}${title}:${lastColumn}${title}`);
  const expected = 'SUBSTITUTE(ROUND(ExpectedBaseline,1),"-","−")';
  const shift = `" with a baseline of "&${expected}&" Pa; a different baseline shifts them all by the same amount"`;
  const words = '"All pressures in Pa, indoors minus outdoors. To set: what the gauge shows"';
  const formula = `${words}&IF(COUNT(ExpectedBaseline)=0,"",${shift})&"."`;
  sheet.formula(`B${note}`, formula, style({ size: 8, colour: palette.grey }));
}

function writeConditions(sheet: Sheet, place: number, at: number): void {
  const cell = (offset: number, row: number) => `${columnAt(place, offset)}${row}`;
  sheet.put(cell(0, at), "Conditions", style({ bold: true, vertical: "bottom" }, label));
  sheet.put(cell(3, at), "before", head).put(cell(4, at), "after", head);
  conditions.forEach(([words, unit], index) => {
    const row = at + 1 + index;
    sheet.put(cell(0, row), words, label);
    writeBox(sheet, cell(3, row));
    writeBox(sheet, cell(4, row));
    sheet.put(cell(5, row), unit, style({ size: 8, colour: palette.grey, indent: 1, align: "left" }));
  });
}

/** Ten readings before and ten after, in two rows of five each. */
function writeBaseline(sheet: Sheet, place: number, at: number): void {
  sheet.put(
    `${columnAt(place, 0)}${at}`,
    "Baseline, device covered, Pa",
    style({ bold: true, vertical: "bottom" }, label),
  );
  for (const [first, words] of [
    [at + 1, "before"],
    [at + 3, "after"],
  ] as const) {
    const upright = style({ size: 8, colour: palette.grey, align: "center" });
    const turned = { ...upright, alignment: { ...upright.alignment, textRotation: 90 } };
    const side = columnAt(place, 0);
    sheet.put(`${side}${first}`, words, turned).merge(`${side}${first}:${side}${first + 1}`);
    for (const row of [first, first + 1])
      for (let offset = 1; offset <= 5; offset++) writeBox(sheet, `${columnAt(place, offset)}${row}`);
  }
}

/** A row for each reading of the form: its number, the pressure to set, and boxes for what is typed. */
function writeReadings(sheet: Sheet, place: number, heads: number, direction: Direction): void {
  const words = ["no.", "to set", "use", "pressure", "opening", "fan|pressure"];
  words.forEach((text, offset) => {
    const [upper = "", lower] = text.split("|");
    const letters = columnAt(place, offset);
    if (lower) sheet.put(`${letters}${heads - 1}`, upper, head);
    sheet.put(`${letters}${heads}`, lower ?? upper, head);
  });
  for (let index = 0; index < readings; index++) {
    const row = heads + 1 + index;
    sheet.put(`${columnAt(place, 0)}${row}`, index + 1, style({ size: 8, colour: palette.grey, align: "center" }));
    const set = style({ size: 9, bold: true, align: "center", format: signed, bottom: palette.rule });
    sheet.formula(`${columnAt(place, 1)}${row}`, keepBlanks(gaugeCell(direction, index)), set);
    for (let offset = 2; offset <= 5; offset++) writeBox(sheet, `${columnAt(place, offset)}${row}`);
  }
}
