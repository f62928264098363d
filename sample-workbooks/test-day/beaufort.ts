import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { sheets } from "./places";

/** The scale as far as a tester needs it: speed at 10 m over open ground, m/s, and what one sees. */
const scale: readonly (readonly [from: number, name: string, seen: string])[] = [
  [0, "calm", "smoke rises straight up"],
  [0.3, "light air", "smoke drifts, vanes stand still"],
  [1.6, "light breeze", "wind felt on the face, leaves rustle"],
  [3.4, "gentle breeze", "leaves and twigs move all the time, light flags stretch"],
  [5.5, "moderate breeze", "dust and paper fly, small branches move"],
  [8, "fresh breeze", "small trees sway"],
  [10.8, "strong breeze", "large branches move, umbrellas are hard to hold"],
  [13.9, "near gale", "whole trees move, walking is hard"],
  [17.2, "gale", "twigs break off"],
];

const at = 38;
const first = at + 2;
const last = first + scale.length - 1;

/** Last row of the scale on the sheet Standards. */
export const lastOfBeaufort = last;

/** The scale with what one sees, so that a tester without a wind gauge can tell. */
export function beaufortTable(sheet: Sheet): void {
  section(sheet, at, ["B", "N"], "Beaufort scale (World Meteorological Organization, M)");
  columnHeads(sheet, at + 1, "B", ["<Beaufort", "<name", "from, m/s"]);
  sheet.put(`E${at + 1}`, "what one sees", style({ indent: 1 }, looks.columnHeadLeft)).merge(`E${at + 1}:I${at + 1}`);
  scale.forEach(([from, name, seen], index) => {
    const row = first + index;
    sheet.put(`B${row}`, index, native(decimals(0), "left")).put(`C${row}`, name, looks.label);
    sheet
      .put(`D${row}`, from, native(decimals(1)))
      .put(`E${row}`, seen, style({ indent: 1, align: "left" }, looks.label))
      .merge(`E${row}:I${row}`);
  });
}

/** The Beaufort number of a speed at 10 m, m/s. */
export function beaufortOf(speed: string): string {
  return `MATCH(${speed},${onSheet(sheets.standards, `D${first}:D${last}`)},1)-1`;
}
