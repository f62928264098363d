import { call } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries, tickSeries } from "../blocks/chart";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { tableHeads } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import {
  freedomNow,
  gapForm,
  gapRows,
  settingsRange,
  withoutLimit,
  words,
  writeGapSettings,
  writeGapTable,
  writeHole,
} from "./gap";
import { bySymbol, footer, sheets } from "./layout";
import type { PointTestPlaces } from "./point-test";
import { openings, type Range, repairs } from "./scenario";
import type { SeriesPlaces } from "./series";

const count = 7;

/** What is still to seal, and what the final test may show when the planned repairs and the openings still to come are counted. */
export function forecastPage(
  tests: readonly [PointTestPlaces, PointTestPlaces],
  series: SeriesPlaces,
): Page & { readonly places: ForecastPlaces } {
  const lastRow = outcome.last + 22;
  const sheet = new Sheet(
    sheets.forecast,
    [1.5, 43, 12, 12, 17, 12, 12, 22, 3, ...Array<number>(8).fill(10)],
    palette.copper,
    {
      orientation: "portrait",
      areas: [`B1:H${gapRows.hole + 7}`, `B${gapRows.hole + 9}:H${lastRow}`],
      titleRows: "1:4",
      footer,
    },
  );
  const lead = "An outlook for the site, no verdict: that is for the final test, when nothing can be reached any more.";
  writePageHead(sheet, letterhead, ["B", "H"], sheets.forecast, lead);
  sheet.heightOf(14, 5, lastRow);
  writeFlowNow(sheet, tests, series);
  writeGapSettings(sheet, pickTest(tests, [tests[0].freedom, tests[1].freedom, '""']));
  const gapValue = writeGapTable(sheet);
  writeHole(sheet);
  writeRanges(sheet);
  const value = writeOutcomeTable(sheet);
  const now = { flow: `E${gapRows.now + 1}`, uncertainty: `E${gapRows.now + 2}`, freedom: freedomNow };
  drawForecastChart(sheet, outcome.last + 2, { ...now, value });
  const place = (reference: string) => onSheet(sheets.forecast, reference);
  return {
    sheet,
    names: { AllowedFlow: place(`E${gapRows.now + 6}`), ForecastSettings: place(settingsRange) },
    places: {
      from: place(`E${gapRows.now}`),
      flow: place(`E${gapRows.now + 1}`),
      result: gapValue("result"),
      state: gapValue("state"),
      toRemove: gapValue("q_remove"),
      toRemovePercent: gapValue("remove_pct"),
      hole: place(`E${gapRows.hole + 1}`),
      likely: value("likely"),
      best: value("best"),
      worst: value("worst"),
      flowLikely: value("q50_likely"),
      flowBest: value("q50_best"),
      flowWorst: value("q50_worst"),
      outlook: value("outlook"),
      probability: value("p_meet"),
    },
  };
}

function block(at: number): { readonly at: number; readonly first: number; readonly last: number } {
  return { at, first: at + 2, last: at + 1 + count };
}

/** Rows of the planned repairs and of the openings still to come, spare rows included. */
const rangeRows = { repairs: block(52), openings: block(63) } as const;

/** What repairs will take away and openings will add, each between a low and a high flow. */
function writeRanges(sheet: Sheet): void {
  writeRangeTable(sheet, rangeRows.repairs, "Planned repairs: flow at 50 Pa that each takes away", repairs);
  writeRangeTable(sheet, rangeRows.openings, "Openings still to come: flow at 50 Pa that each adds", openings);
}

function writeRangeTable(
  sheet: Sheet,
  { at, first, last }: ReturnType<typeof block>,
  title: string,
  given: readonly Range[],
): void {
  writeHeading(sheet, at, ["B", "H"], title);
  writeColumnHeads(sheet, at + 1, "B", ["<what", "likely, m³/h", "low, m³/h", "high, m³/h", "<<"]);
  for (let row = first; row <= last; row++) {
    const [what, likely, low, high] = given[row - first] ?? [];
    sheet.type(`B${row}`, what ?? null, undefined, "left").type(`C${row}`, likely ?? null, decimals(1));
    sheet.type(`D${row}`, low ?? null, decimals(1)).type(`E${row}`, high ?? null, decimals(1));
    const partly = `AND(COUNT(C${row}:E${row})>0,COUNT(C${row}:E${row})<3)`;
    const disordered = `AND(COUNT(C${row}:E${row})=3,OR(C${row}<D${row},C${row}>E${row}))`;
    sheet.formula(
      `F${row}`,
      `IF(${partly},"three numbers, please",IF(${disordered},"low ≤ likely ≤ high",""))`,
      looks.unit,
    );
  }
  sheet.when(`F${first}:F${last}`, `F${first}<>""`, style({ bold: true, colour: palette.fail }));
  sheet.validate(
    text(`B${first}:B${last}`, "What", "The repair or the opening, and its number in the leak register.", 70),
    between(`C${first}:E${last}`, 0, 100000, "Flow, m³/h", "At 50 Pa; likely, and the least and the most it may be."),
  );
}

