import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { wholeSum } from "../blocks/typed-cells";
import { between, text } from "../blocks/validation";
import { sheets } from "./places";
import type { Scenario } from "./scenario";

/** Cells of one storey: area inside the outline, perimeter, share that the rooms fill. */
export interface OutlinePlaces {
  readonly plan: string;
  readonly around: string;
  readonly filled: string;
  /** Whether the add-in finds the same area, in a word. */
  readonly compared: string;
}

/** Rows for parts that no outline gives: a floor over a passage, a dormer, a lift of the roof. */
const furtherRows = 4;

/** Rows from the heading to the sum. */
export const envelopeAreaRows = 2 + 5 + furtherRows + 1;

/** Floor, walls storey by storey, ceiling, and further parts; a storey without an outline takes no part. */
export function envelopeArea(
  sheet: Sheet,
  at: number,
  outlines: readonly OutlinePlaces[],
  { storeyHeights, units }: Scenario,
): Record<string, string> {
  const { length: unit } = units;
  section(sheet, at, ["B", "H"], "Envelope area, ground and neighbours included");
  columnHeads(sheet, at + 1, "B", [
    "<part",
    "",
    "",
    "",
    `height, ${unit}`,
    `perimeter, ${unit}`,
    `area, ${units.area}`,
  ]);
  const first = at + 2;
  const ground = outlines[0]?.plan ?? "";
  sheet.put(`B${first}`, "Floor to the ground, outline of the ground floor", looks.label);
  sheet.formula(`H${first}`, `IF(${ground}="",NA(),${ground})`, native(decimals(2)));
  const walls = [
    ["Walls of the ground floor, up to the next floor or the ceiling", storeyHeights.ground],
    ["Walls of the upper floor, up to the next floor or the ceiling", storeyHeights.upper],
    ["Walls of the top floor, up to the ceiling", storeyHeights.top],
  ] as const;
  walls.forEach(([part, height], index) => {
    const row = first + 1 + index;
    const { plan = "", around = "" } = outlines[index] ?? {};
    sheet.put(`B${row}`, part, looks.label).type(`F${row}`, height, decimals(2));
    sheet.formula(`G${row}`, `IF(${plan}="","",${around})`, native(decimals(2)));
    const area = `IF(COUNT(F${row}:G${row})<2,NA(),F${row}*G${row})`;
    sheet.formula(`H${row}`, `IF(G${row}="","",${area})`, native(decimals(2)));
  });
  const ceiling = first + 1 + walls.length;
  sheet.put(`B${ceiling}`, "Ceiling under the roof, the largest of the outlines", looks.label);
  const plans = outlines.map(({ plan }) => plan).join(",");
  sheet.formula(`H${ceiling}`, `IF(COUNT(${plans})=0,NA(),MAX(${plans}))`, native(decimals(2)));
  const [further, total] = [ceiling + 1, ceiling + 1 + furtherRows];
  for (let row = further; row < total; row++) {
    sheet.type(`B${row}`, null, undefined, "left").merge(`B${row}:G${row}`).type(`H${row}`, null, decimals(2));
  }
  for (let row = first; row < further; row++) sheet.paint(`B${row}:H${row}`, looks.label);
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(2) });
  sheet.rich(`B${total}`, "Envelope area A_{E}", style({ align: "left" }, sum)).paint(`C${total}:G${total}`, sum);
  const typed = `H${further}:H${total - 1}`;
  sheet.formula(`H${total}`, `${wholeSum(typed)}+SUM(H${first}:H${further - 1})`, sum);
  sheet.validate(
    between(
      `F${first + 1}:F${first + 3}`,
      Number((1 / units.in.length).toFixed(1)),
      Number((12 / units.in.length).toFixed(1)),
      `Height, ${unit}`,
      "Height of the storey's outer walls, measured inside.",
    ),
    text(
      `B${further}:G${total - 1}`,
      "Further part",
      "A part of the envelope that the outlines do not give: a floor over a passage, a dormer. Its area stands at the end of the row.",
      80,
    ),
    between(typed, -50000, 50000, `Area, ${units.area}`, "Area of this part; below zero where it is deducted."),
  );
  return { EnvelopeArea: onSheet(sheets.rooms, `H${total}`) };
}
