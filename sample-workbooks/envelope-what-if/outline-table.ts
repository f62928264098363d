import { call } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, native, palette, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { between, oneOf, text, wholeBetween } from "../blocks/validation";
import { variantCount, variantRows } from "./places";
import { variants } from "./scenario";

const first = variantRows.outline;
const last = first + variantCount - 1;
const indented = style({ indent: 1 }, input(undefined, "left"));

/** Inner lengths of each variant, and the size that follows; all variants in one call. */
export function outlineTable(sheet: Sheet): void {
  section(sheet, first - 3, ["B", "P"], "Outline of each variant, inside the outer walls");
  columnHeads(sheet, first - 1, "B", [
    "<variant",
    "<sizes from",
    "length|m",
    "width|m",
    "storeys",
    "storey|height, m",
    "<<roof",
    "rise to the|ridge, m",
    "partitions,|floors, %",
    "volume|m³",
    "envelope|area, m²",
    "floor|area, m²",
    "perimeter|m",
    "height above|ground, m",
    "storeys|counted",
  ]);
  for (let row = first; row <= last; row++) {
    const given = variants[row - first];
    sheet
      .type(`B${row}`, given?.name ?? null, undefined, "left")
      .type(`C${row}`, given?.from ?? null, undefined, "left");
    sheet.type(`D${row}`, given?.length ?? null, decimals(2)).type(`E${row}`, given?.width ?? null, decimals(2));
    sheet
      .type(`F${row}`, given?.storeys ?? null, decimals(0))
      .type(`G${row}`, given?.storeyHeight ?? null, decimals(2));
    sheet.put(`H${row}`, given?.roof ?? null, indented).type(`I${row}`, given?.rise || null, decimals(2));
    sheet.type(`J${row}`, given?.partitions ?? null, decimals(0));
    const fromPlan = (value: string, own: string) => `IF(B${row}="","",IF(C${row}="corners",${value},${own}))`;
    const around = ofBoth(`D${row}:E${row}`, `2*(D${row}+E${row})`);
    const height = ofBoth(`F${row}:G${row}`, `F${row}*G${row}+I${row}`);
    sheet.formula(`N${row}`, fromPlan("PlanPerimeter", around), native(decimals(1)));
    sheet.formula(`O${row}`, fromPlan("PlanHeight", height), native(decimals(2)));
    sheet.formula(`P${row}`, fromPlan("PlanStoreys", `IF(F${row}="","",F${row}+0)`), native(decimals(0)));
  }
  const column = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
  const size = call("ENVELOPESIZE", ...["D", "E", "F", "G", "H", "I"].map(column));
  sheet.addIn(`K${first}:M${last}`, size, fromAddIn(decimals(1)));
  sheet.when(`B${first}:B${last}`, `AND(B${first}<>"",${countOf(column("B"), `B${first}`)}>1)`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet.validate(
    text(`B${first}:B${last}`, "Variant", "A name of your choice, each once: other sheets find the variant by it.", 24),
    oneOf(
      `C${first}:C${last}`,
      ["outline", "corners"],
      "Sizes from",
      "Outline: a rectangle with a roof, in this row. Corners: the sheet Odd plan.",
    ),
    between(
      `D${first}:E${last}`,
      1,
      500,
      "Length, width, m",
      "Inside the outer walls. The ridge runs along the length.",
    ),
    wholeBetween(`F${first}:F${last}`, 1, 30, "Storeys", "Number of heated storeys."),
    between(`G${first}:G${last}`, 1.8, 12, "Storey height, m", "Floor to floor; the top storey floor to eaves."),
    oneOf(
      `H${first}:H${last}`,
      ["flat", "gable", "hip", "mono-pitch"],
      "Roof",
      "Shape of the heated space under the roof. Flat where the ceiling is the envelope.",
    ),
    between(`I${first}:I${last}`, 0.1, 30, "Rise, m", "Height of the ridge above the eaves. Blank under a flat roof."),
    between(
      `J${first}:J${last}`,
      0,
      40,
      "Partitions, floors, %",
      "Share of the volume that inner walls and floors take. Needed where the limit counts room by room; 0 takes nothing off.",
    ),
  );
}

/** Blank while one of the numbers is missing; #N/A where one is text. */
function ofBoth(cells: string, formula: string): string {
  return `IF(COUNTA(${cells})<>COUNT(${cells}),NA(),IF(COUNT(${cells})<2,"",${formula}))`;
}
