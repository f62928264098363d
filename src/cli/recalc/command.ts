import * as z from "zod";
import { formatCount, usualLimits, WorkbookProblem } from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { findWorkbooks, readWorkbookFile } from "../shared/find-files";
import { type Output, Progress } from "../shared/output";
import { BadArgument, fileName, flag, parseOptions, noWorkbook, typed } from "../shared/parse-options";
import { reportEnd, type faultCode, describeFault } from "../shared/run-program";
import { type Content, FileWriter, type Target } from "../shared/write-file";
import { answerQuestions, asksForInputs, isQuestion, listInputs } from "./answer-question";
import { writeCommonCauses } from "./causes";
import { writePage } from "./page";
import { fitForJson, writeJson } from "./print-json";
import { writeText, writeTotals } from "./print-text";
import { recalculate } from "./recalculate";
import { writeSettings } from "./print-settings";
import { chooseExitCode, type RecalculatedReport, type Report } from "./report";
import { readSetting } from "./read-setting";

/** Runs the command and gives its exit code; progress goes to stderr. */
export function runRecalcCommand(given: readonly string[], output: Output): 0 | 1 | 2 | typeof faultCode {
  const progress = new Progress();
  try {
    const options = parseOptions(given, commandLine);
    if (options.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    if (options.settings) {
      output.print(writeSettings(options.positionals.join(" ")));
      return 0;
    }
    return run(options, progress, output);
  } catch (problem) {
    progress.clear();
    return reportEnd("recalc", problem, output);
  }
}

function run(options: Arguments, progress: Progress, output: Output): ReturnType<typeof runRecalcCommand> {
  const list = options.set.find(asksForInputs);
  const settings = options.set.filter((typed) => !asksForInputs(typed)).map(readSetting);
  const files = findWorkbooks(options.positionals);
  if (files.length > 1 && options.set.length > 0) throw new BadArgument("--set works on one workbook at a time");
  if (list !== undefined && files[0] !== undefined) {
    output.print(listInputs(readWorkbookFile(files[0]), list, options.list));
    return 0;
  }
  const questions = options.set.filter(isQuestion);
  if (questions.length > 0 && files[0] !== undefined) {
    output.print(answerQuestions(readWorkbookFile(files[0]), questions));
    return 0;
  }
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
        contents.push({ target: pageTarget, bytes: writePage(done, made) });
      }
      return done;
    });
    reports.push(options.json ? fitForJson(report) : report);
    progress.clear();
    if (!options.json) print(report, options, output);
    if (report.status === "unreadable") continue;
    const { copy } = report;
    if (copy && "problem" in copy) output.complain(`recalc: no copy written: ${copy.problem}`);
    if (copyTarget && copy && "bytes" in copy) contents.push({ target: copyTarget, bytes: copy.bytes });
    writer.write(contents);
    if (!options.json) output.print(describeWritten(report, options));
  }
  if (options.json) for (const piece of writeJson(reports, options)) output.printJson(piece);
  else if (files.length > 1)
    output.print(["", writeTotals(reports), ...(options.explain ? writeCommonCauses(reports) : [])]);
  return chooseExitCode(reports);
}

function reportOn(file: string, work: () => Report): Report {
  try {
    return work();
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return { file, status: "unreadable", problem: problem.message };
    // A bad argument ends the command; whatever else one workbook brings about is said of that workbook.
    if (problem instanceof BadArgument) throw problem;
    return { file, status: "unreadable", problem: describeFault(problem), fault: true };
  }
}

function print(report: Report, options: Arguments, output: Output): void {
  if (report.status === "unreadable") output.complain(`recalc: ${report.file}: ${report.problem}`);
  else output.print(writeText(report, options));
}

