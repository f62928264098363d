import { call, keepBlanks } from "../blocks/add-in";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { testedCount, unitRows } from "./layout";
import type { TestedPlaces } from "./runs";

const { first, last } = unitRows;

/** Rows of the list of tested units, beside the printed page. */
export const listRows = { first, last: first + testedCount - 1 } as const;

/** A row a unit, the untested ones blank: both flows, what goes to the neighbours, rates and a verdict as information. */
export function writeUnitResults(sheet: Sheet, tested: readonly TestedPlaces[]): void {
  writeTestedUnits(sheet, tested);
  writeHeading(sheet, first - 3, ["B", "V"], "Units");
  writeColumnHeads(sheet, first - 1, "B", [
    "<unit",
    "<position",
    "volume|m³",
    "unguarded|q50, m³/h",
    "std. unc.|m³/h",
    "guarded|q50, m³/h",
    "std. unc.|m³/h",
    "to neighbours|m³/h",
    "std. unc.|m³/h",
    "lower|m³/h",
    "upper|m³/h",
    "% of|unguarded",
    "^significance",
    "unguarded|n50, 1/h",
    "guarded|n50, 1/h",
    "six sides|m³/(h·m²)",
    "outer area|m³/(h·m²)",
    "^conditions",
    "deciding|rate",
    "verdict of|this unit",
    "",
  ]);
  for (let row = first; row <= last; row++) writeUnitRow(sheet, row);
  const column = (letter: string, to = letter) => `${letter}${first}:${to}${last}`;
  const flows = [column("E"), column("G"), column("F"), column("H"), "DeviceUncertainty"] as const;
  const difference = call("LEAKAGEDIFFERENCE", ...flows, undefined, column("AH"), column("AI"));
  sheet.addIn(column("I", "N"), `INDEX(${difference},ROW($1:$${last - first + 1}),{1,2,3,4,5,7})`, (_, at) => {
    if (at === 5) return style({ shrink: true }, fromAddIn(undefined, "center"));
    return style({ bold: at === 0 }, fromAddIn(decimals(1)));
  });
  const verdict = call("PASSFAIL", column("T"), "TargetLimit", undefined, '"plain"', "TargetDecimals", column("S"));
  sheet.addIn(column("U"), `IF(OR(COUNT(TargetLimit)=0,CriterionSuits<>"met"),"",${verdict})`, fromAddIn());
  sheet.when(column("B", "U"), `AND($B${first}<>"",$E${first}="",$G${first}="")`, {
    font: { color: { rgb: palette.grey } },
  });
  sheet.when(column("N"), `N${first}="significant"`, { font: { bold: true, color: { rgb: palette.pass } } });
  sheet.when(column("S", "U"), `OR(S${first}="not met",S${first}="fail",S${first}="not valid")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** One unit, found by its name in the list of tested units. */
function writeUnitRow(sheet: Sheet, row: number): void {
  const index = row - first + 1;
  const ofUnit = (range: string) => `INDEX(${range},${index})`;
  const plain = (digits: number) => native(decimals(digits));
  sheet
    .formula(`B${row}`, keepBlanks(ofUnit("UnitNames")), looks.strong)
    .formula(`C${row}`, keepBlanks(ofUnit("UnitPositions")), style({ shrink: true }, looks.label));
  sheet.formula(`D${row}`, keepBlanks(ofUnit("UnitVolumes")), plain(1));
  const listed = (letter: string) => `INDEX($${letter}$${listRows.first}:$${letter}$${listRows.last},$W${row})`;
  const ofTest = (letter: string) => `IF($W${row}="","",IF(${listed(letter)}="","",${listed(letter)}))`;
  const name = `MATCH(B${row},$Y$${listRows.first}:$Y$${listRows.last},0)`;
  sheet.formula(`W${row}`, `IF(B${row}="","",IFERROR(${name},""))`, native());
  for (const [letter, from] of [
    ["E", "Z"],
    ["F", "AA"],
    ["G", "AC"],
    ["H", "AD"],
    ["AH", "AF"],
    ["AI", "AG"],
  ] as const)
    sheet.formula(`${letter}${row}`, ofTest(from), plain(1));
  const ratio = (flow: string, size: string) => `IF(COUNT(${flow},${size})<2,"",${flow}/${size})`;
  sheet
    .formula(`O${row}`, ratio(`E${row}`, `D${row}`), plain(2))
    .formula(`P${row}`, ratio(`G${row}`, `D${row}`), plain(2));
  sheet.formula(`Q${row}`, ratio(`E${row}`, ofUnit("UnitEnvelopeAreas")), plain(2));
  sheet.formula(`R${row}`, ratio(`G${row}`, ofUnit("UnitOuterAreas")), plain(2));
  const words = [ofTest("AB"), ofTest("AE")] as const;
  const either = (word: string) => `OR(${words.map((one) => `${one}="${word}"`).join(",")})`;
  const judged = `IF(${either("not met")},"not met",IF(${either("open")},"open",IF(${either("met")},"met","")))`;
  sheet.formula(`S${row}`, judged, native(undefined, "center"));
  const flow = `IF(S${row}="open","",IF(Basis="guarded",G${row},E${row}))`;
  const area = `IF(Basis="guarded",${ofUnit("UnitOuterAreas")},${ofUnit("UnitEnvelopeAreas")})`;
  sheet.formula(`T${row}`, inTargetQuantity(flow, `D${row}`, area, ofUnit("UnitFloorAreas")), plain(3));
}

/** A flow at 50 Pa in the quantity of the criterion; blank for another pressure or a quantity that a flow alone does not give. */
export function inTargetQuantity(flow: string, volume: string, area: string, floorArea: string): string {
  const over = (size: string) => `IF(COUNT(${size})=0,"",IF(${size}=0,"",${flow}/${size}))`;
  const chosen = `IF(TargetQuantity="air change rate",${over(volume)},IF(TargetQuantity="per envelope area",${over(area)},IF(TargetQuantity="per floor area",${over(floorArea)},"")))`;
  return `IF(OR(TargetPressure<>50,COUNT(${flow})=0),"",${chosen})`;
}

function writeTestedUnits(sheet: Sheet, tested: readonly TestedPlaces[]): void {
  writeHeading(sheet, first - 3, ["W", "AI"], "From the sheet Runs (not printed)");
  writeColumnHeads(sheet, first - 1, "W", [
    "found|at",
    "",
    "<unit",
    "unguarded",
    "std. unc.",
    "conditions",
    "guarded",
    "std. unc.",
    "conditions",
    "degrees|unguarded",
    "degrees|guarded",
    "of this unit|unguarded",
    "of this unit|guarded",
  ]);
  tested.forEach(({ name, unguarded, guarded }, index) => {
    const row = first + index;
    const unlessError = (cell: string) => `IF(ISERROR(${cell}),"",IF(${cell}="","",${cell}))`;
    sheet.formula(`Y${row}`, unlessError(name), looks.label);
    sheet.formula(`Z${row}`, unlessError(unguarded.q50), native(decimals(1)));
    sheet.formula(`AA${row}`, unlessError(unguarded.uncertainty), native(decimals(1)));
    sheet.formula(`AB${row}`, unlessError(unguarded.conditions), native());
    sheet.formula(`AC${row}`, unlessError(guarded.q50), native(decimals(1)));
    sheet.formula(`AD${row}`, unlessError(guarded.uncertainty), native(decimals(1)));
    sheet.formula(`AE${row}`, unlessError(guarded.conditions), native());
    sheet.formula(`AF${row}`, unlessError(unguarded.freedom), native(decimals(1)));
    sheet.formula(`AG${row}`, unlessError(guarded.freedom), native(decimals(1)));
  });
}
