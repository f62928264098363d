import { keepBlanks, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries } from "../blocks/chart";
import { firm, letterhead, trade, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { requireAddIn } from "../blocks/needs-add-in";
import { writeFactList, writeLargeWord, writeLegend } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, decimals, input, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import { day, text } from "../blocks/validation";
import type { ForecastPlaces } from "./forecast";
import { footer, sheets } from "./layout";
import { countPlaces } from "./ranking";
import type { PointTestPlaces } from "./point-test";
import { quickRows } from "./quick-tests";
import { house, remark } from "./scenario";
import type { SeriesPlaces } from "./series";

const rows = { facts: 6, panel: 13, tape: 20, figures: 22, chart: 36, legend: 48 } as const;
const lastRow = rows.legend + 3;

/** One page for the site meeting: where the house stands, what the last day of tests won, what the final test may show. */
export function overviewPage(sources: OverviewSources): Page {
  const sheet = new Sheet(
    sheets.overview,
    [1.5, 22.5, 12, 11, 1.5, 25, 12, 7.5, 3, 34, 22, 14, 3, 22, 14, 10, 10],
    palette.copper,
    {
      orientation: "portrait",
      areas: [`B1:H${lastRow}`],
      pages: 1,
      footer,
    },
  );
  const lead = "Tests while every leak can still be reached. An outlook, not a verdict.";
  writePageHead(sheet, letterhead, ["B", "H"], "Airtightness in mid-construction", "");
  sheet.heightOf(13, 5, lastRow).heightOf(14, 5, rows.panel - 2);
  sheet.height(24, rows.facts + 1, rows.facts + 2, rows.facts + 3, rows.facts + 5);
  sheet.height(6, rows.panel - 1, rows.tape + 1, rows.chart - 1, rows.legend - 1);
  writeFacts(sheet);
  writeOutlookPanel(sheet, rows.panel, sources.forecast);
  writeTapeLine(sheet, rows.tape, sources);
  writeFigures(sheet, rows.figures, sources);
  drawProgressChart(sheet, rows.chart, sources.tests);
  explainWorkbook(sheet);
  const summary = writeSummary(sheet, 5, sources);
  const version = requireAddIn(sheet, {
    columns: ["B", "H"],
    lead: quoted(lead),
    marksExample: true,
    result: sources.tests[0].n50,
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
      Remark: fact("G", 5),
      Summary: onSheet(sheets.overview, summary),
    },
  };
}

function writeFacts(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "D"], "House");
  writeHeading(sheet, 5, ["F", "H"], "Site");
  const left = [
    ["House", house.name],
    ["Address", house.address],
    ["Client", house.client],
    ["Construction", house.construction],
    ["Firm", firm],
    ["Trade", trade],
  ] as const;
  const date = input(dateFormat, "left");
  const right = [
    ["Day of this report", house.reported, date],
    ["Tested by", house.tester],
    ["On site", house.site],
    ["Final test planned for", house.final, date],
    ["Barrier closed in from", house.closed, date],
    ["Remark on every sheet", remark],
  ] as const;
  const wrapped = input(undefined, "left", true);
  writeFactList(
    sheet,
    rows.facts,
    ["B", "C", "D"],
    left.map(([label, value]) => [label, value, wrapped] as const),
  );
  writeFactList(
    sheet,
    rows.facts,
    ["F", "G", "H"],
    right.map(([label, value, look]) => [label, value, look ?? wrapped] as const),
  );
  const first = rows.facts;
  sheet.validate(
    text(`C${first}:D${first + 5}`, "House and firm", "The house and the firm stand at the top of every sheet."),
    day(`G${first}:H${first}`, "Day of this report", "What was known on this day."),
    text(`G${first + 1}:H${first + 2}`, "Who", "Who tested, and who answers for the site."),
    day(`G${first + 3}:H${first + 4}`, "Day", "When the final test is planned, and when the barrier is closed in."),
    text(`G${first + 5}:H${first + 5}`, "Remark", "Stands on every sheet until it is deleted."),
  );
}

function explainWorkbook(sheet: Sheet): void {
  writeLegend(
    sheet,
    { at: rows.legend, others: "F", right: "H" },
    "Tape and retest measures the leaks of the register; the register plans the repairs, and the forecast takes them from there. The criterion is chosen on the sheet Limits. " +
      "Only the final test counts for a certificate; local code decides. The result is the tester’s responsibility.",
    2,
  );
}

