import { call, writeSettings } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { fromList } from "../blocks/validation";
import { allowedSettings, countedVolume, leftoverWords } from "./allowed";
import { amountStates } from "./component-layout";
import { chosen, footer, sheets, variantColumns } from "./layout";
import { limitNames, ofLimit } from "./limits";
import { targets } from "./scenario";

const columns = ["C", "D", "E"] as const;
const [firstTarget, lastTarget] = ["C", "E"] as const;
/** Labels and values that are handed to the add-in, a pair of columns a target. */
const handed = [
  ["G", "H"],
  ["I", "J"],
  ["K", "L"],
] as const;

const rows = {
  heads: 7,
  criterion: 8,
  limit: 9,
  volume: 10,
  allowed: 11,
  known: 19,
  share: 20,
  left: 21,
  hole: 22,
  words: 23,
};
const cautionAt = rows.words + 1;
const chartAt = cautionAt + 2;
const allChartAt = chartAt + 12;
const end = allChartAt + 13;

/** What ALLOWEDLEAKAGE gives, in its order. */
const allowedLines = [
  ["Allowed flow at 50 Pa, m³/h", 1],
  ["The same at the limit’s own pressure", 1],
  ["As air change rate n_{50}, 1/h", 3],
  ["Per envelope area, q_{E50}, m³/(h·m²)", 3],
  ["Per floor area, q_{F50}, m³/(h·m²)", 3],
  ["Leakage area at 4 Pa, C_{d} 1, cm²", 0],
  ["Leakage area at 10 Pa, C_{d} 1, cm²", 0],
  ["Leakage area at 10 Pa, C_{d} 0.611, cm²", 0],
] as const;

/** Three limits side by side for the variant, and every variant against its own limit as bars. */
export function targetsPage(): Page {
  const sheet = new Sheet(sheets.targets, [1.5, 35, 20, 20, 20, 2, 21, 24, 21, 24, 21, 24], palette.copper, {
    orientation: "portrait",
    areas: [`B1:E${end}`],
    pages: 1,
    footer,
  });
  const lead = "What the chosen variant may leak under three limits at once. Choose each from the sheet Limits.";
  writePageHead(sheet, letterhead, ["B", "E"], "Targets", lead);
  sheet
    .heightOf(13.5, 5, end)
    .height(4, rows.heads - 1)
    .height(25, rows.criterion, rows.words, cautionAt);
  writeHeading(sheet, rows.heads - 2, ["B", "E"], "Three limits side by side");
  sheet.formula(`B${rows.heads}`, '"variant: "&IF(VariantIndex="","none chosen",VariantName)', looks.columnHeadLeft);
  writeColumnHeads(sheet, rows.heads, firstTarget, ["first", "second", "third"]);
  writeHeading(sheet, rows.heads - 2, ["G", "L"], "Handed to the add-in (not printed)");
  writeLabels(sheet);
  columns.forEach((_, index) => writeTarget(sheet, index));
  const left = `${firstTarget}${rows.left}:${lastTarget}${rows.left}`;
  const isNegative = `AND(ISNUMBER(${firstTarget}${rows.left}),${firstTarget}${rows.left}<0)`;
  sheet.when(left, isNegative, { font: { color: { rgb: palette.fail } } });
  sheet
    .formula(
      `B${cautionAt}`,
      'IF(VariantCaution="","",VariantCaution)',
      style({ bold: true, colour: palette.fail, wrap: true }),
    )
    .merge(`B${cautionAt}:E${cautionAt}`);
  sheet.validate(
    fromList(
      `${firstTarget}${rows.criterion}:${lastTarget}${rows.criterion}`,
      limitNames,
      "Target",
      "A row of the sheet Limits, by its name.",
    ),
  );
  drawCharts(sheet);
  return { sheet, names: {} };
}

function writeLabels(sheet: Sheet): void {
  for (const [row, label] of [
    [rows.criterion, "Criterion"],
    [rows.limit, "Its limit"],
    [rows.volume, "Volume that it counts, m³"],
    ...allowedLines.map(([label], index) => [rows.allowed + index, label] as const),
    [rows.known, "Known components at 50 Pa, m³/h"],
    [rows.share, "Their share of the allowed flow"],
    [rows.left, "Left for unknown leaks, m³/h"],
    [rows.hole, "Left, as one hole that could be found, cm²"],
    [rows.words, "In plain words"],
  ] as const)
    sheet.rich(`B${row}`, label, row === rows.allowed || row === rows.left ? looks.strong : looks.label);
}

