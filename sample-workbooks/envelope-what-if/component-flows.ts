import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import {
  acrossVariants,
  amountColumn,
  amountStates,
  componentRows,
  countedRows,
  growsWith,
  reckonedColumn,
} from "./component-layout";
import { chosen, sheets, variantColumns } from "./layout";
import { ofLibrary } from "./library";

const { first, typed, last, flows } = componentRows;
const flowFirst = flows + 3;
const flowLast = flowFirst + last - first;
const [total, allowed, left] = [flowLast + 1, flowLast + 2, flowLast + 3];
const cautions = { Base: left + 1, Variant: left + 2 } as const;
const chartAt = left + 4;

/** Rows of the second and the third printed page. */
export const flowPages = { first: flows, last: cautions.Variant, chart: chartAt, end: chartAt + 27 } as const;

interface Side {
  readonly which: "Base" | "Variant";
  readonly amount: string;
  readonly flow: string;
  readonly share: string;
  /** 1 where the amount was typed for another outline and grows with nothing. */
  readonly flag: string;
}

const sides: readonly Side[] = [
  { which: "Base", amount: "E", flow: "G", share: "I", flag: "P" },
  { which: "Variant", amount: "F", flow: "H", share: "J", flag: "Q" },
];

const cell = (place: string) => onSheet(sheets.components, place);

/** Flows of base and variant, and what is to be said of their amounts, for other sheets. */
export const flowNames = {
  BaseComponents: cell(`G${flowFirst}:G${flowLast}`),
  VariantComponents: cell(`H${flowFirst}:H${flowLast}`),
  BaseCaution: cell(`C${cautions.Base}`),
  VariantCaution: cell(`C${cautions.Variant}`),
} as const;

const column = (letter: string) => cell(`${letter}${flowFirst}:${letter}${flowLast}`);

/** What leaks in the variant by component, for other sheets: the pressure is the one at which its leakage is given. */
export const componentFlows = {
  unit: column("D"),
  flow: column("H"),
  kind: column("R"),
  pressure: column("S"),
} as const;

/** What goes through each component in base and variant, and which amounts to look at again. */
export function writeComponentFlows(sheet: Sheet): void {
  writeHeading(sheet, flows, ["B", growsWith], "Base and variant: amounts used, and the flow at 50 Pa");
  const pair = (head: string) => [`base|${head}`, `variant|${head}`];
  writeColumnHeads(sheet, flowFirst - 1, "B", [
    "<where",
    "<component",
    "<<unit",
    ...pair("amount"),
    ...pair("m³/h"),
    "share|of limit",
    "share|of limit",
    "<<variant’s amount",
  ]);
  sheet.merge(`K${flowFirst - 1}:${growsWith}${flowFirst - 1}`);
  writeHeading(sheet, flows, ["P", "Q"], "Look again");
  writeHeading(sheet, flows, ["R", "S"], "Given as, at Pa");
  for (let row = first; row <= last; row++) writeRow(sheet, row);
  writeSums(sheet);
  for (const side of sides) writeCaution(sheet, side);
  drawChart(sheet);
}

function writeRow(sheet: Sheet, row: number): void {
  const at = flowFirst + row - first;
  sheet.formula(`B${at}`, `IF(B${row}="","",B${row})`, looks.label);
  sheet.formula(`C${at}`, `IF(C${row}="","",C${row})`, looks.label);
  sheet.formula(`D${at}`, `IF(D${row}="","",D${row})`, looks.unit);
  for (const { which, amount, flow, share, flag } of sides) {
    const reckoned = `INDEX(${acrossVariants(reckonedColumn, row)},${which}Index)`;
    sheet.formula(`${amount}${at}`, `IF(${which}Index="","",${reckoned})`, native("0.0;;"));
    const own = `${amount}${at}`;
    sheet.formula(`${flow}${at}`, `IF(COUNT(${own},$E${row})<2,"",${own}*$E${row})`, native("0.0;;"));
    const limit = chosen(which, variantColumns.flow);
    const part = `IF(COUNT(${flow}${at},${limit})<2,"",${flow}${at}/${limit})`;
    sheet.formula(`${share}${at}`, part, native("0 %;;"));
    const isToLookAt = `AND(${stateOf(which)}="look again",$${growsWith}${row}="",${own}<>"",${own}<>0)`;
    if (row >= typed) sheet.formula(`${flag}${at}`, `IF(${isToLookAt},1,0)`, native("0;;"));
  }
  const [kind, pressure] = [`R${at}`, ofLibrary("pressure", `C${row}`)];
  sheet.formula(kind, ofLibrary("kind", `C${row}`), native(undefined, "left"));
  // A row without a component leaks nothing at any pressure.
  const areas = `IF(${kind}="leakage area, 4 Pa",4,50)`;
  sheet.formula(`S${at}`, `IF(${kind}="flow",${pressure},${areas})`, native(decimals(0)));
  if (row < typed) sheet.put(`K${at}`, "follows the perimeter", style({ indent: 1 }, looks.unit));
  else sheet.formula(`K${at}`, wordsOnAmount(row, at), style({ indent: 1 }, looks.unit));
  sheet.merge(`K${at}:${growsWith}${at}`);
  sheet.when(`K${at}:${growsWith}${at}`, `$Q${at}=1`, { font: { bold: true, color: { rgb: palette.fail } } });
}