/** What was written, after the report. */
function describeWritten({ copy, notEvaluated }: RecalculatedReport, { out, html }: Arguments): string[] {
  const lines: string[] = [];
  if (out !== undefined && copy && "bytes" in copy) {
    const changed = formatCount(copy.patches.length, "cell");
    lines.push(`  Written to ${out}: ${changed} changed, everything else unchanged.`);
    if (notEvaluated.length > 0)
      lines.push("  In the copy, cells that were not evaluated keep their stored values, which may be out of date.");
  }
  if (html !== undefined) lines.push(`  Page written to ${html}.`);
  return lines;
}

const usage = `Recalculates workbooks without Excel and compares every cell with its stored value.

  npm run recalc -- FILE-or-FOLDER... [options]
  npm run recalc -- --settings [WORD...]

  --set 'Sheet!B4=512'   put a value into a cell first (may be given several times); one workbook only.
                         The cell by its address or by its label: 'internal volume=512', 'Rooms!tolerance=0.03'.
                         A number, with a unit that is converted to the cell's ('Rooms!D8=14 ft'), a day (2026-11-24),
                         TRUE or FALSE, text, "text in double quotes", or nothing for a blank cell.
                         'Criteria!standard=?' asks what the cell takes, '?' or 'Criteria!?' which cells there are to set;
                         both compute nothing.
                         Put a sheet name with spaces or symbols in single quotes: 'Air leakage'!B4=512
  --settings             print what is known of the functions' settings: meaning, unit, what counts if blank, an example,
                         words, the functions that read it. Only of those with these words, if any are given
  --over-formulas        let --set replace the result of a formula; not together with --out
  --out FILE             write a copy with the recalculated values; nothing else in it changes. One workbook only
  --html FILE            write a web page to read or pass on: results, findings, the air leakage graph, every sheet as a table.
                         One self-contained file. One workbook only
  --overwrite            let --out and --html replace existing files (never the input)
  --keep-old-values      let --out write a copy even if some cells could not be evaluated; these keep their stored
                         values, which may be out of date. Otherwise no copy is written
  --list                 list every changed or different cell (by default lists are cut, and with --out only counted)
  --explain              group the cells that were not evaluated by cause, with the number of cells that each cause holds
                         back; over several workbooks the sums too. With --json the same as "causes"
  --blank-as-zero        pass blank cells to the add-in's functions as 0, as some versions of Excel do
  --work N               allow a workbook N times the usual steps and memory
                         (200 million and 250 MB, several times what a large workbook needs); cells beyond that are not evaluated
  --json                 print one JSON document instead of text
  --help                 print this

Exit code: 0 all stored values are right, 1 some differ, 2 cells not evaluated, a file unreadable, a bad argument or no copy
written, 3 internal error. With --out results are expected to change: 0 all evaluated, 1 new error values, 2 and 3 as
above.`;

/** Beyond, the memory of no machine is enough. */
const mostWork = 1000;

export const commandLine = z
  .object({
    positionals: z.array(z.string()),
    settings: flag,
    set: z.array(z.string()).default([]),
    out: fileName.optional(),
    html: fileName.optional(),
    overwrite: flag,
    keepOldValues: flag,
    list: flag,
    explain: flag,
    overFormulas: flag,
    blankAsZero: flag,
    /** How many times the usual work a workbook may take. */
    work: typed(`a number above 0, at most ${mostWork}`, (text) =>
      Number(text) > 0 && Number(text) <= mostWork ? Number(text) : undefined,
    ).default(1),
    json: flag,
  })
  .refine(({ settings, positionals }) => settings || positionals.length > 0, noWorkbook)
  .refine(
    ({ overwrite, out, html }) => !overwrite || (out ?? html) !== undefined,
    "--overwrite goes with --out or --html",
  )
  .refine(({ keepOldValues, out }) => !keepOldValues || out !== undefined, "--keep-old-values goes with --out")
  .refine(({ overFormulas, set }) => !overFormulas || set.length > 0, "--over-formulas goes with --set")
  .refine(
    ({ overFormulas, out }) => !overFormulas || out === undefined,
    "--over-formulas cannot be combined with --out: the copy would lose the formula",
  );

type Arguments = z.output<typeof commandLine>;
