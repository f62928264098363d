import { call } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { formLines } from "../blocks/form";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { tableHeads } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, probabilityFormat, style } from "../blocks/style";
import { oneOf } from "../blocks/validation";
import { forecastChart } from "./forecast-chart";
import { rangeRows, rangesSection } from "./forecast-ranges";
import {
  freedomNow,
  gapForm,
  gapRows,
  gapTable,
  holeSection,
  settingsBlock,
  settingsRange,
  withoutLimit,
  words,
} from "./gap";
import { bySymbol, footer, sheets } from "./places";
import type { PointTestPlaces } from "./point-test";
import type { SeriesPlaces } from "./series";

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
  pageHead(sheet, letterhead, ["B", "H"], sheets.forecast, lead);
  sheet.heightOf(14, 5, lastRow);
  flowNow(sheet, tests, series);
  settingsBlock(sheet, pickTest(tests, [tests[0].freedom, tests[1].freedom, '""']));
  const gapValue = gapTable(sheet);
  holeSection(sheet);
  rangesSection(sheet);
  const value = outcomeTable(sheet);
  const now = { flow: `E${gapRows.now + 1}`, uncertainty: `E${gapRows.now + 2}`, freedom: freedomNow };
  forecastChart(sheet, outcome.last + 2, { ...now, value });
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

type Tests = readonly [PointTestPlaces, PointTestPlaces];

/** What belongs to the test that is chosen: the first, the second or the last retest. */
function pickTest([first, second]: Tests, [ofFirst, ofSecond, ofSeries]: readonly [string, string, string]): string {
  const chosen = `E${gapRows.now}`;
  return `IF(${chosen}="${first.title}",${ofFirst},IF(${chosen}="${second.title}",${ofSecond},IF(${chosen}="last retest",${ofSeries},"")))`;
}

function flowNow(sheet: Sheet, tests: Tests, series: SeriesPlaces): void {
  const at = gapRows.now;
  const [first, second] = tests;
  section(sheet, at - 1, ["B", "H"], "Where the house stands");
  const pick = (...places: readonly [string, string, string]) => pickTest(tests, places);
  const nOfSeries = `IF(COUNT(${second.n})=1,${second.n},${first.n})`;
  const bold = style({ bold: true }, native(decimals(1)));
  const allowed = call("ALLOWEDLEAKAGE", "TargetLimit", "ForecastSettings");
  formLines(sheet, at, gapForm, [
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

function outcomeTable(sheet: Sheet): (symbol: string) => string {
  section(sheet, forecastAt, ["B", "H"], "Forecast of the final test");
  columnHeads(sheet, forecastAt + 1, "B", tableHeads);
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
