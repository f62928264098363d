import { type CellErrors, type CellValue, ErrorValue } from "../../workbook/index";
import { groupByCause } from "./causes";
import { type Change, type Copy, chooseExitCode, type RecalculatedReport, type Report } from "./report";

type JsonValue = number | string | boolean | null | { error: string; reason?: string };

interface JsonOptions {
  /** The copy's file, where one was asked for. */
  readonly out?: string | undefined;
  readonly explain: boolean;
}

/** All reports as one JSON document, in chunks of whole lines; keys keep their names and order between releases. */
export function writeJson(reports: readonly Report[], options: JsonOptions): Iterable<string> {
  return writeJsonPieces({
    exitCode: chooseExitCode(reports),
    workbooks: reports.map((report) => convertWorkbook(report, options)),
  });
}

/** Characters of one workbook's texts; a program reading many more at once would run out of memory. */
const mostTexts = 64 * 1024 * 1024;

/** A report in a form JSON can hold; too many long texts are refused. */
export function fitForJson(report: Report): Report {
  if (report.status === "unreadable") return report;
  const { file, differences, settings } = report;
  const values = [
    ...differences.map(({ stored, computed }) => [stored, computed]),
    ...(settings ? [...settings.set, ...settings.changed] : []).map(({ before, after }) => [before, after]),
  ].flat();
  const length = values.reduce<number>((sum, value) => sum + (typeof value === "string" ? value.length : 0), 0);
  if (length <= mostTexts) return report;
  const problem = `the differing texts exceed ${mostTexts} characters, too many for --json`;
  return { file, status: "unreadable", problem };
}

function convertWorkbook(report: Report, { out, explain }: JsonOptions): object {
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
    errors: { cells: errors.count, new: errors.newCount, origins: convertOrigins(errors) },
    differences: differences.map(({ address, stored, computed, reason }) => ({
      cell: address,
      stored: convertValue(stored),
      computed: convertValue(computed),
      reason,
    })),
    notEvaluated,
    ...(explain && { causes: groupByCause(notEvaluated) }),
    cycles,
    ...(settings ? { set: convertChanges(settings.set), changed: convertChanges(settings.changed) } : {}),
    summary: convertSummary(report),
    ...(report.copy && out !== undefined ? { copy: copy(report.copy, out) } : {}),
  };
}

function convertOrigins({ origins: given }: CellErrors): object[] {
  return given.map(({ cell, error, kind, why, alsoFilled, alike }) => ({
    cell,
    ...convertError(error),
    ...(why !== undefined && { reason: why }),
    kind,
    alsoFilled,
    ...(alike.length > 0 && { alike }),
  }));
}

function copy(given: Copy, file: string): object {
  return "problem" in given ? { file: null, problem: given.problem } : { file, changedCells: given.patches.length };
}

function convertSummary({ summary: given }: RecalculatedReport): object | null {
  if ("absent" in given) return null;
  return given.lines.map(({ label, value, text, unit }) => ({ label, value: convertValue(value), text, unit }));
}

function convertChanges(given: readonly Change[]): object[] {
  return given.map(({ cell, before, after }) => ({ cell, before: convertValue(before), after: convertValue(after) }));
}

function convertValue(value: CellValue): JsonValue {
  if (!(value instanceof ErrorValue)) return value;
  return convertError(value);
}

function convertError({ code, reason }: ErrorValue): { error: string; reason?: string } {
  return reason === "" ? { error: code } : { error: code, reason };
}

const piece = 65_536;

/**
 * What JSON.stringify(value, null, 2) gives, in chunks of whole lines without the last line feed: twenty thousand long texts together
 * exceed the longest possible string.
 */
export function* writeJsonPieces(value: unknown): Generator<string> {
  let lines: string[] = [];
  let length = 0;
  for (const line of writeLines(value, "", "", "")) {
    lines.push(line);
    length += line.length;
    if (length < piece) continue;
    yield lines.join("\n");
    [lines, length] = [[], 0];
  }
  if (lines.length > 0) yield lines.join("\n");
}

function* writeLines(value: unknown, indent: string, before: string, after: string): Generator<string> {
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
    yield* writeLines(item, `${indent}  `, key, index < entries.length - 1 ? "," : "");
  yield `${indent}${isList ? "]" : "}"}${after}`;
}
