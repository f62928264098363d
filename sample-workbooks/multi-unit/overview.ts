import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { firm, letterhead, pageHead, section, trade } from "../blocks/heading";
import { legend, signatures, twoColumnsOfFacts } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { palette, shortDay } from "../blocks/style";
import { day, text } from "../blocks/validation";
import type { BuildingPlaces } from "./building-results";
import { figures, summarySection } from "./overview-figures";
import { footer, sheets, unitRows } from "./places";
import { building, remark } from "./scenario";
import { buildingPanel } from "./verdict-panel";

const rows = { facts: 6, panel: 13, figures: 21, chart: 31, legend: 50 } as const;
const lastRow = rows.legend + 7;

/** One page for the client: the building, the verdict, the key results, the units side by side. */
export function overviewPage(places: BuildingPlaces): Page {
  const widths = [1.5, 24, 14, 15, 3, 22, 15, 14, 3, 36, 12, 12];
  const sheet = new Sheet(sheets.overview, widths, palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${lastRow}`],
    pages: 1,
    footer,
  });
  const lead = "A building of several units, a sample of them tested, with the leaks to the neighbours told apart.";
  pageHead(sheet, letterhead, ["B", "H"], "Airtightness of a building of several units", lead);
  sheet.heightOf(15, 5, lastRow).height(30, 2);
  facts(sheet);
  buildingPanel(sheet, rows.panel, places);
  figures(sheet, rows.figures, places);
  chart(sheet);
  howToRead(sheet);
  const summary = summarySection(sheet, 5, places);
  const fact = (letter: "C" | "G", index: number) => onSheet(sheets.overview, `${letter}${rows.facts + index}`);
  return {
    sheet,
    names: {
      House: fact("C", 0),
      Firm: fact("C", 4),
      TradeLine: fact("C", 5),
      Remark: fact("G", 4),
      Summary: onSheet(sheets.overview, summary),
    },
  };
}

function facts(sheet: Sheet): void {
  section(sheet, 5, ["B", "D"], "Building");
  section(sheet, 5, ["F", "H"], "Tests");
  const left = [
    ["Building", building.name],
    ["Address", building.address],
    ["Client", building.client],
    ["Construction", building.construction],
    ["Firm", firm],
    ["Trade", trade],
  ] as const;
  const right = [
    ["Day of this report", building.reported],
    ["Tested by", building.tester],
    ["Preparation by ISO 9972", building.preparation],
    ["Report", building.report],
    ["Remark on every sheet", remark],
  ] as const;
  twoColumnsOfFacts(sheet, rows.facts, left, right, [0], shortDay);
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

function chart(sheet: Sheet): void {
  section(sheet, rows.chart, ["B", "H"], "Units: air change rate with and without the neighbours’ leaks");
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

function howToRead(sheet: Sheet): void {
  legend(
    sheet,
    { at: rows.legend, others: "F", right: "H" },
    "Units lists every flat with its sizes and why it was chosen; Sampling holds the rule and what it left out. Runs has a block for each tested unit: unguarded, and guarded by fans in the neighbouring flats. Results takes both apart, unit by unit, " +
      "and adds them up for the building. The criterion is chosen on the sheet Criteria; local code and the certifier decide which one holds. The result is the tester’s responsibility.",
    4,
  );
  signatures(sheet, rows.legend + 7);
}
