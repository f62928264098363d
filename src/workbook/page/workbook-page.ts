import { escapeHtml, writePolicyTag, writeTag } from "../html";
import type { OpenedWorkbook } from "../file/open";
import { readSheetLooks } from "../file/appearance/sheet-appearance";
import type { EvaluateOptions } from "../formula/evaluate";
import type { Evaluation } from "../formula/evaluation";
import { buildCellKey, type CellValue } from "../model";
import { evaluateConditions, type RulesAt } from "./conditions";
import { buildCellId } from "./sheet-cell";
import { PageLength } from "./sheet-table";
import { pageStyles, sheetStyles, StyleSheet } from "./style-sheet";
import { buildSheetAnchor, writeSheetSection, writeSheetTableOf } from "./sheet-section";
import { createSheetViews } from "./sheet-view";

/** A part of the page before the sheets; its content is already HTML. */
export interface PagePart {
  readonly id: string;
  readonly title: string;
  readonly html: string;
}

/** A cell linked from a list. */
export interface NamedCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** An evaluated workbook whose sheets are to be shown. */
export interface ShownWorkbook {
  readonly opened: OpenedWorkbook;
  readonly evaluation: Evaluation;
  readonly evaluateOptions: EvaluateOptions;
  /** Values put into cells before the evaluation. */
  readonly set: readonly (NamedCell & { readonly value: CellValue })[];
}

export interface PageContent extends ShownWorkbook {
  readonly title: string;
  /** Sentences below the title. */
  readonly lead: readonly string[];
  readonly parts: readonly PagePart[];
  readonly namedCells: readonly NamedCell[];
  readonly footer: string;
}

/**
 * A workbook as one self-contained page: parts of a report, then every sheet as a table that looks like it. No script, no inline styles, nothing loaded;
 * the page's policy admits only its one style sheet.
 */
export function writeWorkbookPage(content: PageContent): string {
  const { title } = content;
  const { views, conditions } = prepareViews(content);
  const styles = new StyleSheet();
  const hasGraph = content.parts.some(({ id }) => id === "graph");
  const length = new PageLength();
  const named = new Set(content.namedCells.map(({ sheet, row, column }) => buildCellId(sheet, row, column)));
  const sheets = views.map((view) => writeSheetSection(view, views, styles, { named, hasGraph, length }));
  const css = `${pageStyles}\n${styles.writeCss()}`;
  const unknown =
    conditions.unknown > 0
      ? [`${conditions.unknown} conditional formats could not be evaluated and are not shown.`]
      : [];
  const parts = content.parts.map(({ id, title }) => writeNavItem(id, title, ""));
  const index = views.map((view) => {
    const mark = view.sheet.visibility === "visible" ? "" : " (hidden)";
    return writeNavItem(buildSheetAnchor(view), view.sheet.name, mark);
  });
  return [
    "<!doctype html>",
    '<html lang="en">',
    "<head>",
    writeTag("meta", { charset: "utf-8" }),
    writePolicyTag(css),
    writeTag("meta", { name: "viewport", content: "width=device-width, initial-scale=1" }),
    writeTag("title", {}, escapeHtml(title)),
    `<style>${css}</style>`,
    "</head>",
    "<body>",
    writeTag("a", { class: "skip", href: "#main" }, "Skip to the result"),
    writeTag("a", { class: "skip", href: "#sheets" }, "Skip to the sheets"),
    writeTag(
      "header",
      {},
      [
        writeTag("h1", {}, escapeHtml(title)),
        ...[...content.lead, ...unknown].map((line) => writeTag("p", {}, escapeHtml(line))),
      ].join("\n"),
    ),
    writeTag("nav", { "aria-label": "This page" }, writeTag("ul", {}, parts.join("\n"))),
    writeTag("nav", { "aria-label": "Sheets" }, writeTag("ul", {}, index.join("\n"))),
    writeTag(
      "main",
      { id: "main" },
      [...content.parts.map(partHtml), writeTag("div", { id: "sheets" }, [key, ...sheets].join("\n"))].join("\n"),
    ),
    writeTag("footer", { class: "soft" }, writeTag("p", {}, escapeHtml(content.footer))),
    "</body>",
    "</html>",
    "",
  ].join("\n");
}

/** The views of all sheets with their conditional formats, which need the extents of the sheets. */
function prepareViews({ opened, evaluation, evaluateOptions, set: given }: ShownWorkbook) {
  const { book } = opened;
  const looks = readSheetLooks(opened);
  const set = new Map(given.map(({ sheet, row, column, value }) => [`${sheet} ${buildCellKey(row, column)}`, value]));
  let rulesAt: RulesAt = () => [];
  const views = createSheetViews({ book, looks, evaluation, set }, () => rulesAt);
  const conditions = evaluateConditions(
    book,
    looks,
    (sheet) => {
      const extent = views.find(({ index }) => index === sheet)?.extent;
      return { row: extent?.rows.at(-1) ?? -1, column: extent?.columns.at(-1) ?? -1 };
    },
    evaluateOptions,
  );
  rulesAt = conditions.rulesAt;
  return { views, conditions };
}

/** Sheets written one by one when asked for, each with the style sheet for it; every cell has its id. */
export function prepareSheets(shown: ShownWorkbook): {
  write(index: number): { readonly name: string; readonly html: string; readonly css: string };
} {
  const { views } = prepareViews(shown);
  const everyCell = { has: () => true };
  return {
    write(index) {
      const view = views.find((one) => one.index === index);
      if (!view) return { name: "", html: "", css: "" };
      const styles = new StyleSheet();
      const html = writeSheetTableOf(view, views, styles, { named: everyCell, length: new PageLength() });
      return { name: view.sheet.name, html, css: `${sheetStyles}\n${styles.writeCss()}` };
    },
  };
}

function writeNavItem(anchor: string, text: string, mark: string): string {
  return writeTag("li", {}, writeTag("a", { href: `#${anchor}` }, escapeHtml(text)) + mark);
}

function partHtml({ id, title, html }: PagePart): string {
  const heading = writeTag("h2", { id: `${id}-title` }, escapeHtml(title));
  return writeTag("section", { id, "aria-labelledby": `${id}-title` }, `${heading}\n${html}`);
}

const writeKeyItem = (classes: string, sign: string, words: string) =>
  writeTag("li", {}, writeTag("span", { class: `box ${classes}`, "aria-hidden": "true" }, sign) + words);

/** The meaning of the marks in the sheets. */
const key =
  writeTag("h2", { id: "sheets-title" }, "Sheets") +
  writeTag("p", { class: "soft" }, "Point at a cell for its formula; all formulas are listed below each sheet.") +
  writeTag(
    "ul",
    { class: "key" },
    writeKeyItem("in", "", "input: corner on the left") +
      writeKeyItem("addin", "", "computed by the add-in: corner on the right") +
      writeKeyItem("err", "#N/A", "an error: wavy line") +
      writeKeyItem("old", "12.3", "not evaluated, stored value shown: dotted line"),
  );