/** Which temporary tape is on, and what it leaves out; grey while there is none. */
function writeTapeLine(sheet: Sheet, at: number, { series, forecast }: OverviewSources): void {
  const on = `IF(${forecast.tapeOn}="","",${forecast.from}&": "&${forecast.tapeOn}&". No flow now and no forecast from it. ")&IF(${series.tapeOn}="","",${series.tapeOn}&". Retests under it count for nothing; the last one without it is step "&${series.lastStep}&".")`;
  const words = `IF(AND(${forecast.tapeOn}="",${series.tapeOn}=""),"none","")&${on}`;
  const missing = `IF(${series.withoutKind}=0,""," Retests without a kind, which count for nothing: "&${series.withoutKind}&".")`;
  sheet.formula(`B${at}`, `"Temporary tape on: "&${words}&${missing}`, style({ wrap: true, vertical: "center" }));
  sheet.merge(`B${at}:H${at}`).height(26, at);
  const isOn = `OR(${forecast.tapeOn}<>"",${series.tapeOn}<>"",${series.withoutKind}>0)`;
  sheet.when(`B${at}:H${at}`, isOn, { font: { bold: true, color: { rgb: palette.fail } } });
}

/** Whether the forecast says anything of this house: its volume is the criterion's, and no reading is the example's. */
const isCounted = 'AND(ConventionFits="agrees",ExampleSheets="")';

const words: readonly (readonly [outlook: string, shown: string, colour: string])[] = [
  ["meets the limit with a margin", "MEETS WITH A MARGIN", palette.pass],
  ["probably meets the limit", "PROBABLY MEETS", palette.petrol],
  ["can go either way", "CAN GO EITHER WAY", palette.grey],
  ["probably misses the limit", "PROBABLY MISSES", palette.copper],
  ["misses the limit by a margin", "MISSES BY A MARGIN", palette.fail],
];

/** The outlook in words that can be read from across the table, with likely, best and worst result and the limit; seven rows. */
function writeOutlookPanel(sheet: Sheet, at: number, forecast: ForecastPlaces): void {
  const last = at + 6;
  const shown = words.reduceRight(
    (otherwise, [outlook, word]) => `IF(${forecast.outlook}="${outlook}","${word}",${otherwise})`,
    '"OPEN"',
  );
  const outlook = `IF(${isCounted},${shown},"OPEN")`;
  const colours = words.map(([, word, colour]) => [word, colour] as const);
  writeLargeWord(sheet, `B${at}:C${last}`, outlook, colours, { size: 20, wrap: true });
  const panel = { fill: palette.petrolPale, align: "left", indent: 1 } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey });
  const big = style({ ...panel, size: 22, colour: palette.petrol, format: decimals(2) });
  const what = `"final test, if all goes as planned: "&TargetQuantity&", "&TargetUnit`;
  sheet.formula(`D${at}`, `IF(TargetLimit="","No criterion chosen",${what})`, small).merge(`D${at}:F${at}`);
  sheet.formula(`G${at}`, 'IF(TargetLimit="","","limit, "&TargetUnit)', small).merge(`G${at}:H${at}`);
  const orDash = (value: string) => `IF(COUNT(${value})=0,"–",${value})`;
  sheet.formula(`D${at + 1}`, orDash(forecast.likely), big).merge(`D${at + 1}:F${at + 2}`);
  sheet.formula(`G${at + 1}`, orDash("TargetLimit"), style({ format: "0.0##" }, big)).merge(`G${at + 1}:H${at + 2}`);
  const sentence = style({ ...panel, size: 9, wrap: true });
  const number = (value: string, format: string) => `TEXT(${value},"${format}")`;
  const chance = `IF(${forecast.probability}>=0.9995,"more than 99.9 %",IF(${forecast.probability}<0.0005,"less than 0.1 %",TEXT(100*${forecast.probability},"0.0")&" %"))`;
  const range = `"Probability that the final test meets the limit: "&${chance}&". From "&${number(forecast.best, "0.00")}&" at best to "&${number(forecast.worst, "0.00")}&" at worst, if the planned repairs hold and no other openings come."`;
  const lines: readonly string[] = [
    `IF(ExampleSheets<>"","No outlook from the readings of another house.",IF(COUNT(${forecast.best},${forecast.worst},${forecast.probability})<3,"No forecast yet: a test without temporary tape and a criterion are needed.",${range}))`,
    `IF(COUNT(${forecast.flow})=0,"","Now: "&${number(forecast.flow, "0")}&" m³/h at 50 Pa, "&${number(forecast.result, "0.000")}&" "&TargetUnit&", from "&${forecast.from}&".")`,
    'IF(TargetName="","",TargetName&". ")&IF(ConventionFits="differs","The volume is not the one that the criterion means: no outlook.","An outlook is no verdict: the final test decides.")',
  ];
  lines.forEach((line, index) => {
    const row = at + 3 + index;
    sheet
      .formula(`D${row}`, `IFERROR(${line},"")`, index === 2 ? style({ bold: true }, sentence) : sentence)
      .merge(`D${row}:H${row}`);
  });
  sheet.put(`D${last}`, null, sentence).merge(`D${last}:H${last}`);
  sheet
    .heightOf(16, at, last)
    .height(36, at + 3)
    .height(14, at + 4)
    .height(26, at + 5)
    .height(4, last);
}

