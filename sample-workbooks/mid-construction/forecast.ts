import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries, tickSeries } from "../blocks/chart";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { tableHeads } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import { oneOf, text } from "../blocks/validation";
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
import { openingRows, planRows, writeOpenings, writePlan } from "./plan";
import type { PointTestPlaces } from "./point-test";
import { register } from "./register-columns";
import type { SeriesPlaces } from "./series";

/** What is still to seal, and what the final test may show when the planned repairs and the openings still to come are counted. */
export function forecastPage(
  tests: readonly [PointTestPlaces, PointTestPlaces],
  series: SeriesPlaces,
): Page & { readonly places: ForecastPlaces } {
  const sheet = new Sheet(
    sheets.forecast,
    [1.5, 38, 11, 21, 12.5, 11.5, 11, 31, 3, ...Array<number>(8).fill(10)],
    palette.copper,
    {
      orientation: "landscape",
      areas: [
        `B1:H${gapRows.gap - 1}`,
        `B${gapRows.gap}:H${gapRows.hole + 7}`,
        `B${planRows.at}:H${openingRows.last + 1}`,
        `B${forecastAt}:H${scale.last + 2}`,
        `B${chartAt}:H${lastRow}`,
      ],
      titleRows: "1:4",
      pages: 5,
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
  writePlan(sheet);
  writeOpenings(sheet);
  const value = writeOutcomeTable(sheet);
  writeScale(sheet);
  const now = { flow: `E${gapRows.now + 1}`, uncertainty: `E${gapRows.now + 2}`, freedom: freedomNow };
  drawForecastChart(sheet, chartAt, { ...now, value });
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
      outlook: place(`E${scale.outlook}`),
      probability: place(`E${scale.probability}`),
      planned: place(`C${planRows.total}`),
      tapeOn: place(`J${tapeRows.now}`),
    },
  };
}

const forecastAt = openingRows.last + 3;
const outcome = { first: forecastAt + 2, last: forecastAt + 14 } as const;

/** Rows below the table: mean, its uncertainty and degrees of freedom, the probability, its words, and the scale of the words. */
const scale = {
  at: outcome.last + 2,
  mean: outcome.last + 3,
  uncertainty: outcome.last + 4,
  freedom: outcome.last + 5,
  probability: outcome.last + 6,
  outlook: outcome.last + 7,
  first: outcome.last + 9,
  last: outcome.last + 13,
} as const;

