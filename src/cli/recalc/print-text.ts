import type { Change, NotEvaluated, RecalculatedReport, Report } from "./report";
import type { Summary } from "./summary";
import { counted, inColumns, listed, shownValue } from "./words";

/** Long lists are cut in text; --json gives them whole. */
const mostLines = 40;
const mostCells = 8;

/** A workbook's report as lines of text. */
export function textOf(report: RecalculatedReport): string[] {
  return [
    report.file,
    ...indented([
      countsOf(report),
      ...report.cautions.map((caution) => `Caution: ${caution}.`),
      ...settingsOf(report),
      ...differencesOf(report),
      ...notEvaluatedOf(report.notEvaluated),
      ...cyclesOf(report),
      ...summaryLines(report.summary),
    ]),
  ];
}

/** One line over several workbooks. */
export function totalsOf(reports: readonly Report[]): string {
  const count = (status: Report["status"]): number => reports.filter((report) => report.status === status).length;
  return (
    `${counted(reports.length, "workbook")}: ${count("equal")} equal, ${count("different")} with differences, ` +
    `${count("incomplete")} not fully evaluated, ${count("unreadable")} unreadable`
  );
}

function countsOf({ formulaCells, evaluatedCells, addIn }: RecalculatedReport): string {
  if (formulaCells === 0) return "There are no formula cells.";
  const calls =
    addIn.calls > 0
      ? `${counted(addIn.calls, "add-in call")} in ${counted(addIn.cells, "cell")}, at most ${addIn.depth} deep`
      : "no add-in calls";
  return `Evaluated ${evaluatedCells} of ${counted(formulaCells, "formula cell")} (${calls}).`;
}

function settingsOf({ settings }: RecalculatedReport): string[] {
  if (!settings) return [];
  const changed =
    settings.changed.length === 0
      ? "Changed by --set: no computed cell"
      : `Changed by --set: ${counted(settings.changed.length, "computed cell")}`;
  return ["Set:", ...indented(changeLines(settings.set)), changed, ...indented(cut(changeLines(settings.changed)))];
}

function changeLines(changes: readonly Change[]): string[] {
  return inColumns(
    changes.map(({ cell, before, after }) => [cell, shownValue(before), "→", shownValue(after)]),
    [false, true],
  );
}

function differencesOf({ differences, evaluatedCells, settings }: RecalculatedReport): string[] {
  const before = settings ? " before anything was set" : "";
  if (differences.length === 0) {
    return evaluatedCells === 0 ? [] : [`All computed values equal the stored ones${before}.`];
  }
  const rows = differences.map(({ address, stored, computed, reason }) => [
    address,
    `stored ${shownValue(stored)}`,
    `computed ${shownValue(computed)}`,
    reason,
  ]);
  return [
    `Different from the stored value${before}: ${counted(differences.length, "cell")}`,
    ...indented(cut(inColumns(rows))),
  ];
}

/** Grouped by reason: the cells where the trouble is, then those that only depend on them. */
function notEvaluatedOf(cells: readonly NotEvaluated[]): string[] {
  if (cells.length === 0) return [];
  const groups = new Map<string, { own: string[]; dependent: string[] }>();
  for (const { cell, reason, origin } of cells) {
    const group = groups.get(reason) ?? { own: [], dependent: [] };
    groups.set(reason, group);
    (origin === undefined ? group.own : group.dependent).push(cell);
  }
  const lines = [...groups].flatMap(([reason, { own, dependent }]) => {
    const head =
      own.length > 0 ? [`${reason}: ${counted(own.length, "cell")} (${listed(own, mostCells)})`] : [`${reason}:`];
    if (dependent.length === 0) return head;
    const verb = dependent.length === 1 ? "depends" : "depend";
    return [...head, `  ${counted(dependent.length, "cell")} ${verb} on that (${listed(dependent, mostCells)})`];
  });
  const formulas = cells.filter(({ role }) => role === "formula").length;
  const filled = cells.length - formulas;
  const also = filled > 0 ? ` and ${counted(filled, "cell")} that their arrays fill` : "";
  return [`Not evaluated: ${counted(formulas, "formula cell")}${also}`, ...indented(lines)];
}

function cyclesOf({ cycles }: RecalculatedReport): string[] {
  if (cycles.length === 0) return [];
  const lines = cycles.map((cycle) => {
    const shown = cycle.length > 12 ? [...cycle.slice(0, 11), `(${cycle.length - 11} more)`] : [...cycle];
    return [...shown, cycle[0] ?? ""].join(" → ");
  });
  return [`Circular references: ${cycles.length}`, ...indented(cut(lines))];
}

function summaryLines(summary: Summary): string[] {
  if ("absent" in summary) return [`No summary: ${summary.absent}.`];
  const rows = summary.lines.map(({ label, text, unit }) => [label, text, unit]);
  return ["Summary", ...indented(inColumns(rows, [false, true]))];
}

function cut(lines: readonly string[]): string[] {
  const rest = lines.length - mostLines;
  return rest > 0 ? [...lines.slice(0, mostLines), `and ${rest} more (--json lists all)`] : [...lines];
}

function indented(lines: readonly string[]): string[] {
  return lines.map((line) => `  ${line}`);
}
