import { keepBlanks } from "../blocks/add-in";
import { lettersOf } from "../blocks/address";
import { letterhead, writePageHead } from "../blocks/heading";
import type { CellStyle } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, looks, palette, shortDay, style } from "../blocks/style";
import { metric } from "../blocks/units";
import { readingRows, type RunNumber, sheetOf, sheets as form } from "../final-test/layout";
import { preparationPlaces } from "../final-test/preparation";
import type { Direction } from "../final-test/scenario";
import { sheets } from "./layout";
import { plannedOpenings, unspecified } from "./preparation";
import { gaugeCell } from "./pressures";

/** What may not be forgotten where only this sheet is at hand. */
const cautions =
  "Before the fan runs: combustion appliances and pilot lights off, no embers; doors watched, " +
  "nobody passes, inner doors wedged. Afterwards: all restored.";

/**
 * Two pages to print and to write on by hand, in the order in which the form of the final test is typed, so that typing needs no
 * search. Nothing is typed into this sheet itself.
 */
export function recordPage(): Page {
  const sheet = new Sheet(sheets.record, widths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:${lastColumn}${lastOfHouse}`, `B${lastOfHouse + 1}:${lastColumn}${lastOfRuns}`],
    pages: 2,
    footer: "Site record of an airtightness test",
  });
  writePageHead(sheet, letterhead, ["B", lastColumn], "Site record", cautions);
  sheet.put("B3", cautions, style({ bold: true, colour: palette.ink }, looks.lead));
  sheet.height(24, 2).height(4, 4).heightOf(writingHeight, 5, lastOfHouse);
  const order = "to be written on by hand and typed in this order; → names the sheet of the final test";
  sheet.put(`${lastColumn}2`, order, looks.titleRight);
  writeHouse(sheet);
  writeRuns(sheet);
  return { sheet, names: {} };
}

/**
 * The record is a landscape page of four runs beside each other, six columns each, and a gap after each run. The first page spans
 * two runs with each of its halves.
 */
const run = { widths: [2.8, 5.7, 5.2, 6.8, 6, 6.8], gap: 0.85, count: 4 } as const;

/** Characters: margin, runs, gaps between them. They just fit on A4 at 100 %, so that nothing shrinks. */
const widths = [
  1.5,
  ...Array.from({ length: run.count }, () => [...run.widths, run.gap])
    .flat()
    .slice(0, -1),
];

/** A column by its run and its place in it, both counted from 0: the first column of the first run is B. */
function columnAt(place: number, offset: number): string {
  return lettersOf(1 + place * (run.widths.length + 1) + offset);
}

const lastColumn = columnAt(run.count - 1, run.widths.length - 1);

/** Enough to write in by hand, in points. */
const writingHeight = 18;

const edge = { style: "thin", color: { rgb: palette.grey } } as const;

/** A box to write in by hand, or one that is filled already. Nothing in it is typed: the record is paper. */
function boxed(look: CellStyle = style({ size: 9 })): CellStyle {
  return { ...look, border: { top: edge, right: edge, bottom: edge, left: edge } };
}

/** An empty box over some columns of one or more rows. */
function writeBox(sheet: Sheet, range: string): void {
  const [first = ""] = range.split(":");
  sheet.put(first, null, boxed());
  if (range.includes(":")) sheet.merge(range);
}

/** A label of the form; it may run on over the empty cells to its right. */
const label = style({ size: 8 });

/** A column head in a row with its heading. */
const head = style({ size: 8, colour: palette.grey, align: "center", vertical: "bottom" });

/** A block's heading; the arrow leads to the sheet of the final test on which its lines are typed. */
function writeBlockHeading(
  sheet: Sheet,
  row: number,
  [left, right]: readonly [string, string],
  title: string,
  target: string,
): void {
  sheet.put(`${left}${row}`, `${title}${title && " "}→ ${target}`, looks.heading);
  sheet.paint(`${left}${row}:${right}${row}`, looks.headingRule);
}

/** Rows of the two halves of the first page, 25 each. */
const rows = {
  cover: 5,
  rooms: 12,
  firm: 13,
  preparation: 19,
  openings: 5,
  deviations: 24,
  signatures: 28,
} as const;

/** The last row of the first page. */
const lastOfHouse = rows.signatures + 1;

const left = { left: columnAt(0, 0), value: columnAt(0, 5), gap: columnAt(0, 6), right: columnAt(1, 5) } as const;
const right = { left: columnAt(2, 0), right: columnAt(3, 5) } as const;

/** Title and everything of the form that is no run: down the left half, then down the right one. */
function writeHouse(sheet: Sheet): void {
  writeCover(sheet);
  writeBlockHeading(sheet, rows.rooms, [left.left, columnAt(0, 4)], "Measured on site", form.rooms);
  writeBox(sheet, `${left.value}${rows.rooms}:${left.right}${rows.rooms}`);
  writeInstruments(sheet);
  writeFacts(sheet);
  writeOpenings(sheet);
  writeDeviations(sheet);
  writeSignatures(sheet);
}

/** A label that follows a box. */
const indented = style({ indent: 1, align: "left" }, label);

type Line = readonly [words: string, formula?: string, format?: string];

function writeCover(sheet: Sheet): void {
  writeBlockHeading(sheet, rows.cover, [left.left, left.right], "House and test", form.cover);
  const house: readonly Line[] = [
    ["House", keepBlanks("House")],
    ["Address", keepBlanks("Address")],
    ["Client", keepBlanks("Client")],
    ["Construction"],
    ["Purpose of the test"],
  ];
  const test: readonly Line[] = [
    ["Day of the test", keepBlanks("TestDate"), shortDay],
    ["Tested by", keepBlanks("Tester")],
    ["Checked by"],
    ["Report"],
    ["Preparation", keepBlanks("Method")],
    ["Kind of test"],
  ];
  for (const [lines, from, first, last] of [
    [house, left.left, columnAt(0, 3), left.gap],
    [test, columnAt(1, 0), columnAt(1, 3), left.right],
  ] as const) {
    let row = rows.cover + 1;
    for (const [words, formula, format] of lines) {
      const isLong = words === "Address";
      const bottom = isLong ? row + 1 : row;
      sheet.put(`${from}${row}`, words, from === left.left ? label : indented);
      writeBox(sheet, `${first}${row}:${last}${bottom}`);
      const look = style({ size: 8, align: "left", wrap: isLong, ...(format && { format }) });
      if (formula) sheet.formula(`${first}${row}`, formula, boxed(look));
      row = bottom + 1;
    }
  }
}

/** Names of the instruments as on the form; what is known of the certificates from the sheet Day. */
const instruments: readonly Line[] = [
  ["Envelope pressure gauge", keepBlanks("GaugeUntil")],
  ["Fan pressure gauge", keepBlanks("GaugeUntil")],
  ["Flow device", keepBlanks("FanUntil")],
  ["Thermometer"],
  ["Barometer"],
];

function writeInstruments(sheet: Sheet): void {
  const { firm: at } = rows;
  writeBlockHeading(sheet, at, [left.left, left.right], "Instruments", form.firm);
  const boxes = [
    ["serial number", columnAt(0, 4), left.gap],
    ["certificate", columnAt(1, 0), columnAt(1, 2)],
    ["valid until", columnAt(1, 3), columnAt(1, 5)],
  ] as const;
  for (const [words, first] of boxes)
    sheet.put(`${first}${at}`, words, style({ align: "left", bottom: palette.petrol }, head));
  instruments.forEach(([words, until], index) => {
    const row = at + 1 + index;
    sheet.put(`${left.left}${row}`, words, label);
    for (const [, first, last] of boxes) writeBox(sheet, `${first}${row}:${last}${row}`);
    const [, , [, validUntil]] = boxes;
    if (until) sheet.formula(`${validUntil}${row}`, until, boxed(style({ size: 8, align: "left", format: shortDay })));
  });
}

function writeFacts(sheet: Sheet): void {
  const { preparation: at } = rows;
  writeBlockHeading(sheet, at, [left.left, left.right], "Building, device, services, weather", form.preparation);
  const lines = preparationPlaces.facts;
  lines.forEach(([words], index) => {
    const row = at + 1 + index;
    sheet.put(`${left.left}${row}`, words, label);
    writeBox(sheet, `${left.value}${row}:${left.right}${row}`);
  });
  const row = at + 1 + lines.length;
  sheet.put(`${left.left}${row}`, "Place where the wind is read", label);
  writeBox(sheet, `${left.value}${row}:${columnAt(1, 2)}${row}`);
  sheet.put(`${columnAt(1, 3)}${row}`, "Beaufort scale", indented);
  writeBox(sheet, `${left.right}${row}`);
}

/** Openings by their list on the sheet Preparation; a long name runs on into the place, which it then tells. */
function writeOpenings(sheet: Sheet): void {
  const { openings: at } = rows;
  writeBlockHeading(sheet, at, [right.left, right.right], "Openings", form.preparation);
  const boxes = [
    ["state", columnAt(3, 2), columnAt(3, 2)],
    ["how", columnAt(3, 3), columnAt(3, 4)],
    ["restored", columnAt(3, 5), columnAt(3, 5)],
  ] as const;
  const place = columnAt(2, 5);
  const toBe = columnAt(3, 1);
  const ruled = style({ bottom: palette.petrol }, head);
  sheet.put(`${place}${at}`, "where", style({ align: "left" }, ruled)).put(`${toBe}${at}`, "to be", ruled);
  for (const [words, first, last] of boxes)
    sheet.put(`${first}${at}`, words, first === last ? ruled : style({ align: "left" }, ruled));
  plannedOpenings.forEach(({ opening, state }, index) => {
    const row = at + 1 + index;
    const line = style({ size: 8.5, bottom: palette.grey });
    sheet.formula(`${right.left}${row}`, keepBlanks(opening), line);
    sheet.paint(`${right.left}${row}:${columnAt(3, 0)}${row}`, line);
    const planned = `IF(${state}="${unspecified}","specify",${state})`;
    sheet.formula(`${toBe}${row}`, planned, style({ size: 8, align: "center", bottom: palette.grey }));
    for (const [, first, last] of boxes)
      writeBox(sheet, first === last ? `${first}${row}` : `${first}${row}:${last}${row}`);
  });
}

function writeDeviations(sheet: Sheet): void {
  const { deviations: at } = rows;
  writeBlockHeading(sheet, at, [right.left, right.right], "Deviations from the standard", form.preparation);
  sheet.put(`${right.left}${at + 1}`, "Reason for staying below 50 Pa, if so", label);
  writeBox(sheet, `${columnAt(2, 5)}${at + 1}:${right.right}${at + 1}`);
  for (let row = at + 2; row < rows.signatures; row++) writeBox(sheet, `${right.left}${row}:${right.right}${row}`);
}

function writeSignatures(sheet: Sheet): void {
  for (const [place, words] of [
    [2, "Tested by: signature, day"],
    [3, "Checked by: signature, day"],
  ] as const) {
    const row = lastOfHouse;
    const line = style({ top: palette.ink, size: 8, colour: palette.grey, vertical: "top" });
    sheet.put(`${columnAt(place, 0)}${row}`, words, line);
    sheet.paint(`${columnAt(place, 0)}${row}:${columnAt(place, 5)}${row}`, line);
  }
}

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
const runRows = {
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
const lastOfRuns = runRows.reason;

/** A page of four runs beside each other, each in the order of its sheet. */
function writeRuns(sheet: Sheet): void {
  const { title, note, air, baseline, heads, reason } = runRows;
  sheet.heightOf(writingHeight, title, reason).height(16, title).height(11, note).height(12, air);
  sheet.height(13, baseline).heightOf(11, heads - 1, heads);
  writeTitle(sheet);
  runs.forEach(([direction, run], place) => {
    writeBlockHeading(sheet, runRows.run, [columnAt(place, 0), columnAt(place, 5)], "", sheetOf(direction, run));
    writeConditions(sheet, place, air);
    writeBaseline(sheet, place, baseline);
    writeReadings(sheet, place, heads, direction);
    sheet.put(`${columnAt(place, 0)}${reason}`, "no., why left out", label);
    writeBox(sheet, `${columnAt(place, 3)}${reason}:${columnAt(place, 5)}${reason}`);
  });
}

function writeTitle(sheet: Sheet): void {
  const { title, note } = runRows;
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