const chartAt = scale.last + 4;
const lastRow = chartAt + 30;

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
  /** The words of the probability that the final test meets the limit, and that probability. */
  readonly outlook: string;
  readonly probability: string;
  /** Flow that all planned repairs take away, if each does the likeliest. */
  readonly planned: string;
  /** Temporary tape on during the test that the flow is taken from, which then gives none; blank where there is none. */
  readonly tapeOn: string;
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
  writeTape(sheet, tests, series);
  const untaped = (formula: string) => `IF(J${tapeRows.now}="",${formula},"")`;
  const nOfSeries = `IF(COUNT(${second.n})=1,${second.n},${first.n})`;
  const bold = style({ bold: true }, native(decimals(1)));
  const allowed = call("ALLOWEDLEAKAGE", "TargetLimit", "ForecastSettings");
  writeFormLines(sheet, at, gapForm, [
    { label: "Flow from", typed: second.title, align: "left" },
    {
      label: "Flow at 50 Pa now, q_{50}",
      formula: untaped(pick(first.q50, second.q50, series.lastFlow)),
      look: bold,
      unit: "m³/h",
    },
    {
      label: "Its standard uncertainty",
      formula: untaped(pick(first.uncertainty, second.uncertainty, series.lastUncertainty)),
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

/** Rows of the temporary tape, beside the settings. */
const tapeRows = { at: gapRows.settings + 4, first: gapRows.settings + 5, now: gapRows.settings + 9 } as const;

/** Temporary tape during the tests: a flow read under it is not the house’s, so the forecast does not start from it. */
function writeTape(sheet: Sheet, [first, second]: Tests, series: SeriesPlaces): void {
  const { at, first: row, now } = tapeRows;
  writeHeading(sheet, at, ["E", "H"], "Temporary tape on during the test");
  [first, second].forEach(({ title }, index) => {
    sheet.put(`E${row + index}`, title, looks.label).paint(`F${row + index}`, looks.label);
    sheet.type(`G${row + index}`, "none", undefined, "left").merge(`G${row + index}:H${row + index}`);
  });
  sheet.put(`E${row + 2}`, "after the last retest", looks.label).merge(`E${row + 2}:F${row + 3}`);
  const still = `IF(${series.tapeOn}="",IF(${series.lastStep}="","","none"),${series.tapeOn})`;
  sheet.formula(`G${row + 2}`, still, style({ wrap: true, align: "left" }, looks.textLine));
  sheet.merge(`G${row + 2}:H${row + 3}`);
  const typedTape = (index: number) => `IF(OR(G${row + index}="",G${row + index}="none"),"",G${row + index})`;
  const chosen = pickTest([first, second], [typedTape(0), typedTape(1), '""']);
  sheet.put(`J${now - 1}`, "tape on, chosen test (not printed)", looks.unit).formula(`J${now}`, chosen, looks.label);
  const gone = `IF(J${now}="","Retests under temporary tape are left out: the last one without it counts.","The test chosen was run under temporary tape: no flow now, no forecast. Choose another one.")`;
  sheet.formula(`E${now}`, gone, looks.note).merge(`E${now}:H${now + 1}`);
  sheet.when(`E${now}:H${now + 1}`, `$J$${now}<>""`, { font: { bold: true, color: { rgb: palette.fail } } });
  sheet.validate(
    text(
      `G${row}:H${row + 1}`,
      "Temporary tape",
      "none, or what was taped for this test only. Lasting tape is none.",
      60,
    ),
  );
}

/** The scale of the words, from the least probability on; the method’s own. */
const outlookScale = [
  [0, "misses the limit by a margin"],
  [0.025, "probably misses the limit"],
  [0.1, "can go either way"],
  [0.9, "probably meets the limit"],
  [0.975, "meets the limit with a margin"],
] as const;

/** The probability that the final test meets the limit, from the flow now and every range, and the words for it. */
function writeScale(sheet: Sheet): void {
  const repairs = {
    low: register.derived("plannedLow"),
    likely: register.derived("plannedLikely"),
    high: register.derived("plannedHigh"),
  } as const;
  const column = (letter: string) => `${letter}${openingRows.first}:${letter}${openingRows.last}`;
  const added = { likely: column("C"), low: column("D"), high: column("E") } as const;
  const [flow, u] = [`E${gapRows.now + 1}`, `E${gapRows.now + 2}`];
  writeHeading(sheet, scale.at, ["B", "H"], "Probability that the final test meets the limit");
  const known = (value: string) => `IF(OR(${withoutLimit},COUNT(${flow},${u})<2),"",${value})`;
  type Columns = Readonly<Record<"low" | "likely" | "high", string>>;
  const mean = ({ low, likely, high }: Columns) => `(SUM(${low})+SUM(${likely})+SUM(${high}))/3`;
  // Variance of a triangle, (a² + m² + b² − a·m − a·b − m·b)/18.
  const variance = ({ low, likely, high }: Columns) =>
    `(SUMSQ(${low})+SUMSQ(${likely})+SUMSQ(${high})-SUMPRODUCT(${low},${likely})-SUMPRODUCT(${low},${high})-SUMPRODUCT(${likely},${high}))/18`;
  const freedom = `IF(OR(COUNT(E${scale.uncertainty},${u},${freedomNow})<3,${u}=0),"",${freedomNow}*(E${scale.uncertainty}/${u})^4)`;
  const all = `C${openingRows.first}:E${openingRows.last}`;
  const partly = `OR(COUNTA(${all})>COUNT(${all}),COUNTIF(${column("F")},"?*")>0)`;
  writeFormLines(sheet, scale.mean, gapForm, [
    {
      label: "Mean of what can come, each range a triangle about its likely flow",
      formula: known(`IF(${partly},NA(),${flow}-${mean(repairs)}+${mean(added)})`),
      format: decimals(1),
      unit: "m³/h",
    },
    {
      label: "Its standard uncertainty, that of the flow now included",
      formula: known(`IF(${partly},NA(),SQRT(${u}^2+${variance(repairs)}+${variance(added)}))`),
      format: decimals(1),
      unit: "m³/h",
    },
    { label: "Degrees of freedom of that uncertainty", formula: freedom, format: decimals(0) },
  ]);
  sheet.put(`B${scale.probability}`, "Probability that the final test meets the limit", looks.strong);
  sheet.paint(`C${scale.probability}:D${scale.probability}`, looks.label);
  const probability = call(
    "CONFORMANCEPROBABILITY",
    `E${scale.mean}`,
    `E${scale.uncertainty}`,
    "AllowedFlow",
    keepBlanks(`E${scale.freedom}`),
  );
  sheet.addIn(
    `E${scale.probability}`,
    `IF(COUNT(E${scale.mean},E${scale.uncertainty},AllowedFlow)<3,"",${probability})`,
    style({ bold: true }, fromAddIn(probabilityFormat)),
  );
  const steps = (letter: string) => `$${letter}$${scale.first}:$${letter}$${scale.last}`;
  sheet.put(`B${scale.outlook}`, "In words", looks.strong).paint(`C${scale.outlook}:D${scale.outlook}`, looks.label);
  sheet.formula(
    `E${scale.outlook}`,
    `IF(COUNT(E${scale.probability})=0,"",LOOKUP(E${scale.probability},${steps("C")},${steps("E")}))`,
    style({ bold: true, align: "left" }, looks.label),
  );
  sheet.paint(`F${scale.outlook}:H${scale.outlook}`, looks.label);
  writeColumnHeads(sheet, scale.first - 1, "B", ["<probability", "from", "to", "<<in words"]);
  outlookScale.forEach(([from, words], index) => {
    const row = scale.first + index;
    const to = outlookScale[index + 1]?.[0] ?? 1;
    sheet.put(`B${row}`, index === 0 ? "The scale of the words; our own, no source" : null, looks.label);
    sheet.put(`C${row}`, from, native("0.0 %")).put(`D${row}`, to, native("0.0 %"));
    sheet.put(`E${row}`, words, style({ indent: 1, align: "left" }, looks.label)).paint(`F${row}:H${row}`, looks.label);
  });
  sheet.when(`B${scale.first}:H${scale.last}`, `$E${scale.first}=$E$${scale.outlook}`, {
    font: { bold: true, color: { rgb: palette.copper } },
  });
  sheet.put(
    `B${scale.last + 1}`,
    "97.5 % and 2.5 % are the ends of the interval that contains 95 %; 90 % and 10 % are common practice, no source. Between them nothing is called probable.",
    looks.note,
  );
  sheet.merge(`B${scale.last + 1}:H${scale.last + 2}`);
}

function writeOutcomeTable(sheet: Sheet): (symbol: string) => string {
  writeHeading(sheet, forecastAt, ["B", "H"], "Forecast of the final test");
  writeColumnHeads(sheet, forecastAt + 1, "B", tableHeads);
  const whole = call(
    "FINALFORECAST",
    `E${gapRows.now + 1}`,
    `E${gapRows.now + 2}`,
    register.planned,
    `C${openingRows.first}:E${openingRows.last}`,
    "TargetLimit",
    "ForecastSettings",
  );
  const formats = ["0", probabilityFormat, ...[1, 1, 1, 1, 1, 0, 3, 3, 3, 3, 1].map((digits) => decimals(digits))];
  sheet.addIn(
    `B${outcome.first}:H${outcome.last}`,
    `IF(OR(${withoutLimit},COUNT(E${gapRows.now + 1}:E${gapRows.now + 2})<2),"",${whole})`,
    (row, column) => {
      if (column === 6) return style({ wrap: true, shrink: false }, words(column));
      return column < 2 || column > 4 ? words(column) : style({ shrink: true }, fromAddIn(formats[row]));
    },
  );
  // Its source has the most to say.
  sheet.height(24, outcome.first + outcomeRows.indexOf("dof"));
  const range = (letter: string) => onSheet(sheets.forecast, `${letter}${outcome.first}:${letter}${outcome.last}`);
  return bySymbol(range("C"), range("D"));
}

/** Symbols of the table, in their order. */
const outcomeRows = "outlook p_meet q50_likely q50_best q50_worst q50_mean u_q50 dof".split(" ");

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
  writeHeading(sheet, top, ["B", "H"], "The flow now and the final test");
  const from = { row: top, col: 1 };
  sheet.chart(
    linearChart(
      series,
      [1, 5, 6],
      { from, to: { row: top + 29, col: 8 } },
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
    // A point without a flow would be drawn at its number in the row of points.
    sheet.formula(`K${top + 2 + index}`, `IF(ISERROR(J${top + 2 + index}),NA(),${height})`, native(decimals(0)));
    sheet.put(`L${top + 2 + index}`, 0, native(decimals(0)));
  });
}
