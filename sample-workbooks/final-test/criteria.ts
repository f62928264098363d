import { decisionRules, oneDirectionRules, standards, techniques } from "../../src/core/index";
import { onSheet } from "../blocks/address";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { limitColumns, limitRows, limitTableWidths, writeLimitTable } from "../blocks/limit-table";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { between, fromList, oneOf } from "../blocks/validation";
import { footer, sheets } from "./layout";
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
  const sheet = new Sheet(sheets.criteria, limitTableWidths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:L${note + 2}`],
    pages: 1,
    titleRows: "1:4",
    footer,
    workingPaper: true,
  });
  const lead =
    "Limits that programmes set, to be changed as editions change. Local code and the certifier decide which one holds, and in which edition.";
  writePageHead(sheet, letterhead, ["B", "L"], "Criteria", lead);
  sheet.heightOf(13.5, 5, note + 2);
  writeChosenCriterion(sheet, criterion);
  const choices = writeChoices(sheet);
  writeLimitTable(sheet, `$C$${chosen.name}`, units);
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

function writeChosenCriterion(sheet: Sheet, criterion: string): void {
  writeHeading(sheet, 5, ["B", "E"], "The criterion for this house");
  const found = (column: string) =>
    `INDEX($${column}$${limitRows.first}:$${column}$${limitRows.last},MATCH($C$${chosen.name},$B$${limitRows.first}:$B$${limitRows.last},0))`;
  const pick = (column: string) => `IF($C$${chosen.name}="","",IF(${found(column)}="","",${found(column)}))`;
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

/** A formula on the criterion's cells; something else while no criterion is chosen, or one that the table does not have. */
export function ofCriterion(formula: string, otherwise: string): string {
  return `IF(TargetName="",${otherwise},IFERROR(${formula},${otherwise}))`;
}

/** A formula: the technique takes the standard uncertainty of every reading from the sheet Uncertainty. */
export const takesUncertainties =
  'OR(TestTechnique="weighted organic correlation",TestTechnique="errors in both",TestTechnique="weighted with expected exponent")';

const first = 6;

interface Choice {
  readonly name: string;
  readonly label: string;
  readonly value: string | number;
  readonly words?: readonly string[];
  /** Of a number. */
  readonly range?: readonly [lowest: number, highest: number];
  readonly hint: string;
}

const choices: readonly Choice[] = [
  {
    name: "TestStandard",
    label: "Standard of the test",
    value: "ISO 9972",
    words: standards,
    hint: "Decides the checks of validity and the reference conditions of the coefficient.",
  },
  {
    name: "TestTechnique",
    label: "Technique of the line",
    value: "ordinary",
    words: techniques,
    hint: "Ordinary least squares is what ISO 9972 asks for. The last three take the uncertainties of the readings from the sheet Uncertainty. “With expected exponent” is for planning and repair; no standard asks for it.",
  },
  {
    name: "ConfidenceLevel",
    label: "Confidence of the limits",
    value: 0.95,
    range: [0.5, 0.9999],
    hint: "A fraction: 0.95 for 95 %.",
  },
  {
    name: "OneDirection",
    label: "One direction alone",
    value: "refuse",
    words: oneDirectionRules,
    hint: "Refuse: the mean needs both directions. Accept: one is enough, where the criterion says so too.",
  },
  {
    name: "DecisionRule",
    label: "Decision rule",
    value: "plain",
    words: decisionRules,
    hint: "Plain: the result against the criterion’s limit. Guarded acceptance: the upper limit of the result. Guarded rejection: fails only where its lower limit exceeds the criterion’s.",
  },
  {
    name: "RunSpreadLimit",
    label: "Runs apart, at most",
    value: 0.1,
    range: [0.01, 0.5],
    hint: "Two runs of one direction may differ by this fraction of their mean: 0.1 for 10 %. Common practice, no source. Beyond it there is no verdict.",
  },
];

/** How the test is evaluated and decided, each from a list, beside the criterion; the names by which other sheets call the choices. */
function writeChoices(sheet: Sheet): Record<string, string> {
  writeHeading(sheet, first - 1, ["H", "L"], "How the test is evaluated");
  choices.forEach(({ label, value, words, range: [lowest, highest] = [0, 1], hint }, index) => {
    const row = first + index;
    sheet.put(`H${row}`, label, looks.label).paint(`I${row}`, looks.label);
    sheet.put(`J${row}`, value, style({ bold: true }, input(words ? undefined : "0.0##", "left")));
    sheet.merge(`J${row}:K${row}`);
    const cells = `J${row}:K${row}`;
    sheet.validate(words ? oneOf(cells, words, label, hint) : between(cells, lowest, highest, label, hint));
  });
  sheet.keep(`J${first}:J${first + choices.length - 1}`);
  return Object.fromEntries(choices.map(({ name }, index) => [name, onSheet(sheets.criteria, `J${first + index}`)]));
}
