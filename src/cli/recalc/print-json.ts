import { type CellErrors, type CellValue, ErrorValue } from "../../workbook/index";
import { type Change, type Copy, exitCodeOf, type RecalculatedReport, type Report } from "./report";

type JsonValue = number | string | boolean | null | { error: string; reason?: string };

/** All reports as one JSON document, in pieces of whole lines; keys keep their names and order from release to release. */
export function jsonOf(reports: readonly Report[], out: string | undefined): Iterable<string> {
  return jsonPieces({ exitCode: exitCodeOf(reports), workbooks: reports.map((report) => workbook(report, out)) });
}

/** Characters of one workbook's texts; a program that reads many more of them at once runs out of memory. */
const mostTexts = 64 * 1024 * 1024;

/** A report as JSON can hold it: one of too many long texts is refused. */
export function fitForJson(report: Report): Report {
  if (report.status === "unreadable") return report;
  const { file, differences, settings } = report;
  const values = [
    ...differences.map(({ stored, computed }) => [stored, computed]),
    ...(settings ? [...settings.set, ...settings.changed] : []).map(({ before, after }) => [before, after]),
  ].flat();
  const length = values.reduce<number>((sum, value) => sum + (typeof value === "string" ? value.length : 0), 0);
  if (length <= mostTexts) return report;
  const problem = `the texts that differ have more than ${mostTexts} characters, too many for --json`;
  return { file, status: "unreadable", problem };
}

function workbook(report: Report, out: string | undefined): object {
  if (report.status === "unreadable") return report;
  const { file, status, formulaCells, evaluatedCells, addIn, cautions, differences, errors } = report;
  const { notEvaluated, cycles, settings } = report;
  return {
    file,
    status,
    formulaCells,
    evaluatedCells,
    addIn,
    ...(report.work && { work: report.work }),
    cautions,
    errors: { cells: errors.count, new: errors.newCount, origins: origins(errors) },
    differences: differences.map(({ address, stored, computed, reason }) => ({
      cell: address,
      stored: jsonValue(stored),
      computed: jsonValue(computed),
      reason,
    })),
    notEvaluated,
    cycles,
    ...(settings ? { set: changes(settings.set), changed: changes(settings.changed) } : {}),
    summary: summary(report),
    ...(report.copy && out !== undefined ? { copy: copy(report.copy, out) } : {}),
  };
}

function origins({ origins: given }: CellErrors): object[] {
  return given.map(({ cell, error, kind, why, alsoFilled, alike }) => ({
    cell,
    ...errorOf(error),
    ...(why !== undefined && { reason: why }),
    kind,
    alsoFilled,
    ...(alike.length > 0 && { alike }),
  }));
}

function copy(given: Copy, file: string): object {
  return "problem" in given ? { file: null, problem: given.problem } : { file, changedCells: given.patches.length };
}

function summary({ summary: given }: RecalculatedReport): object | null {
  if ("absent" in given) return null;
  return given.lines.map(({ label, value, text, unit }) => ({ label, value: jsonValue(value), text, unit }));
}

function changes(given: readonly Change[]): object[] {
  return given.map(({ cell, before, after }) => ({ cell, before: jsonValue(before), after: jsonValue(after) }));
}

function jsonValue(value: CellValue): JsonValue {
  if (!(value instanceof ErrorValue)) return value;
  return errorOf(value);
}

function errorOf({ code, reason }: ErrorValue): { error: string; reason?: string } {
  return reason === "" ? { error: code } : { error: code, reason };
}

const piece = 65_536;

/**
 * What JSON.stringify(value, null, 2) gives, in pieces of whole lines without the last line feed: twenty thousand long texts together are
 * longer than a string can be.
 */
export function* jsonPieces(value: unknown): Generator<string> {
  let lines: string[] = [];
  let length = 0;
  for (const line of linesOf(value, "", "", "")) {
    lines.push(line);
    length += line.length;
    if (length < piece) continue;
    yield lines.join("\n");
    [lines, length] = [[], 0];
  }
  if (lines.length > 0) yield lines.join("\n");
}

function* linesOf(value: unknown, indent: string, before: string, after: string): Generator<string> {
  const isList = Array.isArray(value);
  const entries: [key: string, value: unknown][] =
    typeof value !== "object" || value === null
      ? []
      : isList
        ? value.map((item: unknown) => ["", item])
        : Object.entries(value).flatMap(([key, item]) =>
            item === undefined ? [] : [[`${JSON.stringify(key)}: `, item]],
          );
  if (entries.length === 0) {
    yield `${indent}${before}${JSON.stringify(value)}${after}`;
    return;
  }
  yield `${indent}${before}${isList ? "[" : "{"}`;
  for (const [index, [key, item]] of entries.entries())
    yield* linesOf(item, `${indent}  `, key, index < entries.length - 1 ? "," : "");
  yield `${indent}${isList ? "]" : "}"}${after}`;
}
