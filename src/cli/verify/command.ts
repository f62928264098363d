import type { Output } from "../shared/output";
import { findWorkbooks } from "../shared/find-files";
import { endedBy, type faultCode } from "../shared/run-program";
import { Progress } from "../shared/progress";
import { withVisibleMarks } from "../shared/visible-marks";
import { FileWriter, type Target } from "../shared/write-file";
import { readArguments, usage, type Arguments } from "./arguments";
import { reviewAll } from "./pool";
import { htmlOf } from "./print-html";
import { jsonOf } from "./print-json";
import { markdownOf } from "./print-markdown";
import { textOf, totalsOf } from "./print-text";
import { progressBar } from "./progress-bar";
import { exitCodeOf, outcomeOf } from "./report";

/** Runs the command and gives its exit code; progress goes to stderr. `entry` is the file that further threads run. */
export async function verifyCommand(
  given: readonly string[],
  output: Output,
  entry: string,
): Promise<0 | 1 | 2 | typeof faultCode> {
  const progress = new Progress();
  try {
    const options = readArguments(given);
    if (options.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    return await run(options, progress, output, entry);
  } catch (problem) {
    progress.clear();
    return endedBy("verify", problem, output);
  }
}

async function run(
  options: Arguments,
  progress: Progress,
  output: Output,
  entry: string,
): ReturnType<typeof verifyCommand> {
  const files = findWorkbooks(options.paths);
  const page = targetOf("--html", options.html);
  const markdown = targetOf("--markdown", options.markdown);
  const writer = new FileWriter([...page, ...markdown], files, options.overwrite);
  let withFindings = 0;
  progress.step(progressBar(0, files.length, 0, files[0] ?? ""));
  const { reports, spans } = await reviewAll(files, options.threads, entry, (report, done) => {
    if (outcomeOf(report) !== "nothing found") withFindings++;
    progress.step(progressBar(done, files.length, withFindings, report.file));
  });
  progress.clear();
  if (options.json) output.printJson(jsonOf(reports, spans));
  else {
    for (const report of reports) {
      if (report.status === "unreadable") output.complain(`verify: ${report.file}: ${report.problem}`);
      else output.print(textOf(report, options.list, files.length > 1));
    }
    if (files.length > 1) output.print(["", totalsOf(reports)]);
  }
  const written = new Date();
  writer.write([
    ...page.map((target) => ({ target, bytes: htmlOf(reports, written) })),
    ...markdown.map((target) => ({
      target,
      bytes: `${markdownOf(reports, written).map(withVisibleMarks).join("\n")}\n`,
    })),
  ]);
  return exitCodeOf(reports);
}

function targetOf(option: string, path: string | undefined): Target[] {
  return path === undefined ? [] : [{ option, path, holds: "a report" }];
}
