import { call, keepBlanks } from "../blocks/add-in";
import { onSheet, rowsFrom } from "../blocks/address";
import { writeTypedTable } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { firstWithError } from "../blocks/typed-cells";
import type { Units } from "../blocks/units";
import { between, oneOf, text } from "../blocks/validation";
import { envelopeAreaRows, envelopeAt, onAnyStorey, type RoomRows, typedRooms, writeEnvelope } from "./envelope";
import { footer, sheets } from "./layout";
import type { Scenario } from "./scenario";

export const roomTable = { heads: 6, first: 7, last: 24, total: 25 } as const;
const volumeAt = 27;
/** Corner tables, share, and the envelope area with its sum. */
const lastRow = envelopeAt + 28 + envelopeAreaRows;

/** Parts of the envelope area, from the floor to the last further part. */
export const envelopeParts = { first: lastRow - envelopeAreaRows + 3, last: lastRow - 1 } as const;

/** Rooms, volume, floor area, outlines and envelope area: measured once, used by both directions. */
export function roomsPage(form: Scenario): Page {
  const sheet = new Sheet(sheets.rooms, [1.5, 29, 10, 10, 10, 11, 13.5, 12], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:H${envelopeAt - 1}`, `B${envelopeAt}:H${lastRow}`],
    titleRows: "1:4",
    pages: 2,
    footer,
    workingPaper: true,
  });
  const lead = "Clear, inner dimensions. A part with a length below zero is deducted. Spare rows may stay blank.";
  writePageHead(sheet, letterhead, ["B", "H"], "Rooms and envelope", lead);
  sheet.heightOf(15, 5, lastRow);
  writeRooms(sheet, form);
  const volume = writeVolume(sheet, volumeAt, roomTable, form);
  const envelope = writeEnvelope(sheet, roomTable, form);
  return { sheet, names: { ...volume, ...envelope, FloorArea: onSheet(sheets.rooms, `F${roomTable.total}`) } };
}

function writeRooms(sheet: Sheet, { rooms, units }: Scenario): void {
  const { heads, first, last, total } = roomTable;
  const { length: unit } = units;
  const sizes = roomSizes(units);
  writeHeading(sheet, 5, ["B", "H"], "Rooms");
  const typed = (place: number) => (index: number) => rooms[index]?.[place];
  writeTypedTable(sheet, {
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
  const unlessBlank = (sums: string) => `IF(COUNTA(${typedRooms(roomTable)})=0,"",${sums})`;
  sheet.formula(`F${total}`, unlessBlank(`SUM(F${first}:F${last})`), style({ format: decimals(2) }, sum));
  sheet.formula(`H${total}`, unlessBlank(`SUM(H${first}:H${last})`), style({ format: decimals(1) }, sum));
  sheet.paint(`B${total}:H${total}`, sum);
}

/** Nothing in a spare row; #N/A in one that is begun and has no length or no width above 0, so that no sum leaves it out. N makes 0 of text. */
function areaOfRoom(row: number): string {
  const begun = `COUNTA(B${row},D${row}:E${row},G${row})`;
  return `IF(${begun}=0,"",IF(AND(N(D${row})<>0,N(E${row})>0),D${row}*E${row},NA()))`;
}

interface RoomTable extends RoomRows {
  readonly total: number;
}

type Range = readonly [lowest: number, highest: number];

/** What a length, a width and a height of a room can be; used by the cells' rules and by the count of slips. */
function roomSizes({ in: unit }: Units): Record<"length" | "width" | "height", Range> {
  const of = (metres: number) => Number((metres / unit.length).toFixed(1));
  return { length: [of(-60), of(60)], width: [0, of(60)], height: [of(0.5), of(12)] };
}

/** Internal volume with the convention it was measured by, its uncertainty from the tape, the same by the add-in, and what was typed amiss. */
function writeVolume(sheet: Sheet, at: number, table: RoomTable, form: Scenario): Record<string, string> {
  const { first, last, total } = table;
  const { units, convention: measured, tolerance: tape, houseHeight } = form;
  const { convention, tolerance, volume, heads, check, slips, height } = rowsFrom(
    at + 1,
    "convention",
    "tolerance",
    "volume",
    "heads",
    "check",
    "slips",
    "height",
  );
  writeHeading(sheet, at, ["B", "H"], "Internal volume");
  sheet.put(`B${convention}`, "Volume convention", looks.label);
  sheet.type(`E${convention}`, measured, undefined, "left").merge(`E${convention}:F${convention}`);
  sheet.put(`B${tolerance}`, "Tolerance of each length, half-width", looks.label);
  sheet.type(`E${tolerance}`, tape, decimals(3)).put(`F${tolerance}`, units.length, looks.unit);
  sheet.put(`B${volume}`, "Internal volume V: the sum of the room volumes", looks.strong);
  sheet.formula(`E${volume}`, `H${total}`, native(decimals(1))).put(`F${volume}`, units.volume, looks.unit);
  const incomplete = `IFERROR(${firstWithError(`B${first}:B${last}`, `H${first}:H${last}`)}&"","")`;
  const row = `"row "&(${first - 1}+MATCH(TRUE,INDEX(ISERROR(H${first}:H${last}),0),0))`;
  sheet.formula(
    `B${total + 1}`,
    `IF(ISERROR(H${total}),"Not added: "&IF(${incomplete}="",${row},${incomplete})&", where a length, a width above 0 or a height above 0 is missing","")`,
    style({ bold: true, size: 8, colour: palette.fail, align: "right", shrink: true }, native()),
  );
  sheet.merge(`B${total + 1}:H${total + 1}`);
  writeColumnHeads(sheet, heads, "E", [`volume, ${units.volume}`, `uncertainty, ${units.volume}`, "convention"]);
  sheet.put(`B${check}`, "Check by the add-in, from areas and mean heights", looks.label);
  const areas = keepBlanks(`F${first}:F${last}`);
  const heights = keepBlanks(`G${first}:G${last}`);
  sheet.addIn(
    `E${check}:G${check}`,
    `IF(H${total}="","",${call("ENVELOPEVOLUME", areas, heights, `E${tolerance}`, `E${convention}`)})`,
    (_, column) => fromAddIn(column < 2 ? decimals(1) : undefined),
  );
  const agrees = `ABS(E${volume}-E${check})<=0.000001*ABS(E${check})`;
  sheet.formula(`H${check}`, `IF(COUNT(E${volume},E${check})<2,"",IF(${agrees},"agrees","differs"))`, native());
  sheet.put(`B${slips}`, "Check: rooms half filled, without a storey, as text or out of range", looks.label);
  sheet.formula(`E${slips}`, slipsFormula(table, units), native(decimals(0))).put(`F${slips}`, "slips", looks.unit);
  sheet.put(`B${height}`, "Height of the house above the ground, heated part", looks.label);
  sheet.type(`E${height}`, houseHeight, decimals(1)).put(`F${height}`, units.length, looks.unit);
  sheet.keep(`E${convention}:E${tolerance}`);
  for (const row of [convention, tolerance, volume, check, slips, height]) sheet.paint(`B${row}:H${row}`, looks.label);
  const of = (metres: number) => Number((metres / units.in.length).toFixed(1));
  sheet.validate(
    oneOf(
      `E${convention}:F${convention}`,
      ["room by room", "whole internal"],
      "Volume convention",
      "Room by room: clear room volumes. Whole internal: partitions not deducted. The criterion says which one it means.",
    ),
    between(
      `E${tolerance}`,
      0,
      of(0.5),
      `Tolerance, ${units.length}`,
      "How far a measured length may be off, either way.",
    ),
    between(
      `E${height}`,
      of(1),
      of(100),
      `Height of the house, ${units.length}`,
      "From the ground to the top of the heated part: for the advice on warm and cold air, and for the stack pressure in the budget of uncertainty.",
    ),
  );
  return {
    InternalVolume: onSheet(sheets.rooms, `E${volume}`),
    VolumeConvention: onSheet(sheets.rooms, `E${convention}`),
    VolumeAgrees: onSheet(sheets.rooms, `H${check}`),
    RoomSlips: onSheet(sheets.rooms, `E${slips}`),
    HouseHeight: onSheet(sheets.rooms, `E${height}`),
    TapeUncertainty: onSheet(sheets.rooms, `F${check}`),
  };
}

/** Pasting passes by the rules of the cells: rooms that are half filled, without a storey or of a size that no room has are counted here. */
function slipsFormula({ first, last, total }: RoomTable, units: Units): string {
  const column = (letter: string) => `${letter}${first}:${letter}${last}`;
  const above = (letter: string, limit: number) => `COUNTIF(${column(letter)},">${limit}")`;
  const below = (letter: string, limit: number) => `COUNTIF(${column(letter)},"<${limit}")`;
  const half = `SUMPRODUCT(ISERROR(${column("H")})*1)`;
  // Where a room is half filled there is no area to compare.
  const noStorey = `IFERROR(IF(ABS(${onAnyStorey({ first, last })}-F${total})>0.000001,1,0),0)`;
  const { length, width, height } = roomSizes(units);
  // A width or a height of 0 or less makes its room half filled.
  const low = `${below("D", length[0])}+${below("G", height[0])}-COUNTIF(${column("G")},"<=0")`;
  return [half, noStorey, low, above("D", length[1]), above("E", width[1]), above("G", height[1])].join("+");
}
