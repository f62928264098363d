import { explainWords } from "../../functions/choices";
import {
  buildCellKey,
  evaluateBook,
  formatFullAddress,
  openWorkbook,
  readInputs,
  readLabels,
  shorten,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { alignColumns, formatValue, indentLines } from "../shared/words";
import { readSetting } from "./read-setting";
import { describeTaken, locateSettings } from "./set-cells";

/** Whether a --set asks what a cell takes: 'Criteria!standard=?'. The text "?" itself is set in double quotes. */
export const isQuestion = (typed: string): boolean => /=\s*\?\s*$/.test(typed);

/** What the cells take: what they are called, what they hold, and the words or bounds of their validation. */
export function answerQuestions(bytes: Uint8Array, questions: readonly string[]): string[] {
  const opened = openWorkbook(bytes);
  const { book } = opened;
  const inputs = readInputs(opened);
  const labels = readLabels(book, evaluateBook(book, { addIn: addInRegistry() }));
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
