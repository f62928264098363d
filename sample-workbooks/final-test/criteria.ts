import { onSheet } from "../blocks/address";
import { letterhead, pageHead, section } from "../blocks/heading";
import { limitColumns, limitRows, limitTable } from "../blocks/limit-table";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { fromList } from "../blocks/validation";
import { choicesSection } from "./choices";
import { footer, sheets } from "./places";
import type { Scenario } from "./scenario";

const chosen = {
  name: 6,
  quantity: 7,
  pressure: 8,
  limit: 9,
  decimals: 10,
  convention: 11,
  directions: 12,
  source: 13,
} as const;
const note = limitRows.last + 2;

/** The criterion, how the test is evaluated, and the limits that programmes set. */
export function criteriaPage({ units, criterion }: Scenario): Page {
  const sheet = new Sheet(sheets.criteria, [1.5, 27, 25, 10.5, 8, 10.5, 8.5, 13, 14.5, 21, 31, 6], palette.copper, {
    orientation: "landscape",
    areas: [`B1:L${note + 2}`],
    pages: 1,
    titleRows: "1:4",
    footer,
  });
  const lead =
    "Limits that programmes set, to be changed as editions change. Local code and the certifier decide which one holds, and in which edition.";
  pageHead(sheet, letterhead, ["B", "L"], "Criteria", lead);
  sheet.heightOf(13.5, 5, note + 2);
  chosenCriterion(sheet, criterion);
  const choices = choicesSection(sheet);
  limitTable(sheet, `$C$${chosen.name}`, units);
  sheet.put(
    `B${note}`,
    "Mark C: read in a published text. Mark M: written from memory of the document; check against your own copy before you rely on it. Decimals: blank compares the unrounded " +
      "result with the limit; a number rounds the result once, to so many decimals, ties to even (ASTM E29), where the programme says so. " +
      (units.system === "SI"
        ? "Limits per square foot are converted with 1 cfm/ft² = 18.288 m³/(h·m²)."
        : "Metric limits are converted with 1 cfm/ft² = 18.288 m³/(h·m²)."),
    looks.note,
  );
  sheet.merge(`B${note}:L${note + 2}`);
  const place = (row: number) => onSheet(sheets.criteria, `C${row}`);
  return {
    sheet,
    names: {
      ...choices,
      TargetName: place(chosen.name),
      TargetQuantity: place(chosen.quantity),
      TargetPressure: place(chosen.pressure),
      TargetLimit: place(chosen.limit),
      TargetUnit: onSheet(sheets.criteria, `D${chosen.limit}`),
      TargetDecimals: place(chosen.decimals),
      TargetConvention: place(chosen.convention),
      TargetDirections: place(chosen.directions),
    },
  };
}

function chosenCriterion(sheet: Sheet, criterion: string): void {
  section(sheet, 5, ["B", "E"], "The criterion for this house");
  const found = (column: string) =>
    `INDEX($${column}$${limitRows.first}:$${column}$${limitRows.last},MATCH($C$${chosen.name},$B$${limitRows.first}:$B$${limitRows.last},0))`;
  const pick = (column: string) => `IF($C$${chosen.name}="",NA(),IF(${found(column)}="","",${found(column)}))`;
  const rows: readonly (readonly [row: number, label: string, formula: string, format?: string, unit?: string])[] = [
    [chosen.quantity, "Quantity", pick(limitColumns.quantity)],
    [chosen.pressure, "Reference pressure", pick(limitColumns.pressure), decimals(0), "Pa"],
    [chosen.limit, "Limit", pick(limitColumns.limit), "General"],
    [chosen.decimals, "Decimals to round to", pick(limitColumns.decimals), decimals(0), "blank: unrounded"],
    [chosen.convention, "Volume convention", pick(limitColumns.convention)],
    [chosen.directions, "Directions", pick(limitColumns.directions)],
    [chosen.source, "Source", pick(limitColumns.source)],
  ];
  sheet.put(`B${chosen.name}`, "Criterion", looks.label);
  sheet.put(`C${chosen.name}`, criterion, style({ bold: true }, input(undefined, "left")));
  for (const [row, label, formula, format, unit] of rows) {
    sheet.put(`B${row}`, label, looks.label).formula(`C${row}`, formula, style({ bold: true }, native(format, "left")));
    if (unit) sheet.put(`D${row}`, unit, looks.unit);
  }
  sheet.formula(`D${chosen.limit}`, pick(limitColumns.unit), looks.unit);
  sheet.validate(
    fromList(
      `C${chosen.name}`,
      `$B$${limitRows.first}:$B$${limitRows.last}`,
      "Criterion",
      "Choose a row of the table below, by its name.",
    ),
  );
}
