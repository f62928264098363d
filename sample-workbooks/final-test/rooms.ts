import { onSheet } from "../blocks/address";
import { typedTable } from "../blocks/form";
import { letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, native, palette, style } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { envelopeSections } from "./envelope";
import { envelopeAreaRows } from "./envelope-area";
import { footer, sheets } from "./places";
import type { Scenario } from "./scenario";
import { roomSizes, volumeSection } from "./volume";

export const roomTable = { heads: 6, first: 7, last: 24, total: 25 } as const;
const volumeAt = 27;
const envelopeAt = 36;
/** Corner tables, share, and the envelope area with its sum. */
const lastRow = envelopeAt + 28 + envelopeAreaRows;

/** Parts of the envelope area, from the floor to the last further part. */
export const envelopeParts = { first: lastRow - envelopeAreaRows + 3, last: lastRow - 1 } as const;

/** Rooms, volume, floor area, outlines and envelope area: measured once, used by both directions. */
export function roomsPage(form: Scenario): Page {
  const sheet = new Sheet(sheets.rooms, [1.5, 29, 10.5, 10.5, 10.5, 10.5, 11, 13], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${envelopeAt - 1}`, `B${envelopeAt}:H${lastRow}`],
    titleRows: "1:4",
    pages: 2,
    footer,
  });
  const lead = "Clear, inner dimensions. A part with a length below zero is deducted. Spare rows may stay blank.";
  pageHead(sheet, letterhead, ["B", "H"], "Rooms and envelope", lead);
  sheet.heightOf(15, 5, lastRow);
  roomsSection(sheet, form);
  const volume = volumeSection(sheet, volumeAt, roomTable, form);
  const envelope = envelopeSections(sheet, envelopeAt, roomTable, form);
  return { sheet, names: { ...volume, ...envelope, FloorArea: onSheet(sheets.rooms, `F${roomTable.total}`) } };
}

function roomsSection(sheet: Sheet, { rooms, units }: Scenario): void {
  const { heads, first, last, total } = roomTable;
  const { length: unit } = units;
  const sizes = roomSizes(units);
  section(sheet, 5, ["B", "H"], "Rooms");
  const typed = (place: number) => (index: number) => rooms[index]?.[place];
  typedTable(sheet, {
    heads,
    left: "B",
    rows: last - first + 1,
    columns: [
      {
        head: "<room, or part of one",
        typed: typed(0),
        rule: (range) => text(range, "Room", "A room, or a part of one: break an odd plan into rectangles.", 60),
      },
      {
        head: "<storey",
        typed: typed(1),
        rule: (range) => oneOf(range, ["ground", "upper", "top"], "Storey", "Which storey the room is on."),
      },
      {
        head: `length, ${unit}`,
        typed: typed(2),
        format: decimals(2),
        rule: (range) =>
          between(range, ...sizes.length, `Length, ${unit}`, "Clear length. Below zero: this part is deducted."),
      },
      {
        head: `width, ${unit}`,
        typed: typed(3),
        format: decimals(2),
        rule: (range) => between(range, ...sizes.width, `Width, ${unit}`, "Clear width."),
      },
      {
        head: `area, ${units.area}`,
        formula: areaOfRoom,
        look: native(decimals(2)),
      },
      {
        head: `mean height, ${unit}`,
        typed: typed(4),
        format: decimals(2),
        rule: (range) =>
          between(range, ...sizes.height, `Mean height, ${unit}`, "Clear height, averaged where the ceiling slopes."),
      },
      {
        head: `volume, ${units.volume}`,
        formula: (row) => `IF(F${row}="","",IF(N(G${row})>0,F${row}*G${row},NA()))`,
        look: native(decimals(1)),
      },
    ],
  });
  // A blank cell shows no letters: its ground tells that a number is due.
  const wrong = {
    font: { bold: true, color: { rgb: palette.white } },
    fill: { type: "pattern", pattern: "solid", bgColor: { rgb: palette.fail } },
  } as const;
  const inUse = `COUNTA($B${first},$D${first}:$E${first},$G${first})>0`;
  for (const [range, cell, holds] of [
    [`D${first}:D${last}`, `D${first}`, `D${first}<>0`],
    [`E${first}:E${last}`, `E${first}`, `E${first}>0`],
    [`G${first}:G${last}`, `G${first}`, `G${first}>0`],
  ] as const)
    sheet.when(range, `AND(${inUse},NOT(IF(ISNUMBER(${cell}),${holds},FALSE)))`, wrong);
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet.put(`B${total}`, "Floor area of the rooms; sum of room volumes", style({ align: "left" }, sum));
  sheet.formula(`F${total}`, `SUM(F${first}:F${last})`, style({ format: decimals(2) }, sum));
  sheet.formula(`H${total}`, `SUM(H${first}:H${last})`, style({ format: decimals(1) }, sum));
  sheet.paint(`B${total}:H${total}`, sum);
}

/** Nothing in a spare row; #N/A in one that is begun and has no length or no width above 0, so that no sum leaves it out. N makes 0 of text. */
function areaOfRoom(row: number): string {
  const begun = `COUNTA(B${row},D${row}:E${row},G${row})`;
  return `IF(${begun}=0,"",IF(AND(N(D${row})<>0,N(E${row})>0),D${row}*E${row},NA()))`;
}
