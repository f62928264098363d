import * as z from "zod";
import { methodVersion } from "../../core/index";
import {
  type AddInRegistry,
  compareWithStored,
  formatCount,
  evaluateBook,
  explainRefusal,
  formatDayOfIssue,
  formatList,
  issueCopy,
  type OpenedWorkbook,
  openWorkbook,
  collectPatches,
  writeBack,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { readWorkbookFile } from "../shared/find-files";
import type { Output } from "../shared/output";
import { BadArgument, flag, oneWorkbook, parseOptions, typed } from "../shared/parse-options";
import { reportEnd, type faultCode } from "../shared/run-program";
import { FileWriter, type Target } from "../shared/write-file";

/** Runs the command and returns its exit code. */
export function issueCopyCommand(given: readonly string[], output: Output): 0 | 2 | typeof faultCode {
  try {
    const now = new Date();
    const options = parseOptions(given, commandLine);
    if (options.help) output.print(usage.split("\n"));
    else run(options, now, output);
    return 0;
  } catch (problem) {
    return reportEnd("issue-copy", problem, output);
  }
}

function run(options: Arguments, now: Date, output: Output): void {
  const {
    positionals: [file],
    out,
    overwrite,
    date: issued = formatDayOfIssue(now),
    keepOldValues,
    whole,
  } = options;
  const bytes = readWorkbookFile(file);
  const target: Target = { option: "--out", path: out, holds: "a workbook" };
  const writer = new FileWriter([target], [file], overwrite);
  const addIn = addInRegistry();
  const opened = openWorkbook(bytes);
  const source = options.recalculate ? recalculateValues(opened, addIn, now) : opened;
  const copy = issueCopy(source, { addIn, methodVersion, issued, now, keepOldValues, whole });
  if ("reason" in copy) throw new BadArgument(`no copy issued: ${explainRefusal(copy, remedies)}`);
  writer.write([{ target, bytes: copy.bytes }]);
  const { mark, sheetName, liveFormulas, hiddenSheets } = copy;
  output.print([
    `Issued to ${out}: ${formatCount(mark.formulas.length, "cell")} frozen, listed on the sheet "${sheetName}"; ${formatCount(liveFormulas, "formula")} stay live.`,
    ...(hiddenSheets.length > 0
      ? [`  Hidden, so that the client's report prints alone: ${formatList(hiddenSheets, mostNamed)}.`]
      : []),
    `  Method version  ${mark.methodVersion}`,
    `  Issued on       ${mark.issued}`,
    `  Fingerprint     ${mark.fingerprint}`,
  ]);
}

/** The workbook as it is after its stored values were brought up to date. */
function recalculateValues(opened: OpenedWorkbook, addIn: AddInRegistry, now: Date): OpenedWorkbook {
  const { book } = opened;
  const evaluation = evaluateBook(book, { addIn, now });
  const patches = collectPatches(book, evaluation, compareWithStored(book, evaluation), undefined);
  return patches.length === 0 ? opened : openWorkbook(writeBack(opened, patches));
}

const mostNamed = 8;

const remedies = {
  "not evaluated": "--keep-old-values issues the copy with their stored values",
  "stored values differ": "--recalculate updates them",
  "shows #NAME?": "--recalculate computes it if possible",
};

const usage = `Writes a copy for someone without the add-in. Formulas that need the add-in become values; a sheet at the end lists these formulas, the
method version and a fingerprint of inputs and results, with which "npm run verify" detects changes since issue.

  npm run issue-copy -- FILE --out FILE [options]

  --date YYYY-MM-DD   day of issue (default: today)
  --recalculate       update stored values that differ from what the formulas give. Otherwise no copy is written
  --keep-old-values   issue a copy even if some cells could not be evaluated; these keep their stored values
  --whole             show and print the working papers too, and the list of formulas
  --overwrite         replace the file if it exists (never the input)
  --help              print this

All other formulas stay, and everything else in the workbook is unchanged, but for what is hidden: in a form of this project the copy shows and prints
what belongs to the client's report. Working papers, runs that were not made and rows without entries stay in it, hidden; Unhide shows them. Exit code: 0 issued, 2 not issued, 3 internal error.`;

const commandLine = z.object({
  positionals: oneWorkbook,
  out: z.string("needs a file name for the copy (see --help)").min(1, "needs a file name for the copy (see --help)"),
  date: typed("a day such as 2026-11-05", readDay).optional(),
  recalculate: flag,
  keepOldValues: flag,
  whole: flag,
  overwrite: flag,
});

type Arguments = z.output<typeof commandLine>;

function readDay(text: string): string | undefined {
  const moment = new Date(`${text}T12:00:00Z`);
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(moment.getTime());
  return isDay && moment.toISOString().startsWith(text) ? text : undefined;
}
