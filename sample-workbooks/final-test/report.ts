import { letterhead, pageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, palette } from "../blocks/style";
import type { Runs } from "./direction";
import type { GraphPoints } from "./graph-points";
import { footer, sheets } from "./places";
import { preparationPart, sizesPart } from "./report-building";
import { readingsPart } from "./report-readings";
import { resultsPart, signaturesPart } from "./report-results";
import { testPart } from "./report-test";
import { ReportWriter } from "./report-writer";
import type { ResultPlaces } from "./result-places";
import type { Scenario } from "./scenario";

/** What a report by ISO 9972 holds, gathered from the sheets where it is typed and computed; each part on a page of its own. */
export function reportPage(form: Scenario, runs: Runs, results: ResultPlaces, points: GraphPoints): Page {
  const pages: string[] = [];
  const sheet = new Sheet(sheets.report, [1.5, 15, ...Array<number>(11).fill(9)], palette.copper, {
    orientation: "portrait",
    areas: pages,
    titleRows: "1:4",
    footer,
  });
  pageHead(sheet, { ...letterhead, house: '"Report "&ReportNumber' }, ["B", "M"], "Report of an airtightness test", "");
  sheet.formula("B3", '"Fan pressurization by "&TestStandard&". "&House&IF(Address="","",", "&Address)', looks.lead);
  const writer = new ReportWriter(sheet);
  const parts = [
    () => testPart(writer, runs, results),
    () => preparationPart(writer),
    () => sizesPart(writer, form.units),
    () => readingsPart(writer, runs),
    () => {
      resultsPart(writer, sheet, form, runs, results, points);
      signaturesPart(writer, sheet);
    },
  ];
  for (const part of parts) {
    const first = pages.length === 0 ? 1 : writer.next;
    part();
    pages.push(`B${first}:M${writer.next - 1}`);
    writer.skip();
  }
  return { sheet, names: {} };
}