/** Whether the amounts of base or variant fit its outline. */
function stateOf(which: Side["which"]): string {
  return `IF(${which}Index="","",INDEX(${amountStates},${which}Index))`;
}

/** For which outline the amounts of base or variant were counted, in words. */
function outlineOf(which: Side["which"]): string {
  return `INDEX(${acrossVariants(reckonedColumn, countedRows.state)},${which}Index)`;
}

function wordsOnAmount(row: number, at: number): string {
  const asTyped = `INDEX(${acrossVariants(amountColumn, row)},VariantIndex)`;
  const grows = `$${growsWith}${row}`;
  const isGrown = `AND(COUNT(F${at})=1,F${at}<>0,${grows}<>"",${grows}<>"fixed",F${at}<>${asTyped})`;
  return `IF(VariantIndex="","",IF(Q${at}=1,"typed for "&${outlineOf("Variant")}&": look again",IF(${isGrown},"grown from "&ROUND(${asTyped},1)&" with the "&${grows},"")))`;
}

function writeSums(sheet: Sheet): void {
  const sum = style({ bold: true, top: palette.petrol });
  sheet.put(`B${total}`, "All known components at 50 Pa, m³/h", style({ align: "left" }, sum));
  sheet.paint(`C${total}:F${total}`, sum).paint(`K${total}:${growsWith}${total}`, sum);
  sheet.put(`B${allowed}`, "Allowed at 50 Pa, m³/h", looks.label).paint(`C${allowed}:F${allowed}`, looks.label);
  sheet.put(`B${left}`, "Left for unknown leaks, m³/h", looks.strong).paint(`C${left}:F${left}`, looks.label);
  for (const { which, flow, share } of sides) {
    const limit = chosen(which, variantColumns.flow);
    sheet.formula(
      `${flow}${total}`,
      chosen(which, variantColumns.known),
      style({}, { ...native(decimals(1)), ...sum }),
    );
    const part = `IF(COUNT(${flow}${total},${limit})<2,"",${flow}${total}/${limit})`;
    sheet.formula(`${share}${total}`, part, style({ bold: true, top: palette.petrol }, native("0 %")));
    sheet.formula(`${flow}${allowed}`, limit, native(decimals(1)));
    sheet.formula(`${flow}${left}`, chosen(which, variantColumns.left), style({ bold: true }, native(decimals(1))));
  }
  sheet.when(`G${left}:H${left}`, `AND(ISNUMBER(G${left}),G${left}<0)`, { font: { color: { rgb: palette.fail } } });
}

/** The first amount to look at again, and how many more; or that nobody can tell. */
function writeCaution(sheet: Sheet, { which, amount, flag }: Side): void {
  const row = cautions[which];
  const flags = `${flag}${flowFirst}:${flag}${flowLast}`;
  const ofFirst = (letter: string) => `INDEX(${letter}${flowFirst}:${letter}${flowLast},MATCH(1,${flags},0))`;
  const more = `IF(SUM(${flags})>1," and "&(SUM(${flags})-1)&IF(SUM(${flags})=2," more row"," more rows"),"")`;
  const lookAgain = `"“"&${ofFirst("C")}&"”, "&ROUND(${ofFirst(amount)},1)&" "&${ofFirst("D")}&${more}&": typed for "&${outlineOf(which)}&", look again."`;
  const words = [
    `IF(${stateOf(which)}="look again",IF(SUM(${flags})=0,"The outline that the amounts were counted for is no number.",${lookAgain})`,
    `IF(${stateOf(which)}="grown","Amounts counted for "&${outlineOf(which)}&" are grown with it: count them again on the drawings."`,
    `IF(${stateOf(which)}="unknown","For which outline the amounts were counted is not typed: they follow no other one.",""`,
  ].join(",");
  sheet.put(`B${row}`, `Caution, ${which.toLowerCase()}`, looks.label);
  sheet.formula(`C${row}`, `${words})))`, style({ bold: true, colour: palette.fail, bottom: palette.hair }));
  sheet.merge(`C${row}:${growsWith}${row}`);
}

function drawChart(sheet: Sheet): void {
  writeHeading(sheet, chartAt, ["B", growsWith], "Flow at 50 Pa by component, base and variant");
  const bars = [
    { name: "Base", values: column("G"), colour: palette.petrol },
    { name: "Variant", values: column("H"), colour: palette.inputEdge },
  ];
  const anchor = { from: { row: chartAt, col: 1 }, to: { row: chartAt + 27, col: 14 } };
  sheet.chart(
    barChart("lying", column("C"), bars, anchor, {
      axisTitle: "flow at 50 Pa, m³/h",
      alternative: "Bars of the flow at 50 Pa through each component, of the base and of the variant.",
      textSize: 9,
      format: "0",
    }),
  );
}
