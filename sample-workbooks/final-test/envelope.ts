import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, style } from "../blocks/style";
import { between } from "../blocks/validation";
import { sheets } from "./places";
import { outlines, storeyHeights } from "./scenario";

interface RoomRows {
  readonly first: number;
  readonly last: number;
}

interface Storey {
  readonly name: "ground" | "upper";
  /** Columns of x, y and the length of the side that starts at the corner. */
  readonly columns: readonly [x: string, y: string, side: string];
}

const storeys: readonly Storey[] = [
  { name: "ground", columns: ["C", "D", "E"] },
  { name: "upper", columns: ["F", "G", "H"] },
];

const corners = 8;

/** Outlines of the storeys by their corners, and the envelope area that follows from them. */
export function envelopeSections(sheet: Sheet, at: number, rooms: RoomRows): Record<string, string> {
  const first = at + 2;
  const last = first + corners - 1;
  const [plan, around, filled] = [last + 1, last + 2, last + 3];
  section(sheet, at, ["B", "H"], "Outlines, corner after corner");
  columnHeads(sheet, at + 1, "B", ["<corner", "ground, x", "y", "side, m", "upper, x", "y", "side, m"]);
  for (let row = first; row <= last; row++)
    sheet.put(`B${row}`, row - first + 1, style({ align: "left" }, looks.label));
  sheet.put(`B${plan}`, "Area inside the outline, m²", looks.label);
  sheet.put(`B${around}`, "Perimeter, m", looks.label);
  sheet.put(`B${filled}`, "Check: share that the rooms fill", looks.label);
  for (const { name, columns } of storeys) {
    const [x, y, side] = columns;
    for (let row = first; row <= last; row++) {
      const corner = outlines[name][row - first];
      sheet.type(`${x}${row}`, corner?.[0] ?? null, decimals(2)).type(`${y}${row}`, corner?.[1] ?? null, decimals(2));
      sheet.formula(`${side}${row}`, sideFormula(x, y, row, first, last), native(decimals(2)));
    }
    sheet.addIn(`${side}${plan}`, call("FLOORAREA", keepBlanks(`${x}${first}:${y}${last}`)), fromAddIn(decimals(2)));
    sheet.formula(`${side}${around}`, `SUM(${side}${first}:${side}${last})`, native(decimals(2)));
    const inRooms = `SUMIF(C${rooms.first}:C${rooms.last},"${name}",F${rooms.first}:F${rooms.last})`;
    sheet.formula(`${side}${filled}`, `${inRooms}/${side}${plan}`, native("0 %"));
  }
  for (const row of [plan, around, filled]) sheet.paint(`B${row}:H${row}`, looks.label);
  sheet.validate(
    between(
      `C${first}:D${last}`,
      -500,
      500,
      "Corner, m",
      "x and y of an inner corner, going round once. Spare rows stay blank.",
    ),
    between(
      `F${first}:G${last}`,
      -500,
      500,
      "Corner, m",
      "x and y of an inner corner, going round once. Spare rows stay blank.",
    ),
  );
  return envelopeArea(sheet, filled + 2, plan, around);
}

/** The distance to the next corner, or from the last one back to the first. */
function sideFormula(x: string, y: string, row: number, first: number, last: number): string {
  const to = (next: string) => `SQRT((${x}${next}-${x}${row})^2+(${y}${next}-${y}${row})^2)`;
  const home = to(`$${first}`);
  const onwards = row === last ? home : `IF(${x}${row + 1}="",${home},${to(String(row + 1))})`;
  return `IF(${x}${row}="","",${onwards})`;
}

function envelopeArea(sheet: Sheet, at: number, plan: number, around: number): Record<string, string> {
  section(sheet, at, ["B", "H"], "Envelope area, ground and neighbours included");
  columnHeads(sheet, at + 1, "B", ["<part", "", "", "", "height, m", "perimeter, m", "area, m²"]);
  const rows: readonly (readonly [part: string, height: number | null, perimeter: string | null, area: string])[] = [
    ["Floor to the ground, outline of the ground floor", null, null, `E${plan}`],
    ["Walls of the ground floor, floor to floor", storeyHeights.ground, `E${around}`, ""],
    ["Walls of the upper floor, floor to ceiling", storeyHeights.upper, `H${around}`, ""],
    ["Ceiling under the roof, outline of the upper floor", null, null, `H${plan}`],
  ];
  rows.forEach(([part, height, perimeter, area], index) => {
    const row = at + 2 + index;
    sheet.put(`B${row}`, part, looks.label);
    if (height !== null) sheet.type(`F${row}`, height, decimals(2));
    if (perimeter !== null) sheet.formula(`G${row}`, perimeter, native(decimals(2)));
    sheet.formula(`H${row}`, area || `F${row}*G${row}`, native(decimals(2)));
    sheet.paint(`B${row}:H${row}`, looks.label);
  });
  const total = at + 2 + rows.length;
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(2) });
  sheet.rich(`B${total}`, "Envelope area A_{E}", style({ align: "left" }, sum)).paint(`C${total}:G${total}`, sum);
  sheet.formula(`H${total}`, `SUM(H${at + 2}:H${total - 1})`, sum);
  sheet.validate(
    between(`F${at + 3}:F${at + 4}`, 1, 30, "Height, m", "Height of the storey's outer walls, measured inside."),
  );
  return { EnvelopeArea: onSheet(sheets.rooms, `H${total}`) };
}
