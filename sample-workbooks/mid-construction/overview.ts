import { onSheet } from "../blocks/address";
import { firm, letterhead, pageHead, section, trade } from "../blocks/heading";
import { legend, twoColumnsOfFacts } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, palette } from "../blocks/style";
import { day, text } from "../blocks/validation";
import { outlookPanel } from "./outlook-panel";
import { figures, summarySection } from "./overview-figures";
import type { OverviewSources } from "./overview-sources";
import { footer, sheets } from "./places";
import { progressChart } from "./progress-chart";
import { house, remark } from "./scenario";

const rows = { facts: 6, panel: 13, figures: 21, chart: 36, legend: 53 } as const;
const lastRow = rows.legend + 5;

/** One page for the site meeting: where the house stands, what the last day of tests won, what the final test may show. */
export function overviewPage(sources: OverviewSources): Page {
  const sheet = new Sheet(
    sheets.overview,
    [1.5, 22, 15, 16, 3, 22, 15, 16, 3, 34, 22, 14, 3, 22, 14, 10, 10],
    palette.copper,
    {
      orientation: "portrait",
      areas: [`B1:H${lastRow}`],
      pages: 1,
      footer,
    },
  );
  const lead = "Tests while every leak can still be reached. An outlook, not a verdict.";
  pageHead(sheet, letterhead, ["B", "H"], "Airtightness in mid-construction", lead);
  sheet.heightOf(15, 5, lastRow).height(30, 2);
  facts(sheet);
  outlookPanel(sheet, rows.panel, sources.forecast);
  figures(sheet, rows.figures, sources);
  progressChart(sheet, rows.chart, sources.tests);
  howToRead(sheet);
  const summary = summarySection(sheet, 5, sources);
  const fact = (letter: "C" | "G", index: number) => onSheet(sheets.overview, `${letter}${rows.facts + index}`);
  return {
    sheet,
    names: {
      House: fact("C", 0),
      Firm: fact("C", 4),
      TradeLine: fact("C", 5),
      Remark: fact("G", 5),
      Summary: onSheet(sheets.overview, summary),
    },
  };
}

function facts(sheet: Sheet): void {
  section(sheet, 5, ["B", "D"], "House");
  section(sheet, 5, ["F", "H"], "Site");
  const left = [
    ["House", house.name],
    ["Address", house.address],
    ["Client", house.client],
    ["Construction", house.construction],
    ["Firm", firm],
    ["Trade", trade],
  ] as const;
  const right = [
    ["Day of this report", house.reported],
    ["Tested by", house.tester],
    ["On site", house.site],
    ["Final test planned for", house.final],
    ["Barrier closed in from", house.closed],
    ["Remark on every sheet", remark],
  ] as const;
  twoColumnsOfFacts(sheet, rows.facts, left, right, [0, 3, 4], dateFormat);
  const first = rows.facts;
  sheet.validate(
    text(`C${first}:D${first + 5}`, "House and firm", "The house and the firm stand at the top of every sheet."),
    day(`G${first}:H${first}`, "Day of this report", "What was known on this day."),
    text(`G${first + 1}:H${first + 2}`, "Who", "Who tested, and who answers for the site."),
    day(`G${first + 3}:H${first + 4}`, "Day", "When the final test is planned, and when the barrier is closed in."),
    text(`G${first + 5}:H${first + 5}`, "Remark", "Stands on every sheet until it is deleted."),
  );
}

function howToRead(sheet: Sheet): void {
  legend(
    sheet,
    { at: rows.legend, others: "F", right: "H" },
    "Quick tests follow the barrier as it closes. Multi-point 1 and 2 stand before and after the day of repairs. The leak register says who mends what; Tape and retest says what each step won and whether that is proved; " +
      "Gap and forecast says what is left to seal and what the final test may show. The criterion is chosen on the sheet Limits. The final test alone counts for a certificate, and local code decides. The result is the tester’s responsibility.",
    4,
  );
}