interface Line {
  readonly label: string;
  readonly value: string;
  readonly format?: string;
  readonly unit: string;
}

function housesFigures({ tests, series, forecast }: OverviewSources): readonly Line[] {
  const [first, second] = tests;
  return [
    { label: `q_{50}, ${first.title}`, value: keepBlanks(first.q50), format: decimals(1), unit: "m³/h" },
    { label: `n_{50}, ${first.title}`, value: keepBlanks(first.n50), format: decimals(3), unit: "1/h" },
    {
      label: "q_{50}, retest without tape",
      value: keepBlanks(series.lastFlow),
      format: decimals(1),
      unit: "m³/h",
    },
    { label: `q_{50}, ${second.title}`, value: keepBlanks(second.q50), format: decimals(1), unit: "m³/h" },
    { label: `n_{50}, ${second.title}`, value: keepBlanks(second.n50), format: decimals(3), unit: "1/h" },
    { label: `n, ${second.title}`, value: keepBlanks(second.n), format: decimals(3), unit: "" },
    { label: "Won by tape and retest", value: keepBlanks(series.change), format: decimals(1), unit: "m³/h" },
    { label: "which is", value: keepBlanks(series.changeWord), unit: "" },
    { label: "Flow that the limit allows", value: keepBlanks("AllowedFlow"), format: decimals(1), unit: "m³/h" },
    { label: "Still to remove", value: forecast.toRemove, format: decimals(1), unit: "m³/h" },
    { label: "in % of the flow now", value: forecast.toRemovePercent, format: decimals(1), unit: "%" },
    { label: "As one round hole", value: keepBlanks(forecast.hole), format: decimals(0), unit: "mm" },
  ];
}

function siteFigures({ forecast }: OverviewSources): readonly Line[] {
  return [
    { label: "Final test as planned, q_{50}", value: forecast.flowLikely, format: decimals(1), unit: "m³/h" },
    { label: "at best", value: forecast.flowBest, format: decimals(1), unit: "m³/h" },
    { label: "at worst", value: forecast.flowWorst, format: decimals(1), unit: "m³/h" },
    { label: "As planned, as the limit counts", value: forecast.likely, format: decimals(3), unit: "{unit}" },
    { label: "Limit", value: keepBlanks("TargetLimit"), format: "0.0##", unit: "{unit}" },
    {
      label: "Probability of meeting the limit",
      value: `IF(${isCounted},${keepBlanks(forecast.probability)},"open")`,
      format: probabilityFormat,
      unit: "",
    },
    {
      label: "Outlook",
      value: `IF(${isCounted},IF(${forecast.outlook}="","open",${forecast.outlook}),"open")`,
      unit: "",
    },
    {
      label: "Planned repairs, likely",
      value: `IF(N(${forecast.planned})=0,"",${forecast.planned})`,
      format: decimals(1),
      unit: "m³/h",
    },
    { label: "Leaks in the register", value: countPlaces.all, format: decimals(0), unit: "" },
    { label: "open", value: countPlaces.open, format: decimals(0), unit: "" },
    { label: "repaired, not retested", value: countPlaces.repaired, format: decimals(0), unit: "" },
    { label: "retested or accepted", value: `SUM(${countPlaces.done})`, format: decimals(0), unit: "" },
  ];
}

function writeLines(
  sheet: Sheet,
  at: number,
  [label, value, unit]: readonly [string, string, string],
  lines: readonly Line[],
) {
  lines.forEach((line, index) => {
    const row = at + index;
    const indented = /^[a-z]/.test(line.label) && !/^[qn](_|,)/.test(line.label);
    sheet.rich(
      `${label}${row}`,
      line.label,
      indented ? style({ indent: 1, colour: palette.grey }, looks.label) : looks.label,
    );
    sheet.formula(`${value}${row}`, line.value, style({ shrink: true }, native(line.format)));
    if (line.unit === "{unit}") sheet.formula(`${unit}${row}`, 'IF(TargetUnit="","",TargetUnit)', looks.unit);
    else sheet.put(`${unit}${row}`, line.unit || null, looks.unit);
  });
}

