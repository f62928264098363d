import {
  type CellErrors,
  formatCount,
  type ErrorOrigin,
  describeFaults,
  formatList,
  shorten,
  type Summary,
} from "../../workbook/index";
import {
  cutList,
  alignColumns,
  describeRest,
  indentLines,
  mostLines,
  shortenFormula,
  formatValue,
} from "../shared/report-lines";
import { writeCauses } from "./causes";
import type { Change, NotEvaluated, RecalculatedReport, Report } from "./report";

const mostCells = 8;

/** A workbook's report as lines of text; long lists are cut unless all are requested. */
export function writeText(
  report: RecalculatedReport,
  { list: all, explain }: { readonly list: boolean; readonly explain: boolean },
): string[] {
  const cut = (lines: readonly string[]): string[] => (all ? [...lines] : cutList(lines));
  return [
    report.file,
    ...indentLines([
      writeCounts(report),
      ...writeWork(report),
      ...report.cautions.map((caution) => `Caution: ${caution}.`),
      ...setOf(report),
      ...(report.settings ? writeSummary(report.summary, report.settings.summary) : []),
      ...writeErrors(report.errors, cut),
      ...writeChanged(report, all),
      ...(report.copy && !all ? writeRecalculated(report) : writeDifferences(report, cut)),
      ...(explain ? writeCauses(report.notEvaluated) : writeNotEvaluated(report.notEvaluated)),
      ...writeCycles(report, cut),
      ...(report.settings ? [] : writeSummary(report.summary)),
    ]),
  ];
}

/** One line over several workbooks. */
export function writeTotals(reports: readonly Report[]): string {
  const count = (status: Report["status"]): number => reports.filter((report) => report.status === status).length;
  const faults = reports.filter((report) => report.status === "unreadable" && report.fault).length;
  return (
    `${formatCount(reports.length, "workbook")}: ${count("equal")} equal, ${count("different")} with differences, ` +
    `${count("incomplete")} not fully evaluated, ${count("unreadable")} unreadable${describeFaults(faults)}`
  );
}

function writeCounts({ formulaCells, evaluatedCells, addIn }: RecalculatedReport): string {
  if (formulaCells === 0) return "There are no formula cells.";
  const calls =
    addIn.calls > 0
      ? `${formatCount(addIn.calls, "add-in call")} in ${formatCount(addIn.cells, "cell")}, at most ${addIn.depth} deep`
      : "no add-in calls";
  return `Evaluated ${evaluatedCells} of ${formatCount(formulaCells, "formula cell")} (${calls}).`;
}

/** Notice that cells were abandoned for taking too much, and what to do about it. */
function writeWork({ work }: RecalculatedReport): string[] {
  if (!work) return [];
  const { steps, bytes } = work.limits;
  const limits = `${Math.round(steps / 1e6)} million steps and ${Math.round(bytes / 1e6)} MB`;
  return [`Caution: the calculation exceeds the limit of ${limits} per workbook (--work 10 allows ten times that).`];
}

function setOf({ settings }: RecalculatedReport): string[] {
  return settings ? ["Set:", ...indentLines(changeLines(settings.set))] : [];
}

type Cut = (lines: readonly string[]) => string[];

function writeChanged({ settings }: RecalculatedReport, all: boolean): string[] {
  if (!settings) return [];
  const changed =
    settings.changed.length === 0
      ? "Changed by --set: no computed cell"
      : `Changed by --set: ${formatCount(settings.changed.length, "computed cell")}`;
  const shown = all ? settings.changed : settings.changed.slice(0, mostLines);
  const rest = settings.changed.length - shown.length;
  return [changed, ...indentLines([...changeLines(shown), ...(rest > 0 ? [describeRest(rest)] : [])])];
}

/** The words of a label beside its cell; longer ones are cut. */
const longestLabel = 48;

function changeLines(changes: readonly Change[]): string[] {
  return alignColumns(
    changes.map((change) => [change.cell, shorten(change.label(), longestLabel), ...writeStep(change)]),
    [false, false, true],
  );
}

/** Values before and after to five digits, or to as many as tell them apart. */
export function writeStep(change: Change): readonly [before: string, arrow: string, after: string] {
  const { before, after } = change;
  const write = (digits: number) =>
    [before, after].map((value) => change.formatDate(value) || formatValue(value, digits)) as [string, string];
  let [one, other] = write(5);
  for (let digits = 6; digits <= 15 && one === other; digits += 1) [one, other] = write(digits);
  return [one, "→", other];
}

/** With a copy, old results are expected to be replaced: they are counted, not reported as faults. */
function writeRecalculated({ differences, errors, settings, copy }: RecalculatedReport): string[] {
  const count = copy && "patches" in copy ? copy.patches.length - (settings?.set.length ?? 0) : differences.length;
  const fresh = errors.newCount > 0 && errors.newCount < errors.count ? `, ${errors.newCount} of them new` : "";
  const more = count > 0 ? " (--list shows them)" : "";
  return [`${formatCount(count, "cell")} recalculated, ${formatCount(errors.count, "error")}${fresh}${more}.`];
}

