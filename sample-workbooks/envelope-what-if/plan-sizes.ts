import { call, quoted } from "../blocks/add-in";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between } from "../blocks/validation";
import { across, at, results, sides } from "./plan-places";

/** The volume in one call with its uncertainty, and what the outlines do not hold. */
export function storeysTogether(sheet: Sheet): void {
  section(sheet, at.tolerance - 1, ["B", "K"], "All storeys together");
  sheet.put(`B${at.tolerance}`, "Lengths on the drawings are right to within ±", looks.label);
  sheet.put(`F${at.tolerance}`, 0.02, input(decimals(3))).put(`G${at.tolerance}`, "m", looks.unit);
  sheet.put(`B${at.call}`, "Volume, its standard uncertainty, convention", looks.label);
  const row = (one: number) => `$C$${one}:$K$${one}`;
  // Between the areas of the storeys stand cells that hold nothing: they count as no space.
  const volume = call("ENVELOPEVOLUME", row(at.area), row(at.height), `$F$${at.tolerance}`, quoted("whole internal"));
  const formats = [decimals(1), decimals(2), undefined];
  sheet.addIn(`F${at.call}:H${at.call}`, `IF(COUNT(${row(at.area)})=0,{"","",""},${volume})`, (_, column) =>
    style({ indent: column === 2 ? 1 : 0 }, fromAddIn(formats[column], column === 2 ? "left" : "right")),
  );
  // The words of the convention run on into the next cell.
  sheet.paint(`I${at.call}`, fromAddIn());
  sheet.put(`B${at.further}`, "Further volume, such as dormers", looks.label);
  sheet.put(`F${at.further}`, null, input(decimals(1))).put(`G${at.further}`, "m³", looks.unit);
  sheet.put(`B${at.further + 1}`, "Further envelope area", looks.label);
  sheet.put(`F${at.further + 1}`, null, input(decimals(1))).put(`G${at.further + 1}`, "m²", looks.unit);
  for (let one = at.tolerance; one <= at.further + 1; one++) sheet.paint(`B${one}:K${one}`, looks.label);
  sheet.validate(
    between(`F${at.tolerance}`, 0, 0.5, "Tolerance, m", "How far a length may be off, either way."),
    between(
      `F${at.further}:F${at.further + 1}`,
      -5000,
      5000,
      "Further parts",
      "What the outlines do not hold; below zero where it is deducted.",
    ),
  );
}

/** The sizes that a variant takes over. */
export function planSizes(sheet: Sheet): void {
  section(sheet, results.volume - 1, ["B", "K"], "Sizes for the variants");
  const sum = (row: number) => `SUM(C${row}:K${row})`;
  const areas = across(at.area);
  const known = areas.map((area) => `IF(${area}="",0,1)`).join("+");
  const lines: readonly (readonly [row: number, label: string, formula: string, unit: string, format: string])[] = [
    [results.volume, "Volume, partitions not deducted", `${sum(at.volume)}+F${at.further}`, "m³", decimals(1)],
    [
      results.envelope,
      "Envelope area: lowest floor, walls, largest ceiling",
      `${areas[0] ?? ""}+${sum(at.walls)}+MAX(${areas.join(",")})+F${at.further + 1}`,
      "m²",
      decimals(1),
    ],
    [results.floor, "Floor area inside the outlines", sum(at.area), "m²", decimals(1)],
    [results.perimeter, "Perimeter on the ground", across(at.perimeter)[0] ?? "", "m", decimals(1)],
    [
      results.height,
      "Height",
      sides.map((side) => `IF(${side}${at.area}="",0,${side}${at.height})`).join("+"),
      "m",
      decimals(2),
    ],
    [results.storeys, "Storeys", known, "", decimals(0)],
  ];
  for (const [row, label, formula, unit, format] of lines) {
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}:E${row}`, looks.label);
    sheet.formula(`F${row}`, `IF(OR((${known})=0,${areas[0] ?? ""}=""),"",${formula})`, native(format));
    sheet.put(`G${row}`, unit || null, looks.unit).paint(`H${row}:K${row}`, looks.label);
  }
  sheet.formula(
    `H${results.volume}`,
    `IF(OR(F${results.volume}="",F${at.call}=""),"",IF(ABS(F${results.volume}-F${at.further}-F${at.call})<=0.000000001*F${at.call},"agrees with the call above","differs from the call above"))`,
    style({ size: 8, colour: palette.grey }, looks.label),
  );
  sheet.merge(`H${results.volume}:K${results.volume}`);
  sheet.put(
    `B${results.storeys + 1}`,
    "The variants go on from the plain sum of area × height, so that the chain of calls stays short; the call gives the same and its uncertainty. The ceiling is flat here: a roof that belongs to the heated space is added as " +
      "further volume and further area. Walls to the ground and to neighbours count (ISO 9972:2015, envelope area, M).",
    looks.note,
  );
  sheet.merge(`B${results.storeys + 1}:K${results.storeys + 4}`);
}
