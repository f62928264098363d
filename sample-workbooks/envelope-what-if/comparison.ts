import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { chosen, variantColumns } from "./layout";

interface Line {
  /** Marked for subscripts, see runsOf. */
  readonly label: string;
  readonly base: string;
  readonly variant: string;
  readonly format?: string;
  readonly unit: string;
  /** How the difference is told: as a share of the base, in points of a per cent, as an amount, or as another word. */
  readonly told: "share" | "points" | "amount" | "word";
  readonly bold?: true;
}

function both(column: string): Pick<Line, "base" | "variant"> {
  return { base: chosen("Base", column), variant: chosen("Variant", column) };
}

/** A result of the sheet In use by the model chosen there. */
function ofModel(range: string): string {
  return `IF(UsedModel="","",INDEX(${range},MATCH(UsedModel,Models,0)))`;
}

/** The lines of the comparison, in the order of an estimate. */
const lines = {
  volume: {
    label: "Volume that the limit counts",
    ...both(variantColumns.volume),
    format: decimals(1),
    unit: "m³",
    told: "share",
  },
  envelope: {
    label: "Envelope area",
    ...both(variantColumns.envelopeArea),
    format: decimals(1),
    unit: "m²",
    told: "share",
  },
  floor: { label: "Floor area", ...both(variantColumns.floorArea), format: decimals(1), unit: "m²", told: "share" },
  criterion: { label: "Criterion", ...both(variantColumns.criterion), unit: "", told: "word" },
  flow: {
    label: "Allowed flow at 50 Pa",
    ...both(variantColumns.flow),
    format: decimals(1),
    unit: "m³/h",
    told: "share",
    bold: true,
  },
  rate: {
    label: "The same as air change rate n_{50}",
    ...both(variantColumns.airChangeRate),
    format: decimals(3),
    unit: "1/h",
    told: "share",
  },
  perArea: {
    label: "The same per envelope area, q_{E50}",
    ...both(variantColumns.perEnvelopeArea),
    format: decimals(3),
    unit: "m³/(h·m²)",
    told: "share",
  },
  area: {
    label: "Leakage area at 4 Pa",
    ...both(variantColumns.leakageArea),
    format: decimals(0),
    unit: "cm²",
    told: "share",
  },
  budget: {
    label: "Leakage area per m² of envelope",
    ...both(variantColumns.budget),
    format: decimals(2),
    unit: "cm²/m²",
    told: "share",
  },
  known: {
    label: "Known components at 50 Pa",
    ...both(variantColumns.known),
    format: decimals(1),
    unit: "m³/h",
    told: "share",
  },
  share: {
    label: "Their share of the allowed flow",
    ...both(variantColumns.share),
    format: "0 %",
    unit: "",
    told: "points",
  },
  left: {
    label: "Left for unknown leaks",
    ...both(variantColumns.left),
    format: decimals(1),
    unit: "m³/h",
    told: "amount",
    bold: true,
  },
  hole: {
    label: "Left, as one hole that could be found",
    ...both(variantColumns.hole),
    format: decimals(0),
    unit: "cm²",
    told: "amount",
  },
  fan: {
    label: "Fan flow for the test, with reserve",
    base: "BaseFanFlow",
    variant: "VariantFanFlow",
    format: decimals(0),
    unit: "m³/h",
    told: "share",
  },
  opening: { label: "Opening that gives it", base: "BaseOpening", variant: "VariantOpening", unit: "", told: "word" },
  infiltration: {
    label: "Infiltration in use",
    base: ofModel("BaseInfiltration"),
    variant: ofModel("VariantInfiltration"),
    format: decimals(1),
    unit: "m³/h",
    told: "share",
  },
  energy: {
    label: "Heat that it takes over a season",
    base: ofModel("BaseEnergy"),
    variant: ofModel("VariantEnergy"),
    format: decimals(0),
    unit: "kWh",
    told: "amount",
  },
  cost: {
    label: "Cost of it",
    base: ofModel("BaseCost"),
    variant: ofModel("VariantCost"),
    format: decimals(0),
    unit: "",
    told: "amount",
  },
} as const satisfies Record<string, Line>;

