import { call, keepBlanks, quoted } from "../blocks/add-in";
import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between } from "../blocks/validation";
import { footer, sheets } from "./layout";
import { plan } from "./scenario";

/** A house that is no rectangle: storeys by their corners. A variant takes its sizes from here where it says "corners". */
export function oddPlanPage(): Page {
  const sheet = new Sheet(sheets.plan, [1.5, 24, ...Array<number>(9).fill(7.8)], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:K${results.wallLength + 4}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead = "Inner corners of each storey, going round once. A storey that the house does not have stays blank.";
  writePageHead(sheet, letterhead, ["B", "K"], "Odd plan", lead);
  sheet.heightOf(16, 5, results.wallLength + 4);
  writeHeading(sheet, 5, ["B", "K"], "Outlines, corner after corner");
  storeys.forEach((name, index) => sheet.put(`${columnsOf(index)[0]}6`, name, looks.group));
  writeColumnHeads(sheet, 7, "B", ["<corner", ...storeys.flatMap(() => ["x, m", "y, m", "side, m"])]);
  for (let row = corners.first; row <= corners.last; row++)
    sheet.put(`B${row}`, row - corners.first + 1, style({ align: "left" }, looks.label));
  storeys.forEach((_, index) => writePlanStorey(sheet, index));
  for (const [row, label] of [
    [at.area, "Area inside the outline, m²"],
    [at.perimeter, "Perimeter, m"],
    [at.height, "Height to the next floor or the ceiling, m"],
    [at.volume, "Volume, m³"],
    [at.walls, "Walls, m²"],
  ] as const)
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}:K${row}`, looks.label);
  writeVolume(sheet);
  writePlanSizes(sheet);
  const cell = (row: number) => onSheet(sheets.plan, `F${row}`);
  return {
    sheet,
    names: {
      PlanVolume: cell(results.volume),
      PlanEnvelopeArea: cell(results.envelope),
      PlanFloorArea: cell(results.floor),
      PlanPerimeter: cell(results.perimeter),
      PlanHeight: cell(results.height),
      PlanStoreys: cell(results.storeys),
      PlanWallLength: cell(results.wallLength),
    },
  };
}

/** The corners of one storey with its sides, and the area inside them. */
function writePlanStorey(sheet: Sheet, index: number): void {
  const [x, y, side] = columnsOf(index);
  const given = plan[index];
  const { first, last } = corners;
  const onwards = (row: number, next: string) => `SQRT((${x}${next}-${x}${row})^2+(${y}${next}-${y}${row})^2)`;
  for (let row = first; row <= last; row++) {
    const corner = given?.corners[row - first];
    sheet.type(`${x}${row}`, corner?.[0] ?? null, decimals(2)).type(`${y}${row}`, corner?.[1] ?? null, decimals(2));
    const home = onwards(row, `$${first}`);
    const length = row === last ? home : `IF(${x}${row + 1}="",${home},${onwards(row, String(row + 1))})`;
    sheet.formula(`${side}${row}`, `IF(COUNT(${x}${row}:${y}${row})<2,"",${length})`, native(decimals(2)));
  }
  const typed = `${x}${first}:${y}${last}`;
  const area = `IF(COUNTA(${typed})=0,"",${call("FLOORAREA", keepBlanks(typed))})`;
  sheet.addIn(`${side}${at.area}`, area, fromAddIn(decimals(2)));
  const perimeter = `IF(${side}${at.area}="","",SUM(${side}${first}:${side}${last}))`;
  sheet.formula(`${side}${at.perimeter}`, perimeter, native(decimals(2)));
  sheet.put(`${side}${at.height}`, given?.height ?? null, input(decimals(2)));
  // An area without its height is not yet a volume; adding 0 keeps an error of the outline an error.
  const times = (row: number) =>
    `IF(${side}${at.area}="","",IF(COUNT(${side}${at.height})=0,NA(),${side}${row}*${side}${at.height}))`;
  sheet.formula(`${side}${at.volume}`, times(at.area), native(decimals(1)));
  sheet.formula(`${side}${at.walls}`, times(at.perimeter), native(decimals(1)));
  sheet.validate(
    between(typed, -200, 200, "Corner, m", "x and y of an inner corner, going round once. Spare rows stay blank."),
    between(`${side}${at.height}`, 1.8, 12, "Height, m", "Floor to floor; the top storey floor to ceiling."),
  );
}

/** The volume in one call with its uncertainty, and what the outlines do not hold. */
function writeVolume(sheet: Sheet): void {
  writeHeading(sheet, at.tolerance - 1, ["B", "K"], "All storeys together");
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
function writePlanSizes(sheet: Sheet): void {
  writeHeading(sheet, results.volume - 1, ["B", "K"], "Sizes for the variants");
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
    [results.wallLength, "Perimeters of all storeys together", sum(at.perimeter), "m", decimals(1)],
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
    `B${results.wallLength + 1}`,
    "The variants go on from the plain sum of area × height, so that the chain of calls stays short; the call gives the same and its uncertainty. The ceiling is flat here: a roof that belongs to the heated space is added as " +
      "further volume and further area. Walls to the ground and to neighbours count (ISO 9972:2015, envelope area, M).",
    looks.note,
  );
  sheet.merge(`B${results.wallLength + 1}:K${results.wallLength + 4}`);
}

const corners = { first: 8, last: 17 };
const storeys = ["Ground floor", "Upper floor", "Top floor"] as const;
const at = {
  area: 18,
  perimeter: 19,
  height: 20,
  volume: 21,
  walls: 22,
  tolerance: 25,
  call: 26,
  further: 27,
} as const;
const results = {
  volume: 32,
  envelope: 33,
  floor: 34,
  perimeter: 35,
  height: 36,
  storeys: 37,
  wallLength: 38,
} as const;

/** Columns of x, y and side of a storey, by its place. */
function columnsOf(storey: number): readonly [x: string, y: string, side: string] {
  const x = columnOf("C") + 3 * storey;
  return [lettersOf(x), lettersOf(x + 1), lettersOf(x + 2)];
}

const sides = storeys.map((_, index) => columnsOf(index)[2]);
const across = (row: number) => sides.map((letter) => `${letter}${row}`);
