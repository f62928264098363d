import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { sheets } from "./places";

interface RoomRows {
  readonly first: number;
  readonly last: number;
  readonly total: number;
}

/** Internal volume with the convention it was measured by, its uncertainty from the tape, and the plain sum beside it. */
export function volumeSection(sheet: Sheet, at: number, { first, last, total }: RoomRows): Record<string, string> {
  const [convention, tolerance, heads, volume, check] = [at + 1, at + 2, at + 3, at + 4, at + 5];
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
  for (const row of [convention, tolerance, volume, check]) sheet.paint(`B${row}:H${row}`, looks.label);
  sheet.validate(
    oneOf(
      `E${convention}:F${convention}`,
      ["room by room", "whole internal"],
      "Volume convention",
      "Room by room: clear room volumes. Whole internal: partitions not deducted. The criterion says which one it means.",
    ),
    between(`E${tolerance}`, 0, 0.5, "Tolerance, m", "How far a measured length may be off, either way, in metres."),
  );
  return {
    InternalVolume: onSheet(sheets.rooms, `E${volume}`),
    VolumeConvention: onSheet(sheets.rooms, `E${convention}`),
  };
}
