import { call } from "../blocks/add-in";
import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { footer, sheets, variantColumns, variantCount } from "./layout";
import { ladder } from "./scenario";

const settings = { first: 6, last: 9 } as const;
const heads = 13;
const first = heads + 1;
const last = first + variantCount - 1;
const chosenAt = last + 3;
const chartAt = chosenAt + 4;
const columnsPerTarget = 8;

/** Column of a target in one of the two tables beside each other. */
const flowColumn = (index: number) => lettersOf(columnOf("F") + index);
const areaColumn = (index: number) => lettersOf(columnOf("L") + index);

/** Every variant against a row of targets, whatever its own criterion is. */
export function sizesAndTargetsPage(): Page {
  const lastRow = chartAt + 15;
  const sheet = new Sheet(
    sheets.ladder,
    [1.5, 26, 11, 11, 11, ...Array<number>(5).fill(9.5), 2, ...Array<number>(5).fill(9.5)],
    palette.petrol,
    {
      orientation: "landscape",
      areas: [`B1:P${lastRow}`],
      pages: 1,
      titleRows: "1:4",
      footer,
      workingPaper: true,
    },
  );
  const lead =
    "What each variant might leak under one limit after another. One call makes each table; the targets are yours to type.";
  writePageHead(sheet, letterhead, ["B", "P"], "Sizes and targets", lead);
  sheet.heightOf(13, 5, lastRow);
  writeTerms(sheet);
  writeTables(sheet);
  writeChosenRows(sheet);
  return { sheet, names: {} };
}

function writeTerms(sheet: Sheet): void {
  writeHeading(sheet, settings.first - 1, ["B", "P"], "What the targets are");
  const quantities = ["air change rate", "per envelope area", "per floor area", "leakage area per envelope area"];
  const rows = [
    ["quantity", "air change rate", undefined],
    ["reference pressure", 50, decimals(0)],
    ["leakage area definition", null, undefined],
  ] as const;
  rows.forEach(([label, value, format], index) => {
    const row = settings.first + index;
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, input(format, "left")).merge(`C${row}:E${row}`);
  });
  sheet.put(`B${settings.last}`, "exponent", looks.label);
  sheet.formula(`C${settings.last}`, 'IF(Exponent="","",Exponent)', native(decimals(2), "left"));
  sheet.merge(`C${settings.last}:E${settings.last}`);
  sheet.put(
    `F${settings.first}`,
    "Any quantity goes: an air change rate (1/h), a flow per envelope or floor area (m³/(h·m²)), a leakage area per envelope area (cm²/m², which needs its definition; its pressure stays blank), " +
      "at the pressure at which the programme sets it. The volume is the one that each variant’s own criterion counts.",
    { ...looks.note, alignment: { ...looks.note.alignment, horizontal: "left", vertical: "center", indent: 1 } },
  );
  sheet.merge(`F${settings.first}:P${settings.last}`);
  sheet.validate(
    oneOf(`C${settings.first}:E${settings.first}`, quantities, "Quantity", "What the targets limit."),
    between(
      `C${settings.first + 1}:E${settings.first + 1}`,
      1,
      100,
      "Pressure, Pa",
      "At which the targets hold; 50 where blank.",
    ),
    oneOf(
      `C${settings.first + 2}:E${settings.first + 2}`,
      ["effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa"],
      "Definition",
      "Only for a leakage area: which one. They differ by a factor of two.",
    ),
  );
}

