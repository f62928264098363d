import { type ExampleBlock, exampleWidths, writeExample } from "../blocks/example";
import { notesSheet } from "../blocks/notes-page";
import type { Page, Sheet } from "../blocks/sheet";
import { logRows, sheets } from "./layout";
import { footer } from "./scenario";
import { resultCell } from "./whole-test";

const notes: readonly (readonly [heading: string, words: string])[] = [
  [
    "From the export to the log",
    "Open the logger’s file beside this workbook, sort it by time, copy its columns and paste them as values into the sheet Log. Other columns, another order or flows instead of fan pressures: say so under “columns”; what the workbook does not need is “other”.",
  ],
  [
    "From the log to stations",
    "A station is a stretch where the running median of five rows stays within twice the tolerance for at least the shortest time; two rows are dropped at each end. Mean, standard deviation and drift are those of its rows. Neighbouring rows are alike, because a gust lasts longer than a row: the standard error of the mean counts only as many rows as are independent of each other.",
  ],
  [
    "What to look at",
    "The column says when a station drifts, is gusty, or its fan pressure is missing or outside the calibrated range; such a station keeps its row. Whoever leaves a station out says “no” and writes why: the report needs the reason, and the best-looking selection is not a reason.",
  ],
  [
    "From stations to the test",
    "Covered stretches are baselines, the others readings; the sign of the pressure tells the direction. The whole test subtracts the baseline, corrects the flow for air density, fits the curve and gives the results at 50 Pa, every step a row with its source.",
  ],
  [
    "From the baselines to the uncertainty",
    "A covered stretch gives one mean, whose standard error and degrees of freedom are those of its station: the budget takes them instead of guessing how well a single value is known. The scatter of the readings about the line is taken from the line itself. What is typed on the sheet Uncertainty comes from certificates, tape and weather; what is not typed is assumed, and its row says so.",
  ],
  [
    "Cautions",
    "The stations show what the gauges saw, not whether the house was prepared: heating and open flues off and kept off, fires out since the day before, openings closed or sealed by the method agreed, no test before a licensed assessment where asbestos, vermiculite or lead dust may be stirred up. The results are the tester’s responsibility under local codes; the workbook replaces no licence.",
  ],
];

/** What the example of the log fills. */
const exampleBlocks: readonly ExampleBlock[] = [
  { label: "House", sheet: sheets.overview, texts: ["C6:C8"], kind: "house" },
  { label: "Log", sheet: sheets.log, numbers: [`C${logRows.first}:D${logRows.last}`], kind: "result" },
];

/** How a log becomes a test, in words, and which method computed it. */
export function notesPage(pages: readonly Sheet[]): Page {
  const sheet = notesSheet(
    sheets.notes,
    footer,
    "What is done with the rows, and what the workbook cannot see.",
    notes,
    7 + 2 * notes.length,
    resultCell("depressurization", "n50"),
    [2, 2, ...exampleWidths],
  );
  return { sheet, names: writeExample(sheet, exampleBlocks, pages) };
}
