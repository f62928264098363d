import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import * as z from "zod";
import {
  fillForm,
  formatCount,
  type OpenedWorkbook,
  openWorkbook,
  shorten,
  takeFirm,
  WorkbookProblem,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { readWorkbookFile } from "../shared/find-files";
import type { Output } from "../shared/output";
import { BadArgument, fileName, flag, parseOptions } from "../shared/parse-options";
import { reportEnd, type faultCode } from "../shared/run-program";
import { FileWriter, type Target } from "../shared/write-file";

/** Runs the command with the folder of the blank forms, and returns its exit code. */
export function newCommand(given: readonly string[], output: Output, forms: URL): 0 | 2 | typeof faultCode {
  try {
    const options = parseOptions(given, commandLine);
    if (options.help) output.print(describeUsage(listForms(forms)).split("\n"));
    else run(options, output, forms);
    return 0;
  } catch (problem) {
    return reportEnd("new", problem, output);
  }
}

function run({ positionals: [name], out, firm, overwrite }: Arguments, output: Output, forms: URL): void {
  const known = listForms(forms);
  if (!known.includes(name))
    throw new BadArgument(`there is no form "${shorten(name)}"; there are ${known.join(", ")}`);
  const target: Target = { option: "--out", path: out, holds: "a workbook" };
  const form = fileURLToPath(new URL(`${name}.xlsx`, forms));
  const writer = new FileWriter([target], firm === undefined ? [form] : [form, firm], overwrite);
  const blank = readWorkbookFile(form);
  if (firm === undefined) {
    writer.write([{ target, bytes: blank }]);
    output.print([`${out}: a blank form ${name}, of no firm yet.`]);
    return;
  }
  const opened = openWorkbook(blank);
  const taken = takeFirm(opened, openFirm(firm).book);
  writer.write([{ target, bytes: fillForm(opened, taken, addInRegistry()) }]);
  const filled = taken.filter(({ value }) => value !== null).length;
  output.print([`${out}: a blank form ${name}, with ${formatCount(filled, "cell")} of the firm from ${firm}.`]);
}

/** Two workbooks are read, so a problem says of which one it speaks. */
function openFirm(file: string): OpenedWorkbook {
  try {
    return openWorkbook(readWorkbookFile(file));
  } catch (problem) {
    if (problem instanceof WorkbookProblem || problem instanceof BadArgument)
      throw new BadArgument(`--firm ${file}: ${problem.message}`);
    throw problem;
  }
}

/** The names of the blank forms. */
function listForms(forms: URL): string[] {
  return readdirSync(forms)
    .filter((name) => name.endsWith(".xlsx"))
    .map((name) => name.replace(/\.xlsx$/, ""))
    .sort();
}

const describeUsage = (forms: readonly string[]): string => `Makes a new workbook from a blank form.

  npm run new -- FORM --out FILE [options]

  FORM                ${forms.slice(0, 4).join(", ")},
                      ${forms.slice(4).join(", ")}
  --firm FILE         take the firm, its instruments and certificates from this workbook, a form of yours in which they are
                      filled in. Its readings and houses are not taken. A logo is a picture and must be placed anew
  --overwrite         replace the file if it exists (never the form or the firm's workbook)
  --help              print this

Exit code: 0 made, 2 not made, 3 internal error.`;

const commandLine = z.object({
  positionals: z.tuple([z.string()], "name one form (see --help)"),
  out: z.string("needs a file name for the new workbook (see --help)").min(1, "needs a file name for the new workbook"),
  firm: fileName.optional(),
  overwrite: flag,
});

type Arguments = z.output<typeof commandLine>;
