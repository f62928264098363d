import * as z from "zod";
import {
  type FileReport,
  reviewAsHtml,
  reviewAsMarkdown,
  judgeOutcome,
  reviewAsText,
  reviewTotals,
} from "../../workbook/index";
import { findWorkbooks } from "../shared/find-files";
import { type Output, Progress, withVisibleMarks } from "../shared/output";
import { fileName, flag, parseOptions, typedNumber, workbooksOrFolders } from "../shared/parse-options";
import { faultCode, reportEnd } from "../shared/run-program";
import { FileWriter, type Target } from "../shared/write-file";
import { reviewAll, type Span } from "./pool";

/** Runs the command and returns its exit code; progress goes to stderr. `entry` is the file that worker threads run. */
export async function verifyCommand(
  given: readonly string[],
  output: Output,
  entry: string,
): Promise<0 | 1 | 2 | typeof faultCode> {
  const progress = new Progress();
  try {
    const options = parseOptions(given, commandLine);
    if (options.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    return await run(options, progress, output, entry);
  } catch (problem) {
    progress.clear();
    return reportEnd("verify", problem, output);
  }
}

async function run(
  options: Arguments,
  progress: Progress,
  output: Output,
  entry: string,
): ReturnType<typeof verifyCommand> {
  const files = findWorkbooks(options.positionals);
  const page = listTargets("--html", options.html);
  const markdown = listTargets("--markdown", options.markdown);
  const writer = new FileWriter([...page, ...markdown], files, options.overwrite);
  let withFindings = 0;
  progress.step(drawProgressBar(0, files.length, 0, files[0] ?? ""));
  const { reports, spans } = await reviewAll(files, options.threads, entry, (report, done) => {
    if (judgeOutcome(report) !== "nothing found") withFindings++;
    if (options["json-lines"]) {
      progress.clear();
      output.print([writeJsonLine(report)]);
    }
    progress.step(drawProgressBar(done, files.length, withFindings, report.file));
  });
  progress.clear();
  const exitCode = chooseExitCode(reports);
  if (options["json-lines"]) {
    // Each line was printed when its workbook was done.
  } else if (options.json) output.printJson(writeJson(reports, spans, exitCode));
  else {
    for (const report of reports) {
      if (report.status === "unreadable") output.complain(`verify: ${report.file}: ${report.problem}`);
      else output.print(reviewAsText(report, options.list, files.length > 1));
    }
    if (files.length > 1) output.print(["", reviewTotals(reports)]);
  }
  const written = new Date();
  writer.write([
    ...page.map((target) => ({ target, bytes: reviewAsHtml(reports, written) })),
    ...markdown.map((target) => ({
      target,
      bytes: `${reviewAsMarkdown(reports, written).map(withVisibleMarks).join("\n")}\n`,
    })),
  ]);
  return exitCode;
}

/** 0 no errors or warnings, 1 findings, 2 a workbook unreadable or not fully recomputed, 3 internal error; the highest wins. */
function chooseExitCode(reports: readonly FileReport[]): 0 | 1 | 2 | typeof faultCode {
  if (reports.some((report) => report.status === "unreadable" && report.fault)) return faultCode;
  const outcomes = reports.map(judgeOutcome);
  if (outcomes.includes("not fully read")) return 2;
  return outcomes.includes("findings") ? 1 : 0;
}

function listTargets(option: string, path: string | undefined): Target[] {
  return path === undefined ? [] : [{ option, path, holds: "a report" }];
}

const usage = `Reviews workbooks from someone else, without Excel: recomputes every cell it can and reports what a reviewer should look at.

  npm run verify -- FILE-or-FOLDER... [options]

  --html FILE       write the report as a web page (one self-contained file)
  --markdown FILE   write the report as Markdown
  --json            print one JSON document instead of text
  --json-lines      print one line of JSON for each workbook, as soon as it is done
  --list            print every finding in full (by default those of one cause are gathered)
  --overwrite       let --html and --markdown replace existing files (never a workbook)
  --threads N       use N cores instead of all
  --help            print this

Findings are errors (the workbook contradicts itself or the method), warnings (someone should check) or notes (for information).
Exit code: 0 no errors or warnings, 1 findings, 2 a workbook unreadable or not fully recomputed, a bad argument or no report
written, 3 internal error.`;

const commandLine = z
  .object({
    positionals: workbooksOrFolders,
    html: fileName.optional(),
    markdown: fileName.optional(),
    threads: typedNumber(1, 64).optional(),
    json: flag,
    "json-lines": flag,
    list: flag,
    overwrite: flag,
  })
  .refine(({ json, "json-lines": lines }) => !json || !lines, "give --json or --json-lines, not both")
  .refine(({ html, markdown }) => html === undefined || html !== markdown, "--html and --markdown name the same file");

type Arguments = z.output<typeof commandLine>;

const width = 24;

/** "verify [██████░░░░] 57/200, 3 with findings: house.xlsx" */
function drawProgressBar(done: number, all: number, withFindings: number, file: string): string {
  const full = Math.round((width * done) / Math.max(1, all));
  const bar = "█".repeat(full) + "░".repeat(width - full);
  return `verify [${bar}] ${done}/${all}, ${withFindings} with findings: ${file}`;
}

/** One document: every workbook with its findings, and which thread processed it when (ms since the start). */
function writeJson(reports: readonly FileReport[], spans: readonly Span[], exitCode: number): string {
  const threads = [...new Set(spans.map(({ thread }) => thread))].sort((a, b) => a - b);
  const document = {
    exitCode,
    workbooks: reports.map(describeReport),
    threads: threads.map((number) => ({
      thread: number,
      worked: spans
        .filter(({ thread }) => thread === number)
        .map(({ file, from, to }) => ({ file, from: round(from), to: round(to) })),
    })),
  };
  return JSON.stringify(document, undefined, 2);
}

/** One workbook as a line of JSON by itself. */
const writeJsonLine = (report: FileReport): string => JSON.stringify(describeReport(report));

const describeReport = (report: FileReport): object =>
  report.status === "unreadable"
    ? report
    : { file: report.file, status: report.status, outcome: judgeOutcome(report), ...report.verification };

const round = (milliseconds: number): number => Math.round(milliseconds * 10) / 10;
