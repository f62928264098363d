import { explainWords } from "../../functions/choices";
import {
  buildCellKey,
  evaluateBook,
  formatFullAddress,
  formatList,
  openWorkbook,
  readInputs,
  readLabels,
  sentence,
  shorten,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { BadArgument } from "../shared/parse-options";
import { alignColumns, formatValue, indentLines, mostLines } from "../shared/report-lines";
import { readSetting } from "./read-setting";
import { describeTaken, locateSettings } from "./set-cells";

/** Whether a --set asks what a cell takes: 'Criteria!standard=?'. The text "?" itself is set in double quotes. */
export const isQuestion = (typed: string): boolean => /=\s*\?\s*$/.test(typed);

/** Whether a --set asks which cells can be set: '?', or 'Rooms!?' for those of one sheet. */
export const asksForInputs = (typed: string): boolean => /^(.+!)?\?$/.test(typed.trim());

/** The inputs that can be named in --set, by sheet: the cell, its label, what it holds. */
export function listInputs(bytes: Uint8Array, typed: string, all: boolean): string[] {
  const opened = openWorkbook(bytes);
  const { book } = opened;
  const inputs = readInputs(opened);
  const labels = readLabels(book, evaluateBook(book, { addIn: addInRegistry() }), inputs.isInput);
  const wanted = /^'?(.+?)'?!/.exec(typed.trim())?.[1]?.toLowerCase();
  if (wanted !== undefined && !book.sheets.some(({ name }) => name.toLowerCase() === wanted)) {
    const names = formatList(
      book.sheets.map(({ name }) => shorten(name)),
      12,
    );
    throw new BadArgument(sentence`--set "${typed}": there is no such sheet; the workbook has ${names}`);
  }
  const rows = book.sheets.flatMap(({ name, cells }, sheet) => {
    if (wanted !== undefined && name.toLowerCase() !== wanted) return [];
    return [...cells.values()]
      .filter(({ value, formula, row, column }) => value !== null && !formula && inputs.isInput(sheet, row, column))
      .map(({ row, column, value }) => {
        const { text, unit } = labels.describeAt(sheet, row, column);
        return [formatFullAddress(name, row, column), shorten(text), formatValue(value, 5), unit];
      });
  });
  if (rows.length === 0) return ["No cell that is filled in can be set."];
  const rest = all ? 0 : rows.length - mostLines;
  if (rest <= 0) return alignColumns(rows);
  return [
    ...alignColumns(rows.slice(0, mostLines)),
    `… and ${rest} more (--list shows all, --set 'Sheet!?' those of one sheet)`,
  ];
}

/** What the cells take: what they are called, what they hold, and the words or bounds of their validation. */
export function answerQuestions(bytes: Uint8Array, questions: readonly string[]): string[] {
  const opened = openWorkbook(bytes);
  const { book } = opened;
  const inputs = readInputs(opened);
  const labels = readLabels(book, evaluateBook(book, { addIn: addInRegistry() }), inputs.isInput);
  const asked = locateSettings(book, questions.map(readSetting), false, labels, inputs.isInput);
  return asked.flatMap(({ sheet, row, column }) => {
    const { text, unit } = labels.describeAt(sheet, row, column);
    const name = [text, unit].filter((part) => part !== "").join(", ");
    const value = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;
    const rules = inputs.rulesOf(sheet, row, column);
    const taken = rules.map((rule) => describeTaken(rule)).join("; ") || "any value: the cell has no validation";
    const items = rules.flatMap((rule) => (rule.kind === "list" ? (explainWords(rule.items) ?? []) : []));
    return [
      `${formatFullAddress(book.sheets[sheet]?.name ?? "", row, column)}${name === "" ? "" : ` (${shorten(name)})`} holds ${formatValue(value)}; it takes ${taken}.`,
      ...indentLines(alignColumns(items.map(({ word, meaning }) => [word, meaning]))),
    ];
  });
}
