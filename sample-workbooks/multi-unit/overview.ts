import { keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { type FormLine, writeFormLines } from "../blocks/form";
import { firm, letterhead, trade, writeHeading, writePageHead } from "../blocks/heading";
import { requireAddIn } from "../blocks/needs-add-in";
import {
  verdictColours,
  verdictInCapitals,
  writeFactList,
  writeLargeWord,
  writeLegend,
  writeSignatures,
} from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, palette, shortDay, style } from "../blocks/style";
import { day, text } from "../blocks/validation";
import { footer, sheets, unitRows } from "./layout";
import type { BuildingPlaces } from "./results";
import { building, remark } from "./scenario";

const rows = { facts: 6, panel: 13, figures: 21, chart: 31, legend: 50 } as const;
const lastRow = rows.legend + 7;

/** One page for the client: the building, the verdict, the key results, the units side by side. */
export function overviewPage(places: BuildingPlaces): Page {
  const widths = [1.5, 27, 12, 15, 2, 22, 14, 15, 3, 36, 12, 12];
  const sheet = new Sheet(sheets.overview, widths, palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${lastRow}`],
    pages: 1,
    footer,
  });
  const lead = "A building of several units, a sample of them tested, with the leaks to the neighbours told apart.";
  writePageHead(sheet, letterhead, ["B", "H"], "Airtightness of a building of several units", "");
  sheet.heightOf(15, 5, lastRow).height(30, 2);
  writeFacts(sheet);
  writeBuildingPanel(sheet, rows.panel, places);
  writeFigures(sheet, rows.figures, places);
  drawChart(sheet);
  explainWorkbook(sheet);
  const summary = writeSummary(sheet, 5, places);
  const version = requireAddIn(sheet, {
    columns: ["B", "H"],
    lead: quoted(lead),
    marksExample: true,
    result: places.result,
    waiting: [`B${rows.panel}:H${rows.chart - 1}`, summary],
  });
  const fact = (letter: "C" | "G", index: number) => onSheet(sheets.overview, `${letter}${rows.facts + index}`);
  return {
    sheet,
    names: {
      ...version,
      House: fact("C", 0),
      Firm: fact("C", 4),
      TradeLine: fact("C", 5),
      Remark: fact("G", 4),
      Summary: onSheet(sheets.overview, summary),
    },
  };
}

function writeFacts(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "D"], "Building");
  writeHeading(sheet, 5, ["F", "H"], "Tests");
  const left = [
    ["Building", building.name],
    ["Address", building.address],
    ["Client", building.client],
    ["Construction", building.construction],
    ["Firm", firm],
    ["Trade", trade],
  ] as const;
  const right = [
    ["Day of this report", building.reported, input(shortDay, "left")],
    ["Tested by", building.tester],
    ["Preparation by ISO 9972", building.preparation],
    ["Report", building.report],
    ["Remark on every sheet", remark],
  ] as const;
  writeFactList(sheet, rows.facts, ["B", "C", "D"], left);
  writeFactList(sheet, rows.facts, ["F", "G", "H"], right);
  const first = rows.facts;
  sheet.validate(
    text(`C${first}:D${first + 5}`, "Building and firm", "The building and the firm stand at the top of every sheet."),
    day(`G${first}:H${first}`, "Day of this report", "After the last run."),
    text(
      `G${first + 1}:H${first + 4}`,
      "Tests",
      "Who tested, how the openings were prepared, report number. The remark stands on every sheet until it is deleted.",
    ),
  );
}

function drawChart(sheet: Sheet): void {
  writeHeading(sheet, rows.chart, ["B", "H"], "Units: air change rate with and without the neighbours’ leaks");
  const column = (letter: string) => onSheet(sheets.results, `${letter}${unitRows.first}:${letter}${unitRows.last}`);
  const bars = [
    { name: "unguarded", values: column("O"), colour: palette.petrolMid },
    { name: "guarded, to outdoors alone", values: column("P"), colour: palette.petrol },
  ];
  const anchor = { from: { row: rows.chart, col: 1 }, to: { row: rows.chart + 17, col: 8 } };
  sheet.chart(
    barChart("upright", column("B"), bars, anchor, {
      axisTitle: "n50, 1/h",
      alternative:
        "Two bars a unit: the air change rate at 50 Pa with the neighbours as they are, and with the neighbours held at the same pressure. Units that were not tested have no bars.",
      textSize: 8.5,
      format: "0.0",
    }),
  );
}

function explainWorkbook(sheet: Sheet): void {
  writeLegend(
    sheet,
    { at: rows.legend, others: "F", right: "H" },
    "Units lists every flat with its sizes and why it was chosen; Sampling holds the rule and what it left out. Runs has a block for each tested unit: unguarded, and guarded by fans in the neighbouring flats. Results takes both apart, unit by unit, " +
      "and adds them up for the building. The criterion is chosen on the sheet Criteria; local code and the certifier decide which one holds. The result is the tester’s responsibility.",
    4,
  );
  writeSignatures(sheet, rows.legend + 7);
}

/** The verdict in words that can be read from across the table, with result, limit and what they rest on; seven rows. */
function writeBuildingPanel(sheet: Sheet, at: number, places: BuildingPlaces): void {
  const last = at + 6;
  writeLargeWord(sheet, `B${at}:B${last}`, verdictInCapitals(places.verdict), verdictColours, {
    size: 28,
    shrink: true,
  });
  const panel = { fill: palette.petrolPale, align: "left", indent: 1 } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey });
  const big = style({ ...panel, size: 24, colour: palette.petrol });
  const what = 'TargetQuantity&" of the building at "&TargetPressure&" Pa, "&TargetUnit';
  sheet.formula(`C${at}`, `IF(TargetLimit="","No criterion chosen",${what})`, small).merge(`C${at}:F${at}`);
  sheet.formula(`G${at}`, 'IF(TargetLimit="","","limit, "&TargetUnit)', small).merge(`G${at}:H${at}`);
  const orDash = (value: string) => `IF(COUNT(${value})=0,"–",${value})`;
  sheet
    .formula(`C${at + 1}`, orDash(places.result), style({ format: decimals(3) }, big))
    .merge(`C${at + 1}:F${at + 2}`);
  sheet.formula(`G${at + 1}`, orDash("TargetLimit"), style({ format: "0.0##" }, big)).merge(`G${at + 1}:H${at + 2}`);
  sheet.moreDigitsNear(`C${at + 1}`, `G${at + 1}`);
  const sentence = style({ ...panel, size: 8.5, wrap: true });
  const lines: readonly string[] = [
    'IF(TargetName="","",TargetName&". ")&"The sum of the flows over the sum of the sizes"&IF(Basis="","",", "&Basis&" runs")&", depressurization alone."',
    `IF(COUNT(${places.expanded})=0,"No result yet.","± "&TEXT(${places.expanded},"0.00")&" expanded uncertainty for information. Rule: plain acceptance, the "&IF(TargetDecimals="","unrounded","once rounded")&" result must not exceed the limit.")`,
    `"Rests on the "&IF(Basis="","",Basis&" ")&"runs of "&IF(Basis="guarded",${places.guardedUnits},${places.unguardedUnits})&" of "&COUNTA(UnitNames)&" units; positions not in the sample: "&SampleGaps&". Conditions: "&${places.conditions}&"."`,
  ];
  lines.forEach((line, index) => {
    const row = at + 3 + index;
    sheet.formula(`C${row}`, line, index === 2 ? style({ bold: true }, sentence) : sentence).merge(`C${row}:H${row}`);
  });
  sheet.put(`C${last}`, null, sentence).merge(`C${last}:H${last}`);
  sheet
    .heightOf(16, at, last)
    .height(24, at + 3, at + 4, at + 5)
    .height(4, last);
}

function buildingLines(places: BuildingPlaces): readonly FormLine[] {
  return [
    {
      label: "Building, guarded: Σq_{50} / ΣV",
      formula: keepBlanks(places.guardedValue),
      format: decimals(3),
      unit: "1/h",
    },
    {
      label: "Mean of the units’ n_{50}, guarded",
      formula: keepBlanks(places.meanOfUnits),
      format: decimals(3),
      unit: "1/h",
    },
    {
      label: "Building, unguarded: Σq_{50} / ΣV",
      formula: keepBlanks(places.unguardedValue),
      format: decimals(3),
      unit: "1/h",
    },
    {
      label: "Σq_{50} / Σ outer area, guarded",
      formula: keepBlanks(places.perOuterArea),
      format: decimals(3),
      unit: "m³/(h·m²)",
    },
    { label: "Σq_{50}, guarded", formula: keepBlanks(places.sumFlow), format: decimals(1), unit: "m³/h" },
    { label: "ΣV of these units", formula: keepBlanks(places.sumVolume), format: decimals(1), unit: "m³" },
    { label: "From the neighbours", formula: keepBlanks(places.toNeighbours), format: decimals(1), unit: "m³/h" },
  ];
}

function sampleLines(places: BuildingPlaces): readonly FormLine[] {
  return [
    { label: "Units of the building", formula: "COUNTA(UnitNames)", format: decimals(0) },
    { label: "Units tested", formula: 'COUNTIF(UnitsTested,"yes")', format: decimals(0) },
    { label: "with a guarded run", formula: places.guardedUnits, format: decimals(0) },
    { label: "Share of the units", formula: keepBlanks("SampleShare"), format: "0 %" },
    { label: "Positions not in the sample", formula: "SampleGaps", format: decimals(0) },
    { label: "Conditions", formula: keepBlanks(places.conditions) },
    {
      label: "Verdict",
      formula: `IF(ISTEXT(${places.verdict}),IF(${places.verdict}="","open",${places.verdict}),"open")`,
    },
  ];
}

/** Building on the left, sample on the right; eight rows. */
function writeFigures(sheet: Sheet, at: number, places: BuildingPlaces): void {
  writeHeading(sheet, at, ["B", "D"], "Building");
  writeHeading(sheet, at, ["F", "H"], "Sample");
  writeFormLines(sheet, at + 1, { label: "B", value: "C", unit: "D" }, buildingLines(places));
  writeFormLines(sheet, at + 1, { label: "F", value: "G", unit: "H" }, sampleLines(places));
}

/** All figures as label, value and unit, beside the page; the range goes by the name Summary, which the recalculation prints. */
function writeSummary(sheet: Sheet, at: number, places: BuildingPlaces): string {
  writeHeading(sheet, at, ["J", "L"], "Summary (not printed)");
  const lines = [...buildingLines(places), ...sampleLines(places)];
  writeFormLines(sheet, at + 1, { label: "J", value: "K", unit: "L" }, lines);
  return `J${at + 1}:L${at + lines.length}`;
}
