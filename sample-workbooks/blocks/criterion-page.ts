import { onSheet } from "./address";
import { writeFormLines } from "./form";
import { letterhead, writeHeading, writePageHead } from "./heading";
import { limitColumns, limitRows, limitTableWidths, writeLimitTable } from "./limit-table";
import { Sheet } from "./sheet";
import { decimals, input, looks, native, palette, style } from "./style";
import { fromList } from "./validation";

const chosen = {
  name: 6,
  quantity: 7,
  pressure: 8,
  limit: 9,
  decimals: 10,
  convention: 11,
  definition: 12,
  directions: 13,
  source: 14,
};
const note = limitRows.last + 2;

interface Words {
  /** Name of the sheet. */
  readonly name: string;
  readonly footer: string;
  /** The criterion that is chosen at first. */
  readonly criterion: string;
  /** Heading of the choice. */
  readonly heading: string;
}

/**
 * One criterion chosen from a table of limits that is the user's to change. Every property goes by a name (TargetLimit and the like), and is
 * blank while no criterion is chosen.
 */
export function criterionPage({ name, footer, criterion, heading }: Words): {
  readonly sheet: Sheet;
  readonly names: Readonly<Record<string, string>>;
} {
  const sheet = new Sheet(name, limitTableWidths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:L${note + 2}`],
    pages: 1,
    titleRows: "1:4",
    footer,
    workingPaper: true,
  });
  const lead =
    "Limits that programmes set, to be changed as editions change. Local code and the certifier decide which one holds, and in which edition.";
  writePageHead(sheet, letterhead, ["B", "L"], name, lead);
  sheet.heightOf(13.5, 5, note + 2).height(27, limitRows.first - 3);
  writeHeading(sheet, 5, ["B", "L"], heading);
  writeChoice(sheet, criterion);
  writeLimitTable(sheet, `$C$${chosen.name}`);
  sheet.put(
    `B${note}`,
    "Mark C: read in a published text. Mark M: written from memory of the document; check against your own copy before you rely on it. Decimals: blank compares the unrounded " +
      "result with the limit; a number rounds the result once, to so many decimals, ties to even (ASTM E29), where the programme says so. Limits per square foot are converted with 1 cfm/ft² = 18.288 m³/(h·m²).",
    looks.note,
  );
  sheet.merge(`B${note}:L${note + 2}`);
  const place = (row: number) => onSheet(name, `C${row}`);
  return {
    sheet,
    names: {
      TargetName: place(chosen.name),
      TargetQuantity: place(chosen.quantity),
      TargetPressure: place(chosen.pressure),
      TargetLimit: place(chosen.limit),
      TargetUnit: onSheet(name, `D${chosen.limit}`),
      TargetDecimals: place(chosen.decimals),
      TargetConvention: place(chosen.convention),
      TargetDefinition: place(chosen.definition),
      TargetDirections: place(chosen.directions),
    },
  };
}

function writeChoice(sheet: Sheet, criterion: string): void {
  const column = (letter: string) => `$${letter}$${limitRows.first}:$${letter}$${limitRows.last}`;
  const found = (letter: string) => `INDEX(${column(letter)},MATCH($C$${chosen.name},${column("B")},0))`;
  const pick = (letter: string) => `IF($C$${chosen.name}="","",IF(${found(letter)}="","",${found(letter)}))`;
  const bold = (format?: string) => style({ bold: true }, native(format, "left"));
  const atTen = `IF($C$${chosen.pressure}=10,"equivalent 10 Pa",IF($C$${chosen.pressure}=4,"effective 4 Pa",""))`;
  sheet.put(`B${chosen.name}`, "Criterion", looks.label);
  sheet.put(`C${chosen.name}`, criterion, style({ bold: true }, input(undefined, "left")));
  writeFormLines(sheet, chosen.quantity, { label: "B", value: "C", unit: "D" }, [
    { label: "Quantity", formula: pick(limitColumns.quantity), look: bold() },
    { label: "Reference pressure", formula: pick(limitColumns.pressure), look: bold(decimals(0)), unit: "Pa" },
    { label: "Limit", formula: pick(limitColumns.limit), look: bold("General") },
    {
      label: "Decimals to round to",
      formula: pick(limitColumns.decimals),
      look: bold(decimals(0)),
      unit: "blank: unrounded",
    },
    { label: "Volume convention", formula: pick(limitColumns.convention), look: bold() },
    {
      label: "Definition of the leakage area",
      formula: `IF($C$${chosen.quantity}="leakage area per envelope area",${atTen},"")`,
      look: bold(),
    },
    { label: "Directions", formula: pick(limitColumns.directions), look: bold() },
    { label: "Source", formula: pick(limitColumns.source), look: bold() },
  ]);
  sheet.formula(`D${chosen.limit}`, pick(limitColumns.unit), looks.unit);
  sheet.validate(
    fromList(`C${chosen.name}`, column("B"), "Criterion", "Choose a row of the table below, by its name."),
  );
}