function writeDifferences({ differences, evaluatedCells, settings }: RecalculatedReport, cut: Cut): string[] {
  const before = settings ? " before anything was set" : "";
  if (differences.length === 0) {
    return evaluatedCells === 0 ? [] : [`All computed values equal the stored ones${before}.`];
  }
  const rows = differences.map(({ address, stored, computed, reason }) => [
    address,
    `stored ${formatValue(stored)}`,
    `computed ${formatValue(computed)}`,
    reason,
  ]);
  return [
    `Different from the stored value${before}: ${formatCount(differences.length, "cell")}`,
    ...indentLines(cut(alignColumns(rows))),
  ];
}

/** Grouped by reason: the cells at fault, then those that only depend on them. */
function writeNotEvaluated(cells: readonly NotEvaluated[]): string[] {
  if (cells.length === 0) return [];
  const groups = new Map<string, { own: string[]; dependent: string[] }>();
  for (const { cell, reason, origin } of cells) {
    const group = groups.get(reason) ?? { own: [], dependent: [] };
    groups.set(reason, group);
    (origin === undefined ? group.own : group.dependent).push(cell);
  }
  const lines = [...groups].flatMap(([reason, { own, dependent }]) => {
    const head =
      own.length > 0
        ? [`${reason}: ${formatCount(own.length, "cell")} (${formatList(own, mostCells)})`]
        : [`${reason}:`];
    if (dependent.length === 0) return head;
    const verb = dependent.length === 1 ? "depends" : "depend";
    return [
      ...head,
      `  ${formatCount(dependent.length, "cell")} ${verb} on that (${formatList(dependent, mostCells)})`,
    ];
  });
  const formulas = cells.filter(({ role }) => role === "formula").length;
  const filled = cells.length - formulas;
  const also = filled > 0 ? ` and ${formatCount(filled, "cell")} filled by their arrays` : "";
  return [`Not evaluated: ${formatCount(formulas, "formula cell")}${also}`, ...indentLines(lines)];
}

function writeCycles({ cycles }: RecalculatedReport, cut: Cut): string[] {
  if (cycles.length === 0) return [];
  const lines = cycles.map((cycle) => {
    const shown = cycle.length > 12 ? [...cycle.slice(0, 11), `(${cycle.length - 11} more)`] : [...cycle];
    return [...shown, cycle[0] ?? ""].join(" → ");
  });
  return [`Circular references: ${cycles.length}`, ...indentLines(cut(lines))];
}

/** The lines of the summary, with what they were before something was set, where that differs. */
function writeSummary(summary: Summary, earlier?: Summary): string[] {
  if ("absent" in summary) return [`No summary: ${summary.absent}.`];
  const rows = summary.lines.map(({ label, text, unit }, index) => {
    const before = earlier && "lines" in earlier ? (earlier.lines[index]?.text ?? text) : text;
    const step = earlier ? (before === text ? ["", ""] : [before, "→"]) : [];
    return [label, ...step, text, unit].map((part) => shorten(part));
  });
  const right = earlier ? [false, true, false, true] : [false, true];
  return [earlier ? "Summary, before → after" : "Summary", ...indentLines(alignColumns(rows, right))];
}

/** The cells where errors originate, one per line; deliberate NA() gaps only if they are new or other cells fail. */
function writeErrors({ origins, count, newGaps }: CellErrors, cut: (lines: readonly string[]) => string[]): string[] {
  const begun = origins.filter(({ kind }) => kind !== "gap");
  const gaps = origins.filter(({ kind }) => kind === "gap").map(({ cell }) => cell);
  if (begun.length === 0 && count === 0 && newGaps === 0) return [];
  const lines = cut(begun.map(writeOrigin));
  if (gaps.length > 0)
    lines.push(`Deliberate #N/A, from NA() in a formula: ${formatCount(gaps.length, "cell")} (${formatList(gaps, 4)})`);
  return [
    `Where errors originate: ${formatCount(begun.length, "cell")}; ${formatCount(count, "computed cell")} with an error in total`,
    ...indentLines(lines),
  ];
}

function writeOrigin({ cell, error: { code, reason }, kind, why, formula, alsoFilled, alike }: ErrorOrigin): string {
  const filled = alsoFilled > 0 ? `, and ${formatCount(alsoFilled, "more cell")} of its array` : "";
  const also = alike.length > 0 ? `${filled}; the same in ${formatList(alike, 4)}` : filled;
  const told = reason === "" ? why : reason;
  if (told !== undefined && kind === "waiting") return `${cell}: waiting for input: ${told}${also}`;
  if (told !== undefined) return `${cell}: ${reason === "" ? `${code}, because ` : ""}${told}${also}`;
  return formula === undefined
    ? `${cell}: ${code} is in the cell itself${also}`
    : `${cell}: ${code} originates in ${shortenFormula(formula)}${also}`;
}
