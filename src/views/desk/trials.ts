import {
  type Book,
  buildCellKey,
  type CellChange,
  type CellValue,
  formatCount,
  readSummary,
} from "../../workbook/index";
import type { InputAnswer, Step, TrialAnswer, TypedChange } from "./answers";
import { type Desktop, evaluateDesktop, formatPlace, labelCell, showCell } from "./opened";
import { compareVerdicts } from "./verdicts";

/** The cells of a workbook to type into, filled or not, in the order of its sheets. */
export function listInputs(desktop: Desktop): InputAnswer[] {
  const { book, inputs } = desktop;
  return book.sheets.flatMap(({ cells, visibility }, sheet) =>
    visibility !== "visible"
      ? []
      : [...cells.values()].flatMap(({ row, column, value, formula }): InputAnswer[] => {
          if (formula || value === null || !inputs.isInput(sheet, row, column)) return [];
          const place = { sheet, row, column };
          const { label, unit } = labelCell(desktop, place);
          const shown = showCell(desktop, place);
          const choices = inputs
            .rulesOf(sheet, row, column)
            .flatMap((rule) => (rule.kind === "list" ? rule.items : []));
          return [{ ...place, address: formatPlace(desktop, place), label, unit, shown, choices }];
        }),
  );
}

/** What the workbook would say with other values typed in; nothing is saved. */
export function tryOut(desktop: Desktop, typed: readonly TypedChange[]): TrialAnswer {
  const changes = typed.map((change) => toCellChange(desktop.book, change));
  const after = evaluateDesktop(desktop, changes);
  const changed = after.evaluation.cells.filter(({ sheet, row, column, outcome }) => {
    const before = desktop.evaluation.outcome(sheet, row, column);
    return outcome.evaluated && before?.evaluated === true && outcome.value !== before.value;
  }).length;
  const unknown = after.evaluation.cells.filter(({ outcome }) => !outcome.evaluated).length;
  return {
    summary: compareSummaries(desktop, after),
    verdicts: compareVerdicts(desktop, after),
    changed,
    cautions: unknown > 0 ? [`${formatCount(unknown, "cell")} could not be evaluated.`] : [],
  };
}

export function toCellChange(book: Book, { sheet, row, column, text }: TypedChange): CellChange {
  return {
    sheet: book.sheets[sheet]?.name ?? "",
    row,
    column,
    value: readTyped(text, readStored(book, sheet, row, column)),
  };
}

const readStored = (book: Book, sheet: number, row: number, column: number): CellValue =>
  book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;

/** A number may have a decimal point or a decimal comma; where the cell holds a text, a text is meant. */
function readTyped(text: string, stored: CellValue): CellValue {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (typeof stored === "string") return trimmed;
  const plain = trimmed.replace(/[\s\u00a0\u202f]/g, "").replace(/[−–]/g, "-");
  const [figure = ""] = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?%?$/i.exec(plain) ?? [];
  if (figure === "") return trimmed;
  const value = Number(figure.replace(",", ".").replace("%", ""));
  return figure.endsWith("%") ? value / 100 : value;
}

function compareSummaries(before: Desktop, after: Desktop): (Step & { readonly unit: string })[] {
  const [earlier, later] = [before, after].map((desktop) => readSummaryOf(desktop));
  return (earlier ?? []).map(({ label, text, unit }, index) => ({
    address: "",
    label,
    unit,
    before: text,
    after: later?.[index]?.text ?? "",
  }));
}

export function readSummaryOf({ book, view }: Desktop): readonly { label: string; text: string; unit: string }[] {
  const summary = readSummary(book, (sheet, row, column) => {
    const format = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.format ?? "General";
    return { value: view.readValue({ sheet, row, column }), format };
  });
  return "lines" in summary ? summary.lines.map(({ label, text, unit }) => ({ label, text, unit })) : [];
}
