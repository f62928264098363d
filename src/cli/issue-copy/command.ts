import { methodVersion } from "../../core/index";
import {
  compareWithStored,
  evaluateBook,
  issueCopy,
  openWorkbook,
  writeBack,
  type AddInRegistry,
  type IssueRefusal,
  type OpenedWorkbook,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { BadArgument } from "../shared/bad-argument";
import type { Output } from "../shared/output";
import { patchesFor } from "../shared/patches";
import { endedBy, type faultCode } from "../shared/run-program";
import { readWorkbookFile } from "../shared/read-file";
import { counted, listed } from "../shared/words";
import { FileWriter, type Target } from "../shared/write-file";
import { readArguments, usage, type Arguments } from "./arguments";

/** Runs the command and gives its exit code. */
export function issueCopyCommand(given: readonly string[], output: Output): 0 | 2 | typeof faultCode {
  try {
    const now = new Date();
    const options = readArguments(given, now);
    if (options.help) output.print(usage.split("\n"));
    else run(options, now, output);
    return 0;
  } catch (problem) {
    return endedBy("issue-copy", problem, output);
  }
}

function run(options: Arguments, now: Date, output: Output): void {
  const { file, out, overwrite, date: issued, keepOldValues } = options;
  const bytes = readWorkbookFile(file);
  const target: Target = { option: "--out", path: out, holds: "a workbook" };
  const writer = new FileWriter([target], [file], overwrite);
  const addIn = addInRegistry();
  const opened = openWorkbook(bytes);
  const source = options.recalculate ? recalculated(opened, addIn, now) : opened;
  const copy = issueCopy(source, { addIn, methodVersion, issued, now, keepOldValues });
  if ("reason" in copy) throw new BadArgument(`no copy issued: ${refusalText(copy)}`);
  writer.write([{ target, bytes: copy.bytes }]);
  const { mark, sheetName, liveFormulas } = copy;
  output.print([
    `Issued to ${out}: ${counted(mark.formulas.length, "cell")} frozen, listed on the sheet "${sheetName}"; ${counted(liveFormulas, "formula")} stay live.`,
    `  Method version  ${mark.methodVersion}`,
    `  Issued on       ${mark.issued}`,
    `  Fingerprint     ${mark.fingerprint}`,
  ]);
}

/** The workbook as it is after its stored values were brought up to date. */
function recalculated(opened: OpenedWorkbook, addIn: AddInRegistry, now: Date): OpenedWorkbook {
  const { book } = opened;
  const evaluation = evaluateBook(book, { addIn, now });
  const patches = patchesFor(book, evaluation, compareWithStored(book, evaluation), undefined);
  return patches.length === 0 ? opened : openWorkbook(writeBack(opened, patches));
}

const mostNamed = 8;

function refusalText({ reason, cells }: IssueRefusal): string {
  const named = listed(cells, mostNamed);
  switch (reason) {
    case "already issued":
      return "this is an issue copy already; issue the workbook that it was made from";
    case "nothing to freeze":
      return "no cell of this workbook needs the add-in";
    case "not evaluated":
      return `${counted(cells.length, "cell")} could not be evaluated (${named}); --keep-old-values issues it with their stored values`;
    case "stored values differ":
      return `${counted(cells.length, "stored value")} are not what the formulas give (${named}); --recalculate puts these in`;
    case "shows #NAME?":
      return `the stored value is #NAME?, for want of the add-in, in ${named}; --recalculate computes it where it can`;
  }
}
