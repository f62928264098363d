import { onSheet } from "../blocks/address";
import { columnHeads, pageHead, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, style } from "../blocks/style";
import { between, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
import { limits } from "./limits";
import { footer, letterhead, sheets, type Page } from "./places";

const chosen = { name: 6, quantity: 7, pressure: 8, limit: 9, decimals: 10, convention: 11, directions: 12, source: 13 } as const;
const table = { heads: 17, first: 18, last: 35 } as const;
const note = table.last + 2;

/** The column of the table in which each property stands. */
const columns = { name: "B", quantity: "C", pressure: "D", limit: "E", unit: "F", decimals: "G", convention: "H", directions: "I", published: "J", source: "K", mark: "L" } as const;

const quantities = ["air change rate", "per envelope area", "per floor area", "leakage area per envelope area"];

export function criteriaPage(): Page {
  const sheet = new Sheet(sheets.criteria, [1.5, 27, 25, 8.5, 8, 10.5, 8.5, 13, 14.5, 21, 27, 6], palette.copper, {
    orientation: "landscape",
    areas: [`B1:L${note + 2}`],
    pages: 1,
    titleRows: "1:3",
    footer,
  });
  const lead = "Limits that programmes set, to be changed as editions change. Local code and the certifier decide which one holds, and in which edition.";
  pageHead(sheet, letterhead, ["B", "L"], "Criteria", lead);
  sheet.heightOf(13.5, 5, note + 2);
  chosenCriterion(sheet);
  limitTable(sheet);
  sheet.put(
    `B${note}`,
    "Mark C: read in a published text. Mark M: written from memory of the document; check against your own copy before you rely on it. Decimals: blank compares the unrounded " +
      "result with the limit; a number rounds the result once, to so many decimals, ties to even (ASTM E29), where the programme says so. Limits per square foot are converted with 1 cfm/ft² = 18.288 m³/(h·m²).",
    looks.note,
  );
  sheet.merge(`B${note}:L${note + 2}`);
  const place = (row: number) => onSheet(sheets.criteria, `C${row}`);
  return {
    sheet,
    names: {
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

function chosenCriterion(sheet: Sheet): void {
  section(sheet, 5, ["B", "L"], "The criterion for this house");
  const pick = (column: string) => `INDEX($${column}$${table.first}:$${column}$${table.last},MATCH($C$${chosen.name},$B$${table.first}:$B$${table.last},0))`;
  const rows: readonly (readonly [row: number, label: string, formula: string, format?: string, unit?: string])[] = [
    [chosen.quantity, "Quantity", pick(columns.quantity)],
    [chosen.pressure, "Reference pressure", pick(columns.pressure), decimals(0), "Pa"],
    [chosen.limit, "Limit", pick(columns.limit), "General"],
    [chosen.decimals, "Decimals to round to", `IF(${pick(columns.decimals)}="","",${pick(columns.decimals)})`, decimals(0), "blank: unrounded"],
    [chosen.convention, "Volume convention", pick(columns.convention)],
    [chosen.directions, "Directions", pick(columns.directions)],
    [chosen.source, "Source", pick(columns.source)],
  ];
  sheet.put(`B${chosen.name}`, "Criterion", looks.label);
  sheet.put(`C${chosen.name}`, limits[0]?.name ?? null, style({ bold: true }, input(undefined, "left")));
  for (const [row, label, formula, format, unit] of rows) {
    sheet.put(`B${row}`, label, looks.label).formula(`C${row}`, formula, style({ bold: true }, native(format, "left")));
    if (unit) sheet.put(`D${row}`, unit, looks.unit);
  }
  sheet.formula(`D${chosen.limit}`, pick(columns.unit), looks.unit);
  sheet.validate(fromList(`C${chosen.name}`, `$B$${table.first}:$B$${table.last}`, "Criterion", "Choose a row of the table below, by its name."));
}

function limitTable(sheet: Sheet): void {
  const { heads, first, last } = table;
  section(sheet, heads - 2, ["B", "L"], "Limits");
  const words = ["<criterion", "<quantity", "reference|pressure, Pa", "limit", "<<unit", "decimals", "<volume|convention", "<directions", "<as published", "<source", "<mark"];
  columnHeads(sheet, heads, "B", words);
  for (let row = first; row <= last; row++) {
    const limit = limits[row - first];
    const textCells = { B: limit?.name, C: limit?.quantity, H: limit?.convention, I: limit?.directions, J: limit?.published, K: limit?.source, L: limit?.mark };
    for (const [letter, value] of Object.entries(textCells)) sheet.type(`${letter}${row}`, value ?? null, undefined, "left");
    sheet.type(`D${row}`, limit?.pressure ?? null, decimals(0)).type(`E${row}`, limit?.limit ?? null, "0.0##").type(`G${row}`, null, decimals(0));
    const unit = `IF(C${row}="air change rate","1/h",IF(C${row}="leakage area per envelope area","cm²/m²",IF(C${row}="","","m³/(h·m²)")))`;
    sheet.formula(`F${row}`, unit, style({ size: 8, colour: palette.grey }, native(undefined, "left")));
  }
  sheet.when(`B${first}:L${last}`, `AND($B${first}<>"",$B${first}=$C$${chosen.name})`, { font: { bold: true, color: { rgb: palette.petrol } } });
  sheet.validate(
    text(`B${first}:B${last}`, "Criterion", "A name of your choice; each name once.", 60),
    oneOf(`C${first}:C${last}`, quantities, "Quantity", "What is limited. The unit follows."),
    between(`D${first}:D${last}`, 1, 100, "Reference pressure, Pa", "The pressure at which the limit holds. Leakage areas are given at 10 Pa."),
    between(`E${first}:E${last}`, 0.0001, 1000, "Limit", "The largest result that passes, in the unit beside it."),
    wholeBetween(`G${first}:G${last}`, 0, 4, "Decimals", "Blank: compare unrounded. A number: round once to so many decimals first."),
    oneOf(`H${first}:H${last}`, ["room by room", "whole internal", "not used"], "Volume convention", "Which volume the limit means; not used where it is per area."),
    oneOf(`I${first}:I${last}`, ["both", "either", "depressurization"], "Directions", "Both: the mean of two. Either: one is enough, two are averaged."),
    text(`J${first}:K${last}`, "Source", "The words and the document of the limit, with its edition.", 120),
    oneOf(`L${first}:L${last}`, ["C", "M"], "Mark", "C: read in a published text. M: from memory, check your own copy."),
  );
}
