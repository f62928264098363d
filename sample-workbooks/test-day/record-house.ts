import { keepBlanks } from "../blocks/add-in";
import type { Sheet } from "../blocks/sheet";
import { palette, shortDay, style } from "../blocks/style";
import { sheets as form } from "../final-test/layout";
import { preparationPlaces } from "../final-test/preparation";
import { plannedOpenings, unspecified } from "./preparation";
import { boxed, columnAt, head, label, writeBlockHeading, writeBox } from "./record-grid";

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
export const lastOfHouse = rows.signatures + 1;

const left = { left: columnAt(0, 0), value: columnAt(0, 5), gap: columnAt(0, 6), right: columnAt(1, 5) } as const;
const right = { left: columnAt(2, 0), right: columnAt(3, 5) } as const;

/** Title and everything of the form that is no run: down the left half, then down the right one. */
export function writeHouse(sheet: Sheet): void {
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
