import { buildCellKey, formatCount, readSummary } from "../../workbook/index";
import type { InputAnswer, Step, TrialAnswer, TypedChange } from "./answers";
import { type Desktop, evaluateDesktop, formatPlace, labelCell, showCell } from "./opened";
import { readTyped, toCellChanges } from "./typed";
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
  const after = evaluateDesktop(desktop, toCellChanges(desktop, readTyped(desktop, typed)));
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
