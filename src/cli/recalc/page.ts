import { basename } from "node:path";
import {
  toTypedForm,
  type Book,
  buildCellId,
  formatCount,
  type ErrorOrigin,
  escapeHtml,
  describeGraph,
  drawLeakageGraph,
  formatList,
  mostLines,
  type NamedCell,
  type PagePart,
  type TestsInBook,
  parseSheetArea,
  readTests,
  shorten,
  writeTag,
  writeWorkbookPage,
} from "../../workbook/index";
import { formatValue } from "../shared/report-lines";
import { writeStep } from "./print-text";
import type { Recalculated } from "./recalculate";
import type { Change, NotEvaluated, RecalculatedReport } from "./report";

/** The page of a recalculated workbook: results, what was found, the graph, and every sheet. */
export function writePage(
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
  const graph = drawGraphs(readTests(book, evaluation, evaluateOptions.addIn ?? new Map(), calls));
  const content = {
    title: basename(report.file),
    lead: [writeLead(report), ...(report.settings ? [describeWhatIf(report.settings.set.length)] : [])],
    parts: [writeSummary(report), writeFindings(report, placeOf), ...(graph ? [graph] : [])],
    opened,
    evaluation,
    evaluateOptions,
    set,
    namedCells,
    footer:
      "Made from the workbook without Excel. Values are recalculated; where a cell could not be evaluated, its stored value is shown and marked.",
  };
  return writeWorkbookPage(content);
}

function writeLead({ formulaCells, evaluatedCells, addIn, differences }: RecalculatedReport): string {
  const same =
    differences.length === 0
      ? "all computed values equal the stored ones"
      : `${formatCount(differences.length, "cell")} differ from the stored value`;
  return `Recalculated: ${evaluatedCells} of ${formatCount(formulaCells, "formula cell")}, ${formatCount(addIn.calls, "add-in call")}; ${same}.`;
}

function describeWhatIf(count: number): string {
  return `This is a what-if: ${formatCount(count, "cell")} changed from the values in the file.`;
}

/** The place of "Sheet!B4" or "'A sheet'!B4". */
function placeIn(book: Book, cell: string): NamedCell | undefined {
  const area = parseSheetArea(cell, book.sheets);
  return area && { sheet: area.sheet, row: area.top, column: area.left };
}

/** Returns the place of a cell, for links from lists. */
type Places = (cell: string) => NamedCell | undefined;

/** The workbook's own summary, with its verdict highlighted. */
function writeSummary({ summary }: RecalculatedReport): PagePart {
  const part = { id: "summary", title: "Summary" };
  if ("absent" in summary) return { ...part, html: writeTag("p", {}, `No summary: ${escapeHtml(summary.absent)}.`) };
  const rows = summary.lines.map(({ label, text, unit }) =>
    writeTag(
      "tr",
      { class: /^verdict/i.test(label) ? "verdict" : undefined },
      writeTag("th", { scope: "row" }, escapeHtml(label)) +
        writeTag("td", { class: "num" }, escapeHtml(text)) +
        writeTag("td", {}, escapeHtml(unit)),
    ),
  );
  return {
    ...part,
    html: listTable("The workbook's own summary", ["Quantity", "Value", "Unit"], rows, [false, true]),
  };
}

/** What a reviewer looks at first: cautions, differences, errors at their origin, and what could not be evaluated. */
function writeFindings(report: RecalculatedReport, placeOf: Places): PagePart {
  const { cautions, differences, errors, notEvaluated, cycles, settings } = report;
  const begun = errors.origins.filter(({ kind }) => kind !== "gap");
  const linkCell = (address: string) => writeCellLink(address, placeOf);
  const parts = [
    ...(cautions.length > 0
      ? [writeHeading("Cautions"), writeBullets(cautions.map((caution) => `${escapeHtml(caution)}.`))]
      : []),
    ...(settings ? writeChanges("Set", settings.set, linkCell) : []),
    ...(settings ? writeChanges("Changed by that", settings.changed, linkCell) : []),
    ...(differences.length > 0
      ? [
          writeHeading(`Different from the stored value: ${formatCount(differences.length, "cell")}`),
          listTable(
            "Cells whose formula gives a value different from the stored one",
            ["Cell", "Stored", "Computed", "Why"],
            cut(differences).map(({ address, stored, computed, reason }) =>
              writeRow([
                linkCell(address),
                escapeHtml(formatValue(stored)),
                escapeHtml(formatValue(computed)),
                escapeHtml(reason),
              ]),
            ),
          ),
          writeMore(differences),
        ]
      : []),
    ...(begun.length > 0
      ? [
          writeHeading(`Where errors originate: ${formatCount(begun.length, "cell")}`),
          listTable(
            `Error values at the cells where they originate; ${formatCount(errors.count, "computed cell")} with an error in total`,
            ["Cell", "Value", "Why"],
            cut(begun).map((origin) => writeRow([linkCell(origin.cell), origin.error.code, writeReason(origin)])),
          ),
          writeMore(begun),
        ]
      : []),
    ...(notEvaluated.length > 0 ? writeUnevaluated(notEvaluated, linkCell) : []),
    ...(cycles.length > 0
      ? [writeHeading("Circular references"), writeBullets(cycles.map((cycle) => cycle.map(linkCell).join(" → ")))]
      : []),
  ];
  const clean = writeTag(
    "p",
    {},
    "None: every formula was evaluated and gives the stored value, and there are no errors.",
  );
  return { id: "findings", title: "Findings", html: parts.length === 0 ? clean : parts.join("\n") };
}