function writeTables(sheet: Sheet): void {
  writeHeading(sheet, heads - 2, ["B", "J"], "Allowed flow at 50 Pa, m³/h");
  writeHeading(sheet, heads - 2, ["L", "P"], "As leakage area at 4 Pa, cm²");
  writeColumnHeads(sheet, heads, "B", ["<variant", "volume, m³", "envelope, m²", "floor, m²"]);
  ladder.forEach((target, index) => {
    const at = `${flowColumn(index)}${heads}`;
    sheet.put(at, target, style({ bold: true }, input("0.0##")));
    sheet.formula(
      `${areaColumn(index)}${heads}`,
      `IF(${at}="","",${at})`,
      style({ bold: true, size: 9 }, { ...looks.columnHead, numFmt: "0.0##" }),
    );
  });
  sheet.height(17, heads);
  for (let index = 0; index < variantCount; index++) {
    const row = first + index;
    const of = (column: string) => `IF(INDEX(${column},${index + 1})="","",INDEX(${column},${index + 1}))`;
    sheet.formula(`B${row}`, of(variantColumns.name), looks.label);
    sheet.formula(`C${row}`, of(variantColumns.volume), native(decimals(1)));
    sheet.formula(`D${row}`, of(variantColumns.envelopeArea), native(decimals(1)));
    sheet.formula(`E${row}`, of(variantColumns.floorArea), native(decimals(1)));
  }
  const targets = `$${flowColumn(0)}$${heads}:$${flowColumn(ladder.length - 1)}$${heads}`;
  const sizes = ["C", "D", "E"].map((letter) => `$${letter}$${first}:$${letter}$${last}`);
  const block = `$B$${settings.first}:$C$${settings.last}`;
  const allowed = call("ALLOWEDLEAKAGE", targets, block, ...sizes);
  const rows = Array.from({ length: variantCount }, (_, index) => index + 1).join(";");
  // Each target fills eight columns: the first is the flow at 50 Pa, the sixth the leakage area at 4 Pa.
  const every = (column: number) =>
    `IF(OR($C$${settings.first}="",COUNT(${targets})=0),"",INDEX(${allowed},{${rows}},{${ladder.map((_, index) => index * columnsPerTarget + column).join(",")}}))`;
  const end = ladder.length - 1;
  sheet.addIn(`${flowColumn(0)}${first}:${flowColumn(end)}${last}`, every(1), fromAddIn(decimals(0)));
  sheet.addIn(`${areaColumn(0)}${first}:${areaColumn(end)}${last}`, every(6), fromAddIn(decimals(0)));
  sheet.validate(
    between(
      `${flowColumn(0)}${heads}:${flowColumn(end)}${heads}`,
      0.01,
      100,
      "Target",
      "A limit, in the unit of the quantity chosen above.",
    ),
  );
}

function writeChosenRows(sheet: Sheet): void {
  writeHeading(sheet, chosenAt - 1, ["B", "P"], "Base and variant over the targets");
  for (const [offset, which] of [
    [0, "Base"],
    [1, "Variant"],
  ] as const) {
    const row = chosenAt + offset;
    sheet
      .formula(`B${row}`, `IF(${which}Index="","",${which}Name)`, looks.strong)
      .paint(`C${row}:E${row}`, looks.label);
    ladder.forEach((_, index) => {
      const letter = flowColumn(index);
      const found = `INDEX($${letter}$${first}:$${letter}$${last},${which}Index)`;
      sheet.formula(`${letter}${row}`, `IF(${which}Index="","",${found})`, native(decimals(0)));
    });
  }
  const range = (row: number) =>
    onSheet(sheets.ladder, `${flowColumn(0)}${row}:${flowColumn(ladder.length - 1)}${row}`);
  const bars = [
    { name: "Base", values: range(chosenAt), colour: palette.petrol },
    { name: "Variant", values: range(chosenAt + 1), colour: palette.inputEdge },
  ];
  const anchor = { from: { row: chartAt - 1, col: 1 }, to: { row: chartAt + 15, col: 16 } };
  sheet.chart(
    barChart("upright", range(heads), bars, anchor, {
      axisTitle: "allowed flow at 50 Pa, m³/h",
      namesTitle: "target, in the unit of its quantity",
      alternative: "Bars of the allowed flow at 50 Pa of base and variant under each of the targets.",
      textSize: 9,
      format: "0",
    }),
  );
}
