import { usualLimits, WorkbookProblem } from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import type { Output } from "../shared/output";
import { readArguments, usage, type Arguments } from "./arguments";
import { BadArgument } from "../shared/bad-argument";
import { findWorkbooks } from "../shared/find-files";
import { pageOf } from "./page";
import { fitForJson, jsonOf } from "./print-json";
import { textOf, totalsOf } from "./print-text";
import { endedBy, type faultCode, faultText } from "../shared/run-program";
import { Progress } from "../shared/progress";
import { readWorkbookFile } from "../shared/read-file";
import { recalculate } from "./recalculate";
import { exitCodeOf, type RecalculatedReport, type Report } from "./report";
import { readSetting } from "./set-text";
import { counted } from "../shared/words";
import { FileWriter, type Content, type Target } from "../shared/write-file";

/** Runs the command and gives its exit code; progress goes to stderr. */
export function recalcCommand(given: readonly string[], output: Output): 0 | 1 | 2 | typeof faultCode {
  const progress = new Progress();
  try {
    const options = readArguments(given);
    if (options.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    return run(options, progress, output);
  } catch (problem) {
    progress.clear();
    return endedBy("recalc", problem, output);
  }
}

function run(options: Arguments, progress: Progress, output: Output): ReturnType<typeof recalcCommand> {
  const settings = options.set.map(readSetting);
  const files = findWorkbooks(options.paths);
  if (files.length > 1 && settings.length > 0) throw new BadArgument("--set works on one workbook at a time");
  const copyTarget: Target | undefined =
    options.out === undefined ? undefined : { option: "--out", path: options.out, holds: "a workbook" };
  const pageTarget: Target | undefined =
    options.html === undefined ? undefined : { option: "--html", path: options.html, holds: "a report" };
  const targets = [copyTarget, pageTarget].filter((target) => target !== undefined);
  for (const { option } of targets)
    if (files.length > 1) throw new BadArgument(`${option} works on one workbook at a time`);
  const writer = new FileWriter(targets, files, options.overwrite);
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
    const contents: Content[] = [];
    const report = reportOn(file, () => {
      const { made, ...done } = recalculate(file, readWorkbookFile(file), { ...recalculateOptions, step });
      if (made && pageTarget) {
        step(`${file}: writing the page`, false);
        contents.push({ target: pageTarget, bytes: pageOf(done, made) });
      }
      return done;
    });
    reports.push(options.json ? fitForJson(report) : report);
    progress.clear();
    if (!options.json) print(report, options.list, output);
    if (report.status === "unreadable") continue;
    const { copy } = report;
    if (copy && "problem" in copy) output.complain(`recalc: no copy written: ${copy.problem}`);
    if (copyTarget && copy && "bytes" in copy) contents.push({ target: copyTarget, bytes: copy.bytes });
    writer.write(contents);
    if (!options.json) output.print(writtenLines(report, options));
  }
  if (options.json) for (const piece of jsonOf(reports, options.out)) output.printJson(piece);
  else if (files.length > 1) output.print(["", totalsOf(reports)]);
  return exitCodeOf(reports);
}

function reportOn(file: string, work: () => Report): Report {
  try {
    return work();
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return { file, status: "unreadable", problem: problem.message };
    // A bad argument ends the command; whatever else one workbook brings about is said of that workbook.
    if (problem instanceof BadArgument) throw problem;
    return { file, status: "unreadable", problem: faultText(problem), fault: true };
  }
}

function print(report: Report, list: boolean, output: Output): void {
  if (report.status === "unreadable") output.complain(`recalc: ${report.file}: ${report.problem}`);
  else output.print(textOf(report, list));
}

/** What was written, after the report. */
function writtenLines({ copy, notEvaluated }: RecalculatedReport, { out, html }: Arguments): string[] {
  const lines: string[] = [];
  if (out !== undefined && copy && "bytes" in copy) {
    const changed = counted(copy.patches.length, "cell");
    lines.push(`  Written to ${out}: ${changed} changed, everything else as it was.`);
    if (notEvaluated.length > 0)
      lines.push("  The cells that were not evaluated keep their stored values in the copy, which may be out of date.");
  }
  if (html !== undefined) lines.push(`  Page written to ${html}.`);
  return lines;
}
