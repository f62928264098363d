import { columnHeads, section } from "./heading";
import type { Sheet } from "./sheet";
import { decimals, native } from "./style";
import { between, text } from "./validation";

/** An opening of a flow device: q = c · p^m in m³/h, valid between two fan pressures, Pa. */
export type DeviceOpening = readonly [name: string, c: number, m: number, lowest: number, highest: number];

/** The openings of a flow device, B to H from a heading on; gives the five columns as a call of the add-in takes them. */
export function flowDeviceTable(sheet: Sheet, at: number, openings: readonly DeviceOpening[], rows = 6): string {
  const [heads, first, last] = [at + 1, at + 2, at + 1 + rows];
  section(sheet, at, ["B", "H"], "Flow device, from its certificate: flow = c · (fan pressure)^{m}");
  const flows = ["lowest flow, m³/h", "highest flow, m³/h"];
  columnHeads(sheet, heads, "B", ["<opening", "c, m³/h at 1 Pa", "m", "from, Pa", "to, Pa", ...flows]);
  for (let row = first; row <= last; row++) {
    const [name = null, c = null, m = null, from = null, to = null] = openings[row - first] ?? [];
    sheet.type(`B${row}`, name, undefined, "left").type(`C${row}`, c, decimals(2)).type(`D${row}`, m, decimals(3));
    sheet.type(`E${row}`, from, decimals(0)).type(`F${row}`, to, decimals(0));
    const flowAt = (pressure: string) => `IF(COUNT($C${row}:$F${row})<4,"",$C${row}*${pressure}${row}^$D${row})`;
    sheet.formula(`G${row}`, flowAt("E"), native(decimals(0))).formula(`H${row}`, flowAt("F"), native(decimals(0)));
  }
  sheet.validate(
    text(`B${first}:B${last}`, "Opening", "Name of the opening, from the largest to the smallest.", 20),
    between(`C${first}:C${last}`, 0.001, 100000, "c, m³/h", "Flow coefficient of this opening from the certificate."),
    between(`D${first}:D${last}`, 0.3, 1, "m", "Exponent of this opening from the certificate, near 0.5."),
    between(`E${first}:F${last}`, 0, 2000, "Valid range, Pa", "Fan pressures between which the certificate holds."),
  );
  return `$B$${first}:$F$${last}`;
}
