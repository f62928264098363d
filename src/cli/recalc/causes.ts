import { formatCount, formatList } from "../../workbook/index";
import { alignColumns, indentLines } from "../shared/report-lines";
import type { NotEvaluated, Report } from "./report";

/** Why cells were not evaluated, and what that holds back. */
export interface Cause {
  readonly cause: string;
  /** The cells where the cause lies. */
  readonly cells: readonly string[];
  /** Cells held back in all: those, and the ones that depend on them. A cell with several causes counts for the first it met. */
  readonly heldBack: number;
}

/** The causes in a list of cells, the one that holds back most first; reasons that differ only in what they quote are one cause. */
export function groupByCause(cells: readonly NotEvaluated[]): Cause[] {
  const groups = new Map<string, { cells: string[]; heldBack: number }>();
  for (const { cell, cause, origin } of cells) {
    const group = groups.get(cause) ?? { cells: [], heldBack: 0 };
    groups.set(cause, group);
    group.heldBack += 1;
    if (origin === undefined) group.cells.push(cell);
  }
  const causes = [...groups].map(([cause, group]): Cause => ({ cause, ...group }));
  return causes.sort((one, other) => other.heldBack - one.heldBack || (one.cause < other.cause ? -1 : 1));
}

const mostCells = 4;

/** The causes as lines, with the number of cells that each holds back. */
export function writeCauses(cells: readonly NotEvaluated[]): string[] {
  if (cells.length === 0) return ["Every cell was evaluated."];
  const causes = groupByCause(cells);
  const rows = causes.map(({ cause, cells: own, heldBack }) => {
    const where = own.length > 0 ? `in ${formatList(own, mostCells)}` : "";
    return [String(heldBack), cause, where];
  });
  return [
    `Not evaluated, by cause: ${formatCount(cells.length, "cell")} held back by ${formatCount(causes.length, "cause")}`,
    ...indentLines(alignColumns(rows, [true])),
  ];
}

/** The causes of several workbooks together, with the number of workbooks that each occurs in. */
export function writeCommonCauses(reports: readonly Report[]): string[] {
  const totals = new Map<string, { heldBack: number; workbooks: number }>();
  for (const report of reports) {
    if (report.status === "unreadable") continue;
    for (const { cause, heldBack } of groupByCause(report.notEvaluated)) {
      const total = totals.get(cause) ?? { heldBack: 0, workbooks: 0 };
      totals.set(cause, { heldBack: total.heldBack + heldBack, workbooks: total.workbooks + 1 });
    }
  }
  if (totals.size === 0) return [];
  const rows = [...totals]
    .sort(([, one], [, other]) => other.heldBack - one.heldBack)
    .map(([cause, { heldBack, workbooks }]) => [String(heldBack), formatCount(workbooks, "workbook"), cause]);
  return ["Not evaluated in all workbooks, by cause", ...indentLines(alignColumns(rows, [true, true]))];
}