/** Measured figures on the left, forecast and leaks on the right; a heading and twelve rows. */
function writeFigures(sheet: Sheet, at: number, sources: OverviewSources): void {
  writeHeading(sheet, at, ["B", "D"], "Measured");
  writeHeading(sheet, at, ["F", "H"], "Forecast and leaks");
  const lines = housesFigures(sources);
  lines.forEach((_, index) => sheet.paint(`B${at + 1 + index}:B${at + 1 + index}`, looks.label));
  writeLines(sheet, at + 1, ["B", "C", "D"], lines);
  // The large word above is the outlook.
  const printed = siteFigures(sources).filter(({ label }) => label !== "Outlook");
  writeLines(sheet, at + 1, ["F", "G", "H"], printed);
}

/** All figures as label, value and unit, beside the page; the range goes by the name Summary, which the recalculation prints. */
function writeSummary(sheet: Sheet, at: number, sources: OverviewSources): string {
  writeHeading(sheet, at, ["J", "L"], "Summary (not printed)");
  const lines = [...housesFigures(sources), ...siteFigures(sources)];
  writeLines(sheet, at + 1, ["J", "K", "L"], lines);
  return `J${at + 1}:L${at + lines.length}`;
}

/** Series that are points without a line. */
export const progressMarkers = ["quick tests", "multi-point tests"] as const;

const first = 8;
const count = quickRows.last - quickRows.first + 1;

/** The flow from day to day against what the limit allows. */
function drawProgressChart(sheet: Sheet, at: number, tests: readonly [PointTestPlaces, PointTestPlaces]): void {
  writeChartPoints(sheet, tests);
  const column = (letter: string, from: number, rows: number) =>
    onSheet(sheets.overview, `${letter}${from}:${letter}${from + rows - 1}`);
  const after = first + count;
  const series = [
    pointSeries(
      progressMarkers[0],
      column("N", first, count),
      column("O", first, count),
      "circle",
      palette.petrolMid,
      palette.petrol,
      8,
    ),
    pointSeries(
      progressMarkers[1],
      column("N", after, 2),
      column("O", after, 2),
      "diamond",
      palette.petrol,
      palette.petrol,
      10,
    ),
    lineSeries("limit", column("N", after + 2, 2), column("O", after + 2, 2), palette.copper, 2, "dash"),
  ];
  writeHeading(sheet, at, ["B", "H"], "From day to day");
  const from = { row: at, col: 1 };
  sheet.chart(
    linearChart(
      series,
      [],
      { from, to: { row: at + 11, col: 8 } },
      {
        x: { title: "", gridlines: false, format: "d mmm" },
        y: { title: "flow at 50 Pa, m³/h", min: 0, gridlines: true },
        alternative:
          "The flow at 50 Pa over the days of the tests, quick tests as circles, multi-point tests as diamonds, and a dashed line for the flow that the limit allows.",
        textSize: 9,
      },
    ),
  );
}

/** Cells behind the chart, beside the printed page; #N/A leaves a gap in the chart and is not shown, so that nothing looks wrong before a test or without the add-in. */
function writeChartPoints(sheet: Sheet, tests: readonly [PointTestPlaces, PointTestPlaces]): void {
  writeHeading(sheet, first - 3, ["N", "O"], "Behind the chart (not printed)");
  writeColumnHeads(sheet, first - 1, "N", ["day", "flow"]);
  const point = (row: number, day: string, flow: string) => {
    sheet.formula(`N${row}`, `IF(COUNT(${day},${flow})<2,NA(),${day})`, native("d mmm"));
    sheet.formula(`O${row}`, `IF(COUNT(${day},${flow})<2,NA(),${flow})`, native(decimals(1)));
  };
  for (let index = 0; index < count; index++) {
    const cell = (letter: string) => onSheet(sheets.quick, `${letter}${quickRows.first + index}`);
    point(first + index, cell("B"), cell("H"));
  }
  tests.forEach(({ day, q50 }, index) => {
    point(first + count + index, day, q50);
  });
  const quickDays = onSheet(sheets.quick, `B${quickRows.first}:B${quickRows.last}`);
  const days = [quickDays, ...tests.map(({ day }) => day)].join(",");
  (["MIN", "MAX"] as const).forEach((edge, index) => {
    const row = first + count + 2 + index;
    sheet.formula(`N${row}`, `IF(COUNT(${days})=0,NA(),${edge}(${days}))`, native("d mmm"));
    sheet.formula(`O${row}`, "IF(COUNT(AllowedFlow)=0,NA(),AllowedFlow)", native(decimals(1)));
  });
  sheet.when(`N${first}:O${first + count + 3}`, `ISNA(N${first})`, { font: { color: { rgb: palette.white } } });
}

/** What the first page is made from: both tests, the series of repairs, the forecast. */
interface OverviewSources {
  readonly tests: readonly [PointTestPlaces, PointTestPlaces];
  readonly series: SeriesPlaces;
  readonly forecast: ForecastPlaces;
}
