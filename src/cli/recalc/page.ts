import { basename } from "node:path";
import { parsePlace, workbookPage, type Book, type NamedCell } from "../../workbook/index";
import { graphPart } from "./page-graph";
import { findingsPart, summaryPart } from "./page-parts";
import type { RecalculatedReport } from "./report";
import type { Recalculated } from "./recalculate";
import { counted } from "../shared/words";

/** The page of a recalculated workbook: results, what was found, the graph, and every sheet. */
export function pageOf(
  report: RecalculatedReport,
  { opened, evaluation, evaluateOptions, set, calls }: Recalculated,
): string {
  const { book } = opened;
  const placeOf = (cell: string) => placeIn(book, cell);
  const namedCells = [
    ...report.differences.map(({ address }) => address),
    ...report.errors.origins.map(({ cell }) => cell),
    ...report.notEvaluated.map(({ cell }) => cell),
    ...(report.settings?.set ?? []).map(({ cell }) => cell),
    ...(report.settings?.changed ?? []).map(({ cell }) => cell),
  ].flatMap((cell) => placeOf(cell) ?? []);
  const graph = graphPart(book, calls);
  const content = {
    title: basename(report.file),
    lead: [leadOf(report), ...(report.settings ? [whatIf(report.settings.set.length)] : [])],
    parts: [summaryPart(report), findingsPart(report, placeOf), ...(graph ? [graph] : [])],
    opened,
    evaluation,
    evaluateOptions,
    set,
    namedCells,
    footer:
      "Made from the workbook without Excel. The values are recalculated ones; where a cell could not be evaluated, the stored one is shown and marked.",
  };
  return workbookPage(content);
}

function leadOf({ formulaCells, evaluatedCells, addIn, differences }: RecalculatedReport): string {
  const same =
    differences.length === 0
      ? "all computed values equal the stored ones"
      : `${counted(differences.length, "cell")} differ from the stored value`;
  return `Recalculated: ${evaluatedCells} of ${counted(formulaCells, "formula cell")}, ${counted(addIn.calls, "add-in call")}; ${same}.`;
}

function whatIf(count: number): string {
  return `This is a what-if: ${counted(count, "cell")} hold other values than in the file.`;
}

/** Where "Sheet!B4" or "'A sheet'!B4" lies. */
function placeIn(book: Book, cell: string): NamedCell | undefined {
  const mark = cell.lastIndexOf("!");
  const name = cell.slice(0, mark).replace(/^'|'$/g, "").replaceAll("''", "'");
  const place = parsePlace(cell.slice(mark + 1));
  const sheet = book.sheets.findIndex((one) => one.name === name);
  return place && sheet >= 0 ? { sheet, ...place } : undefined;
}
