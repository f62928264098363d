import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import * as z from "zod";
import {
  addSettingsSheet,
  fillForm,
  formatCount,
  type OpenedWorkbook,
  openWorkbook,
  readProperties,
  shorten,
  takeFirm,
  WorkbookProblem,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { readWorkbookFile } from "../shared/find-files";
import type { Output } from "../shared/output";
import { BadArgument, fileName, flag, parseOptions } from "../shared/parse-options";
import { alignColumns } from "../shared/report-lines";
import { reportEnd, type faultCode } from "../shared/run-program";
import { FileWriter, type Target } from "../shared/write-file";

/** Runs the command with the folder of the blank forms, and returns its exit code. */
export function newCommand(given: readonly string[], output: Output, forms: URL): 0 | 2 | typeof faultCode {
  try {
    const options = parseOptions(given, commandLine);
    if (options.help) output.print(describeUsage(listForms(forms)).split("\n"));
    else if (options.positionals[0] === "?") output.print(describeForms(forms));
    else run(options, output, forms);
    return 0;
  } catch (problem) {
    return reportEnd("new", problem, output);
  }
}

function run(options: Arguments, output: Output, forms: URL): void {
  const { out, firm, overwrite, settingsSheet } = options;
  if (out === undefined) throw new BadArgument("--out needs a file name for the new workbook (see --help)");
  const [name] = options.positionals;
  const known = listForms(forms);
  if (!known.includes(name))
    throw new BadArgument(
      `there is no form "${shorten(name)}"; there are ${known.join(", ")}; "?" says what each is for`,
    );
  const target: Target = { option: "--out", path: out, holds: "a workbook" };
  const form = fileURLToPath(new URL(`${name}.xlsx`, forms));
  const writer = new FileWriter([target], firm === undefined ? [form] : [form, firm], overwrite);
  const blank = readWorkbookFile(form);
  const ofFirm = firm === undefined ? { bytes: blank, says: "of no firm yet" } : fillFirm(blank, firm);
  const made = settingsSheet ? withSettings(ofFirm) : ofFirm;
  writer.write([{ target, bytes: made.bytes }]);
  output.print([`${out}: a blank form ${name}, ${made.says}.`]);
}

interface MadeForm {
  readonly bytes: Uint8Array;
  readonly says: string;
}

function fillFirm(blank: Uint8Array, firm: string): MadeForm {
  const opened = openWorkbook(blank);
  const taken = takeFirm(opened, openFirm(firm).book);
  const filled = taken.filter(({ value }) => value !== null).length;
  return {
    bytes: fillForm(opened, taken, addInRegistry()),
    says: `with ${formatCount(filled, "cell")} of the firm from ${firm}`,
  };
}

function withSettings({ bytes, says }: MadeForm): MadeForm {
  const added = addSettingsSheet(openWorkbook(bytes));
  return { bytes: added.bytes, says: `${says}, with every setting on the sheet ${added.sheetName}` };
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

/** Every form with what it calls itself and what it is about. */
function describeForms(forms: URL): string[] {
  const rows = listForms(forms).map((name) => {
    const { title, subject } = readProperties(readWorkbookFile(fileURLToPath(new URL(`${name}.xlsx`, forms))));
    return [name, `${title}: ${subject}${name.endsWith("-ip") ? ", in feet, cfm and °F" : ""}`];
  });
  return alignColumns(rows);
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
                      ${forms.slice(4).join(", ")};
                      "?" says what each is for
  --firm FILE         take the firm, its instruments and certificates from this workbook, a form of yours in which they are
                      filled in. Its readings and houses are not taken. A logo is a picture and must be placed anew
  --settings-sheet    add a sheet with every setting of the functions: label, a cell for its value, unit, example, meaning
  --overwrite         replace the file if it exists (never the form or the firm's workbook)
  --help              print this

Exit code: 0 made, 2 not made, 3 internal error.`;

const commandLine = z.object({
  positionals: z.tuple([z.string()], "name one form (see --help)"),
  out: fileName.optional(),
  firm: fileName.optional(),
  settingsSheet: flag,
  overwrite: flag,
});

type Arguments = z.output<typeof commandLine>;
