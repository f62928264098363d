import { resolve } from "node:path";
import { usualLimits, WorkbookProblem } from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import type { Output } from "../shared/output";
import { readArguments, usage, type Arguments } from "./arguments";
import { BadArgument } from "../shared/bad-argument";
import { findWorkbooks } from "../shared/find-files";
import { pageOf } from "./page";
import { jsonOf } from "./print-json";
import { textOf, totalsOf } from "./print-text";
import { Progress } from "../shared/progress";
import { readWorkbookFile } from "../shared/read-file";
import { recalculate } from "./recalculate";
import { exitCodeOf, type RecalculatedReport, type Report } from "./report";
import { readSetting } from "./set-text";
import { counted } from "../shared/words";
import { checkTarget, writeWhole } from "../shared/write-file";

/** Runs the command and gives its exit code; progress goes to stderr. */
export function recalcCommand(given: readonly string[], output: Output): 0 | 1 | 2 {
  const progress = new Progress();
  try {
    const options = readArguments(given);
    if (options.help) {
      output.print(usage);
      return 0;
    }
    return run(options, progress, output);
  } catch (problem) {
    if (!(problem instanceof BadArgument)) throw problem;
    progress.clear();
    output.complain(`recalc: ${problem.message}`);
    return 2;
  }
}

function run(options: Arguments, progress: Progress, output: Output): 0 | 1 | 2 {
  const settings = options.set.map(readSetting);
  const files = findWorkbooks(options.paths);
  const [first = ""] = files;
  if (files.length > 1 && settings.length > 0) throw new BadArgument("--set works on one workbook at a time");
  if (options.out !== undefined) {
    if (files.length > 1) throw new BadArgument("--out works on one workbook at a time");
    checkTarget(options.out, first, options.overwrite);
  }
  if (options.html !== undefined) {
    if (files.length > 1) throw new BadArgument("--html works on one workbook at a time");
    checkTarget(options.html, first, options.overwrite, "--html");
    if (options.out !== undefined && resolve(options.out) === resolve(options.html))
      throw new BadArgument("--out and --html name the same file");
  }
  const recalculateOptions = {
    addIn: addInRegistry(),
    blankAsZero: options.blankAsZero,
    limits: { steps: options.work * usualLimits.steps, bytes: options.work * usualLimits.bytes },
    overFormulas: options.overFormulas,
    settings,
    copy: options.out !== undefined,
    keepOldValues: options.keepOldValues,
    page: options.html !== undefined,
  };
  const reports: Report[] = [];
  for (const [index, file] of files.entries()) {
    const position = files.length > 1 ? `${index + 1}/${files.length} ` : "";
    const step = (text: string, long: boolean): void => progress.step(`recalc: ${position}${text}`, long);
    const report = reportOn(file, () => {
      const { made, ...done } = recalculate(file, readWorkbookFile(file), { ...recalculateOptions, step });
      if (made && options.html !== undefined) {
        step(`${file}: writing the page`, false);
        writeWhole(options.html, new TextEncoder().encode(pageOf(done, made)), "--html");
      }
      return done;
    });
    reports.push(report);
    progress.clear();
    if (!options.json) print(report, options.list, output);
    if (options.out !== undefined && report.status !== "unreadable")
      finishCopy(options.out, report, options.json, output);
    if (options.html !== undefined && report.status !== "unreadable" && !options.json)
      output.print(`  Page written to ${options.html}.`);
  }
  if (options.json) output.print(jsonOf(reports, options.out));
  else if (files.length > 1) output.print(`\n${totalsOf(reports)}`);
  return exitCodeOf(reports);
}

function reportOn(file: string, work: () => Report): Report {
  try {
    return work();
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return { file, status: "unreadable", problem: problem.message };
    throw problem;
  }
}

function print(report: Report, list: boolean, output: Output): void {
  if (report.status === "unreadable") output.complain(`recalc: ${report.file}: ${report.problem}`);
  else output.print(textOf(report, list).join("\n"));
}

function finishCopy(out: string, { copy, notEvaluated }: RecalculatedReport, json: boolean, output: Output): void {
  if (!copy) return;
  if ("problem" in copy) {
    output.complain(`recalc: no copy written: ${copy.problem}`);
    return;
  }
  writeWhole(out, copy.bytes);
  if (!json) output.print(copyLines(out, copy.patches.length, notEvaluated.length));
}

function copyLines(out: string, changed: number, notEvaluated: number): string {
  const lines = [`  Written to ${out}: ${counted(changed, "cell")} changed, everything else as it was.`];
  if (notEvaluated > 0) {
    lines.push("  The cells that were not evaluated keep their stored values in the copy, which may be out of date.");
  }
  return lines.join("\n");
}