const forecastAt = rangeRows.openings.last + 4;
const outcome = { first: forecastAt + 2, last: forecastAt + 14 } as const;

export interface ForecastPlaces {
  readonly from: string;
  readonly flow: string;
  readonly result: string;
  readonly state: string;
  readonly toRemove: string;
  readonly toRemovePercent: string;
  readonly hole: string;
  readonly likely: string;
  readonly best: string;
  readonly worst: string;
  readonly flowLikely: string;
  readonly flowBest: string;
  readonly flowWorst: string;
  readonly outlook: string;
  /** Probability that the final test meets the limit. */
  readonly probability: string;
}

type Tests = readonly [PointTestPlaces, PointTestPlaces];

/** What belongs to the test that is chosen: the first, the second or the last retest. */
function pickTest([first, second]: Tests, [ofFirst, ofSecond, ofSeries]: readonly [string, string, string]): string {
  const chosen = `E${gapRows.now}`;
  return `IF(${chosen}="${first.title}",${ofFirst},IF(${chosen}="${second.title}",${ofSecond},IF(${chosen}="last retest",${ofSeries},"")))`;
}

function writeFlowNow(sheet: Sheet, tests: Tests, series: SeriesPlaces): void {
  const at = gapRows.now;
  const [first, second] = tests;
  writeHeading(sheet, at - 1, ["B", "H"], "Where the house stands");
  const pick = (...places: readonly [string, string, string]) => pickTest(tests, places);
  const nOfSeries = `IF(COUNT(${second.n})=1,${second.n},${first.n})`;
  const bold = style({ bold: true }, native(decimals(1)));
  const allowed = call("ALLOWEDLEAKAGE", "TargetLimit", "ForecastSettings");
  writeFormLines(sheet, at, gapForm, [
    { label: "Flow from", typed: second.title, align: "left" },
    {
      label: "Flow at 50 Pa now, q_{50}",
      formula: pick(first.q50, second.q50, series.lastFlow),
      look: bold,
      unit: "m³/h",
    },
    {
      label: "Its standard uncertainty",
      formula: pick(first.uncertainty, second.uncertainty, series.lastUncertainty),
      format: decimals(1),
      unit: "m³/h",
    },
    {
      label: "Flow exponent n; 0.65 is assumed while there is none",
      formula: pick(first.n, second.n, nOfSeries),
      format: decimals(3),
    },
    { label: "Criterion", formula: 'IF(TargetName="","no criterion chosen",TargetName)' },
    { label: "Limit", formula: 'IF(TargetLimit="","",TargetLimit)', format: "0.0##" },
  ]);
  sheet.formula(`F${at + 5}`, 'IF(TargetUnit="","",TargetUnit)', looks.unit);
  sheet
    .rich(`B${at + 6}`, "Flow at 50 Pa that the limit allows", looks.label)
    .paint(`C${at + 6}:D${at + 6}`, looks.label);
  sheet.addIn(
    `E${at + 6}`,
    `IF(${withoutLimit},"",INDEX(${allowed},1,1))`,
    style({ bold: true }, fromAddIn(decimals(1))),
  );
  sheet.put(`F${at + 6}`, "m³/h", looks.unit);
  sheet.validate(
    oneOf(
      `E${at}`,
      [first.title, second.title, "last retest"],
      "Flow from",
      "The test that shows the house as it stands now; a multi-point one where there is one.",
    ),
  );
}