function writeTarget(sheet: Sheet, index: number): void {
  const column = columns[index] ?? firstTarget;
  const [label, value] = handed[index] ?? handed[0];
  const at = (row: number) => `${column}${row}`;
  const criterion = at(rows.criterion);
  sheet.put(criterion, targets[index] ?? null, style({ bold: true, wrap: true }, input(undefined, "right")));
  const settings = allowedSettings(ofLimit("quantity", criterion), ofLimit("pressure", criterion), "Exponent");
  const block = writeSettings(sheet, [label, value], rows.criterion, [
    ...settings,
    ["limit", ofLimit("limit", criterion), "0.0##"],
    ["volume convention", ofLimit("convention", criterion)],
    ["whole volume", chosen("Variant", variantColumns.wholeVolume), decimals(1)],
    ["partitions, floors, %", chosen("Variant", variantColumns.partitions), decimals(0)],
  ]);
  const settingAt = (offset: number) => `$${value}$${rows.criterion + offset}`;
  const [pressure, limit, convention, gross, partitions] = [1, 4, 5, 6, 7].map(settingAt) as [
    string,
    string,
    string,
    string,
    string,
  ];
  const handedOver = block.replace(/\d+$/, String(rows.criterion + settings.length - 1));
  const given = `IF(${limit}="","",ROUND(${limit},3)&" "&${ofLimit("unit", criterion)}&" at "&${pressure}&" Pa")`;
  sheet.formula(at(rows.limit), given, native());
  sheet.formula(
    at(rows.volume),
    `IF(${criterion}="","",${countedVolume(gross, convention, partitions)})`,
    native(decimals(1)),
  );
  const sizes = [
    at(rows.volume),
    ...[variantColumns.envelopeArea, variantColumns.floorArea].map((size) => chosen("Variant", size)),
  ];
  const allowed = `TRANSPOSE(${call("ALLOWEDLEAKAGE", limit, handedOver, ...sizes)})`;
  const lastAllowed = rows.allowed + allowedLines.length - 1;
  sheet.addIn(`${at(rows.allowed)}:${at(lastAllowed)}`, allowed, (row) => {
    const look = fromAddIn(decimals(allowedLines[row]?.[1] ?? 1));
    return row === 0 ? style({ bold: true }, look) : look;
  });
  const numbers = (cells: string, count: number, formula: string) => `IF(COUNT(${cells})<${count},"",${formula})`;
  const [flow, known, share, left] = [rows.allowed, rows.known, rows.share, rows.left].map(at) as [
    string,
    string,
    string,
    string,
  ];
  const both = `${flow},${known}`;
  sheet.formula(known, `IF(${criterion}="","",${chosen("Variant", variantColumns.known)})`, native(decimals(1)));
  sheet.formula(share, numbers(both, 2, `${known}/${flow}`), native("0 %"));
  sheet.formula(left, numbers(both, 2, `${flow}-${known}`), style({ bold: true }, native(decimals(1))));
  sheet.formula(at(rows.hole), numbers(left, 1, `IF(${left}>0,${left}/HoleFlow,0)`), native(decimals(0)));
  const words = leftoverWords(left, share, chosen("Variant", amountStates));
  sheet.formula(at(rows.words), numbers(left, 1, words), style({ wrap: true }, native()));
}

function drawCharts(sheet: Sheet): void {
  const across = (row: number) => onSheet(sheets.targets, `${firstTarget}${row}:${lastTarget}${row}`);
  const charts = [
    {
      title: "The three limits: what each allows, what the known components take",
      from: chartAt,
      to: allChartAt - 2,
      names: across(rows.criterion),
      allowed: across(rows.allowed),
      known: across(rows.known),
      alternative:
        "Bars for each of three limits: the flow at 50 Pa that it allows beside that of the known components.",
    },
    {
      title: "All variants: what the limit of each allows, what its known components take",
      from: allChartAt,
      to: end,
      names: variantColumns.name,
      allowed: variantColumns.flow,
      known: variantColumns.known,
      alternative:
        "Bars for each variant: the flow at 50 Pa that its limit allows beside the flow of its known components.",
    },
  ];
  for (const { title, from, to, names, allowed, known, alternative } of charts) {
    writeHeading(sheet, from - 1, ["B", "E"], title);
    const bars = [
      { name: "allowed at 50 Pa", values: allowed, colour: palette.petrol },
      { name: "known components", values: known, colour: palette.inputEdge },
    ];
    const anchor = { from: { row: from - 1, col: 1 }, to: { row: to, col: 5 } };
    sheet.chart(
      barChart("lying", names, bars, anchor, { axisTitle: "m³/h at 50 Pa", alternative, textSize: 9, format: "0" }),
    );
  }
}
