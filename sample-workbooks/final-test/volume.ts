import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { onAnyStorey, type RoomRows } from "./envelope";
import { sheets } from "./places";
import { houseHeight } from "./scenario";

interface RoomTable extends RoomRows {
  readonly total: number;
}

/** What a length, a width and a height of a room can be, in m; used by the cells' rules and by the count of slips. */
export const roomSizes = { length: [-60, 60], width: [0, 60], height: [0.5, 12] } as const;

/** Internal volume with the convention it was measured by, its uncertainty from the tape, the plain sum, and what was typed amiss. */
export function volumeSection(sheet: Sheet, at: number, table: RoomTable): Record<string, string> {
  const { first, last, total } = table;
  const [convention, tolerance, heads, volume, check, slips, height] = [1, 2, 3, 4, 5, 6, 7].map(
    (offset) => at + offset,
  ) as [number, number, number, number, number, number, number];
  section(sheet, at, ["B", "H"], "Internal volume");
  sheet.put(`B${convention}`, "Volume convention", looks.label);
  sheet.type(`E${convention}`, "room by room", undefined, "left").merge(`E${convention}:F${convention}`);
  sheet.put(`B${tolerance}`, "Tolerance of each length, half-width", looks.label);
  sheet.type(`E${tolerance}`, 0.02, decimals(3)).put(`F${tolerance}`, "m", looks.unit);
  columnHeads(sheet, heads, "E", ["volume, m³", "std. uncert., m³", "convention"]);
  sheet.put(`B${volume}`, "Internal volume V, from areas and mean heights", looks.strong);
  const areas = keepBlanks(`F${first}:F${last}`);
  const heights = keepBlanks(`G${first}:G${last}`);
  sheet.addIn(
    `E${volume}:G${volume}`,
    call("ENVELOPEVOLUME", areas, heights, `E${tolerance}`, `E${convention}`),
    (_, column) => fromAddIn(column < 2 ? decimals(1) : undefined),
  );
  sheet.put(`B${check}`, "Check: the sum of the room volumes", looks.label);
  sheet.formula(`E${check}`, `H${total}`, native(decimals(1)));
  const agrees = `ABS(E${volume}-E${check})<=0.000001*ABS(E${check})`;
  sheet.formula(`F${check}`, `IF(COUNT(E${volume},E${check})<2,"",IF(${agrees},"agrees","differs"))`, native());
  sheet.put(`B${slips}`, "Check: rooms half filled, without a storey, as text or out of range", looks.label);
  sheet.formula(`E${slips}`, slipsFormula(table), native(decimals(0))).put(`F${slips}`, "slips", looks.unit);
  sheet.put(`B${height}`, "Height of the house above the ground, heated part", looks.label);
  sheet.type(`E${height}`, houseHeight, decimals(1)).put(`F${height}`, "m", looks.unit);
  for (const row of [convention, tolerance, volume, check, slips, height]) sheet.paint(`B${row}:H${row}`, looks.label);
  sheet.validate(
    oneOf(
      `E${convention}:F${convention}`,
      ["room by room", "whole internal"],
      "Volume convention",
      "Room by room: clear room volumes. Whole internal: partitions not deducted. The criterion says which one it means.",
    ),
    between(`E${tolerance}`, 0, 0.5, "Tolerance, m", "How far a measured length may be off, either way, in metres."),
    between(
      `E${height}`,
      1,
      100,
      "Height of the house, m",
      "From the ground to the top of the heated part. Only the advice on warm and cold air uses it.",
    ),
  );
  return {
    InternalVolume: onSheet(sheets.rooms, `E${volume}`),
    VolumeConvention: onSheet(sheets.rooms, `E${convention}`),
    RoomSlips: onSheet(sheets.rooms, `E${slips}`),
    HouseHeight: onSheet(sheets.rooms, `E${height}`),
  };
}

/** Pasting passes by the rules of the cells, and text is left out of a sum without a word: both are counted here. */
function slipsFormula({ first, last, total }: RoomTable): string {
  const column = (letter: string) => `${letter}${first}:${letter}${last}`;
  const outside = (letter: string, [lowest, highest]: readonly [number, number]) =>
    `COUNTIF(${column(letter)},"<${lowest}")+COUNTIF(${column(letter)},">${highest}")`;
  const numbers = `ISNUMBER(${column("D")})+ISNUMBER(${column("E")})+ISNUMBER(${column("G")})`;
  const half = `SUMPRODUCT(((${column("B")}<>"")+(${column("D")}<>"")+(${column("E")}<>"")+(${column("G")}<>"")>0)*(${numbers}<3))`;
  const noStorey = `IF(ABS(${onAnyStorey({ first, last })}-F${total})>0.000001,1,0)`;
  return [
    half,
    noStorey,
    outside("D", roomSizes.length),
    outside("E", roomSizes.width),
    outside("G", roomSizes.height),
  ].join("+");
}