type LineName = keyof typeof lines;

const names = Object.keys(lines) as LineName[];

export const comparisonCount = names.length;

/** Cells of a line of the comparison. */
export function comparisonCells(at: number, name: LineName) {
  const row = at + 2 + names.indexOf(name);
  return { base: `C${row}`, variant: `D${row}`, words: `F${row}` };
}

/** Base against variant: figures side by side, and the difference in words. */
export function writeComparison(sheet: Sheet, at: number): void {
  writeHeading(sheet, at, ["B", "F"], "Base against variant");
  writeColumnHeads(sheet, at + 1, "B", ["<", "base", "variant", "<<unit", "<the variant has"]);
  names.forEach((name, index) => {
    const row = at + 2 + index;
    const line: Line = lines[name];
    const bold = line.bold ?? false;
    sheet.rich(`B${row}`, line.label, style({ bold }, looks.label));
    const look = style({ bold, shrink: true }, native(line.format));
    for (const [letter, value] of [
      ["C", line.base],
      ["D", line.variant],
    ] as const) {
      // A text in a number's place, a number in a word's, or an error is nothing to compare.
      const kind = line.told === "word" ? "ISTEXT" : "ISNUMBER";
      sheet.formula(`${letter}${row}`, `IFERROR(IF(${kind}(${value}),${value},""),"")`, look);
    }
    if (name === "cost") sheet.formula(`E${row}`, 'IF(Currency="","",Currency)', looks.unit);
    else sheet.put(`E${row}`, line.unit || null, looks.unit);
    sheet.formula(`F${row}`, difference(line, row), style({ bold }, native(undefined, "left")));
  });
  const left = comparisonCells(at, "left").base.slice(1);
  sheet.when(`C${left}:D${left}`, `AND(ISNUMBER(C${left}),C${left}<0)`, { font: { color: { rgb: palette.fail } } });
}

/** The same figures one below the other, beside the page: label, value and unit, as the recalculation prints them. */
export function writeComparisonSummary(sheet: Sheet, at: number): string {
  writeHeading(sheet, 5, ["H", "J"], "Summary (not printed)");
  const first = 6;
  names.forEach((name, index) => {
    const line: Line = lines[name];
    const { base, variant } = comparisonCells(at, name);
    for (const [offset, which, place] of [
      [0, "base", base],
      [1, "variant", variant],
    ] as const) {
      const row = first + 2 * index + offset;
      sheet.rich(`H${row}`, `${line.label}, ${which}`, looks.label);
      sheet.formula(`I${row}`, `IF(${place}="","",${place})`, native(line.format));
      if (name === "cost") sheet.formula(`J${row}`, 'IF(Currency="","",Currency)', looks.unit);
      else sheet.put(`J${row}`, line.unit || null, looks.unit);
    }
  });
  return `H${first}:J${first + 2 * names.length - 1}`;
}

/** "18 % more", "35 m³/h less", "the same", or the other word itself. */
function difference({ told, unit }: Line, row: number): string {
  const [base, variant] = [`C${row}`, `D${row}`];
  const blank = `OR(${base}="",${variant}="")`;
  if (told === "word") return `IF(${blank},"",IF(${base}=${variant},"the same","another one"))`;
  const direction = `IF(${variant}>${base},"more","less")`;
  const share = `IF(${base}=0,"",IF(ABS(${variant}/${base}-1)<0.005,"less than 1 % "&${direction},ROUND(ABS(${variant}/${base}-1)*100,0)&" % "&${direction}))`;
  const amount = `ROUND(ABS(${variant}-${base}),0)&" ${unit}${unit ? " " : ""}"&${direction}`;
  const points = `ROUND(ABS(${variant}-${base})*100,0)&" points "&${direction}`;
  const same = `ABS(${variant}-${base})<=0.000000001*ABS(${base})`;
  return `IF(${blank},"",IF(${same},"the same",${{ share, points, amount }[told]}))`;
}