function writeOutcomeTable(sheet: Sheet): (symbol: string) => string {
  writeHeading(sheet, forecastAt, ["B", "H"], "Forecast of the final test");
  writeColumnHeads(sheet, forecastAt + 1, "B", tableHeads);
  const { repairs, openings } = rangeRows;
  const whole = call(
    "FINALFORECAST",
    `E${gapRows.now + 1}`,
    `E${gapRows.now + 2}`,
    `C${repairs.first}:E${repairs.last}`,
    `C${openings.first}:E${openings.last}`,
    "TargetLimit",
    "ForecastSettings",
  );
  const formats = ["0", probabilityFormat, ...[1, 1, 1, 1, 1, 0, 3, 3, 3, 3, 1].map((digits) => decimals(digits))];
  sheet.addIn(
    `B${outcome.first}:H${outcome.last}`,
    `IF(OR(${withoutLimit},COUNT(E${gapRows.now + 1}:E${gapRows.now + 2})<2),"",${whole})`,
    (row, column) => (column < 2 || column > 4 ? words(column) : style({ shrink: true }, fromAddIn(formats[row]))),
  );
  const range = (letter: string) => onSheet(sheets.forecast, `${letter}${outcome.first}:${letter}${outcome.last}`);
  return bySymbol(range("C"), range("D"));
}

/** Series that are points without a line. */
export const forecastMarkers = ["now, with 95 % limits", "likely", "now", "final test"] as const;

interface Shown {
  readonly flow: string;
  readonly uncertainty: string;
  /** Degrees of freedom of the flow now; blank for infinite ones. */
  readonly freedom: string;
  readonly value: (symbol: string) => string;
}

/** The flow now and the range of the final test as bars with a mark, against the flow that the limit allows. */
function drawForecastChart(sheet: Sheet, top: number, shown: Shown): void {
  writeChartPoints(sheet, top, shown);
  const at = (letters: string, from: number, to: number) =>
    onSheet(sheets.forecast, `${letters}${top + from}:${letters}${top + to}`);
  const one = (letters: string, row: number) => at(letters, row, row);
  const series = [
    lineSeries("flow now, 95 %", at("J", 2, 3), at("K", 2, 3), palette.petrolMid, 7),
    pointSeries(forecastMarkers[0], one("J", 4), one("K", 4), "diamond", palette.petrol, palette.petrol, 11),
    lineSeries("final test, best to worst", at("J", 5, 6), at("K", 5, 6), palette.inputEdge, 7),
    pointSeries(forecastMarkers[1], one("J", 7), one("K", 7), "circle", palette.copper, palette.copper, 11),
    lineSeries("limit", at("J", 8, 9), at("K", 8, 9), palette.ink, 2, "dash"),
    tickSeries(forecastMarkers[2], one("L", 2), one("K", 2), "r", 9),
    tickSeries(forecastMarkers[3], one("L", 5), one("K", 5), "r", 9),
  ];
  const from = { row: top - 1, col: 1 };
  sheet.chart(
    linearChart(
      series,
      [1, 5, 6],
      { from, to: { row: top + 18, col: 8 } },
      {
        x: { title: "flow at 50 Pa, m³/h", min: 0, gridlines: true },
        y: { title: "", min: 0, max: 3, step: 1, gridlines: false, numbered: false },
        alternative:
          "Two bars over the flow at 50 Pa: the flow now with its 95 % limits, and the final test from best to worst with a mark at the likely flow; a dashed line for the flow that the limit allows.",
        textSize: 9,
      },
    ),
  );
}

/** Cells behind the chart, beside the printed page; #N/A leaves a gap. */
function writeChartPoints(sheet: Sheet, top: number, { flow, uncertainty, freedom, value }: Shown): void {
  writeHeading(sheet, top, ["J", "L"], "Behind the chart (not printed)");
  writeColumnHeads(sheet, top + 1, "J", ["flow", "height", "label at"]);
  const known = (formula: string, ...cells: readonly string[]) =>
    `IF(COUNT(${cells.join(",")})<${cells.length},NA(),${formula})`;
  const factor = `IF(COUNT(${freedom})=0,_xlfn.NORM.S.INV(0.975),_xlfn.T.INV.2T(0.05,MAX(1,${freedom})))`;
  const limit = (sign: string) => known(`${flow}*EXP(${sign}${factor}*${uncertainty}/${flow})`, flow, uncertainty);
  const lines: readonly (readonly [formula: string, height: number])[] = [
    [limit("-"), 2],
    [limit(""), 2],
    [known(flow, flow), 2],
    [known(value("q50_best"), value("q50_best")), 1],
    [known(value("q50_worst"), value("q50_worst")), 1],
    [known(value("q50_likely"), value("q50_likely")), 1],
    [known("AllowedFlow", "AllowedFlow"), 0],
    [known("AllowedFlow", "AllowedFlow"), 3],
  ];
  lines.forEach(([formula, height], index) => {
    sheet.formula(`J${top + 2 + index}`, formula, native(decimals(1)));
    sheet.put(`K${top + 2 + index}`, height, native(decimals(0)));
    sheet.put(`L${top + 2 + index}`, 0, native(decimals(0)));
  });
}