const most = 200;
const cut = <Item>(items: readonly Item[]): readonly Item[] => items.slice(0, most);
const writeMore = (items: readonly unknown[]): string =>
  items.length > most ? writeTag("p", {}, `… and ${items.length - most} more, listed by recalc --list.`) : "";

const writeHeading = (text: string) => writeTag("h3", {}, escapeHtml(text));
const writeBullets = (items: readonly string[]) =>
  writeTag("ul", { class: "plain" }, items.map((item) => writeTag("li", {}, item)).join("\n"));

function writeChanges(title: string, given: readonly Change[], cell: (address: string) => string): string[] {
  const rows = cut(given).map((change) => {
    const [before, , after] = writeStep(change);
    return writeRow([cell(change.cell), escapeHtml(shorten(change.label())), escapeHtml(before), escapeHtml(after)]);
  });
  const name = `${title}: ${formatCount(given.length, "cell")}`;
  return [
    writeHeading(name),
    rows.length === 0 ? "" : listTable(name, ["Cell", "What", "Before", "After"], rows),
    writeMore(given),
  ];
}

function writeUnevaluated(given: readonly NotEvaluated[], cell: (address: string) => string): string[] {
  const own = given.filter(({ origin }) => origin === undefined);
  const dependent = given.length - own.length;
  const rest = dependent > 0 ? [writeTag("p", {}, `${formatCount(dependent, "further cell")} depend on these.`)] : [];
  const rows = cut(own).map(({ cell: address, reason }) => writeRow([cell(address), escapeHtml(reason)]));
  return [
    writeHeading(`Not evaluated: ${formatCount(given.length, "cell")}`),
    listTable("Cells that could not be evaluated; they show their stored values", ["Cell", "Why"], rows),
    writeMore(own),
    ...rest,
  ];
}

function writeReason({ error, why, formula, alsoFilled, alike, kind }: ErrorOrigin): string {
  const waiting = kind === "waiting" ? "waiting for input: " : "";
  const filled = alsoFilled > 0 ? `, and ${formatCount(alsoFilled, "more cell")} of its array` : "";
  const also = alike.length > 0 ? `${filled}; the same in ${formatList(alike, 8)}` : filled;
  const told = error.reason === "" ? why : error.reason;
  if (told !== undefined) return escapeHtml(`${waiting}${told}${also}`);
  if (formula === undefined) return escapeHtml(`in the cell itself${also}`);
  return `originates in ${writeTag("code", {}, escapeHtml(toTypedForm(formula)))}${escapeHtml(also)}`;
}

function writeCellLink(address: string, placeOf: Places): string {
  const place = placeOf(address);
  if (!place) return escapeHtml(address);
  return writeTag("a", { href: `#${buildCellId(place.sheet, place.row, place.column)}` }, escapeHtml(address));
}

/** Cells are already HTML; the first one heads its row. */
function writeRow([first = "", ...rest]: readonly string[]): string {
  return writeTag(
    "tr",
    {},
    writeTag("th", { scope: "row" }, first) + rest.map((text) => writeTag("td", {}, text)).join(""),
  );
}

function listTable(
  caption: string,
  heads: readonly string[],
  rows: readonly string[],
  numeric: readonly boolean[] = [],
): string {
  const head = heads.map((text, index) =>
    writeTag("th", { scope: "col", class: numeric[index] ? "num" : undefined }, text),
  );
  const table = writeTag(
    "table",
    { class: "list" },
    writeTag("caption", {}, escapeHtml(caption)) +
      writeTag("thead", {}, writeTag("tr", {}, head.join(""))) +
      writeTag("tbody", {}, rows.join("\n")),
  );
  return writeTag("div", { class: "scroll", tabindex: 0, role: "region", "aria-label": caption }, table);
}

/** A page shows the graphs of one house; with more tests than that, the reader draws the ones of interest. */
const mostGraphs = 12;

/** The air leakage graphs of a workbook's tests; undefined if there are none. */
function drawGraphs(found: TestsInBook): PagePart | undefined {
  const tests = found.tests.filter(({ runs }) => runs.length <= mostLines);
  if (tests.length === 0) return undefined;
  if (tests.length > mostGraphs) {
    const told = `${tests.length} tests can be drawn individually: npm run graph -- FILE --cell CELL`;
    return { id: "graphs", title: "Air leakage graphs", html: writeTag("p", {}, told) };
  }
  const several = tests.length > 1;
  const figures = tests.map((test, index) => {
    const cells = test.runs.map(({ cell }) => cell).join(" and ");
    const title = several ? `Air leakage graph ${index + 1}` : "Air leakage graph";
    const data = describeGraph(test, { title, subtitle: cells });
    const drawing = drawLeakageGraph(data, `graph-${index + 1}`);
    return writeTag(
      "figure",
      { class: "scroll paper", tabindex: 0, role: "region", "aria-label": `${title}, drawing` },
      drawing,
    );
  });
  return { id: "graph", title: several ? "Air leakage graphs" : "Air leakage graph", html: figures.join("\n") };
}
