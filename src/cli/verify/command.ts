import { BadArgument } from "../shared/bad-argument";
import type { Output } from "../shared/output";
import { findWorkbooks } from "../shared/find-files";
import { Progress } from "../shared/progress";
import { readArguments, usage, type Arguments } from "./arguments";
import { reviewAll } from "./pool";
import { htmlOf } from "./print-html";
import { jsonOf } from "./print-json";
import { markdownOf } from "./print-markdown";
import { textOf, totalsOf } from "./print-text";
import { progressBar } from "./progress-bar";
import { exitCodeOf, outcomeOf } from "./report";
import { checkReportFile, writeReport } from "./write-report";

/** Runs the command and gives its exit code; progress goes to stderr. `entry` is the file that further threads run. */
export async function verifyCommand(given: readonly string[], output: Output, entry: string): Promise<0 | 1 | 2> {
  const progress = new Progress();
  try {
    const options = readArguments(given);
    if (options.help) {
      output.print(usage);
      return 0;
    }
    return await run(options, progress, output, entry);
  } catch (problem) {
    if (!(problem instanceof BadArgument)) throw problem;
    progress.clear();
    output.complain(`verify: ${problem.message}`);
    return 2;
  }
}

async function run(options: Arguments, progress: Progress, output: Output, entry: string): Promise<0 | 1 | 2> {
  const files = findWorkbooks(options.paths);
  if (options.html !== undefined) checkReportFile("--html", options.html, options.overwrite);
  if (options.markdown !== undefined) checkReportFile("--markdown", options.markdown, options.overwrite);
  let withFindings = 0;
  progress.step(progressBar(0, files.length, 0, files[0] ?? ""));
  const { reports, spans } = await reviewAll(files, options.threads, entry, (report, done) => {
    if (outcomeOf(report) !== "nothing found") withFindings++;
    progress.step(progressBar(done, files.length, withFindings, report.file));
  });
  progress.clear();
  if (options.json) output.print(jsonOf(reports, spans));
  else {
    for (const report of reports) {
      if (report.status === "unreadable") output.complain(`verify: ${report.file}: ${report.problem}`);
      else output.print(textOf(report, options.list, files.length > 1).join("\n"));
    }
    if (files.length > 1) output.print(`\n${totalsOf(reports)}`);
  }
  const written = new Date();
  if (options.html !== undefined) writeReport("--html", options.html, htmlOf(reports, written));
  if (options.markdown !== undefined) writeReport("--markdown", options.markdown, markdownOf(reports, written));
  return exitCodeOf(reports);
}
