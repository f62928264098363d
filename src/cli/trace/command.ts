import { basename } from "node:path";
import * as z from "zod";
import metadata from "../../functions/functions.json";
import {
  type AddInCall,
  type Book,
  buildCellKey,
  compareWithStored,
  formatCount,
  evaluateBook,
  formatList,
  openWorkbook,
  parsePlace,
  sentence,
  shorten,
  type Trace,
  traceAsHtml,
  traceAsJson,
  traceAsMarkdown,
  traceAsText,
  traceOf,
  withFrozenFormulas,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { readWorkbookFile } from "../shared/find-files";
import { type Output, withJsonEscapes, withVisibleMarks } from "../shared/output";
import { BadArgument, fileName, flag, parseOptions, typed } from "../shared/parse-options";
import { reportEnd, type faultCode } from "../shared/run-program";
import { alignColumns, formatValue } from "../shared/report-lines";
import { FileWriter, type Target } from "../shared/write-file";

/** Runs the command and returns its exit code. */
export function traceCommand(given: readonly string[], output: Output): 0 | 2 | typeof faultCode {
  try {
    const options = parseOptions(given, commandLine);
    if (options.help) output.print(usage.split("\n"));
    else run(options, output);
    return 0;
  } catch (problem) {
    return reportEnd("trace", problem, output);
  }
}

function run(options: Arguments, output: Output): void {
  const {
    positionals: [file, cell],
    out,
    overwrite,
    depth,
    blankAsZero,
  } = options;
  // In an issue copy the frozen formulas stand in their cells again: their values were not typed in.
  const book = withFrozenFormulas(openWorkbook(readWorkbookFile(file)).book);
  if (cell.trim() === "?") {
    output.print(listNames(book));
    return;
  }
  const place = findCell(book, cell);
  const targets: Target[] = out === undefined ? [] : [{ option: "--out", path: out, holds: "a report" }];
  const writer = new FileWriter(targets, [file], overwrite);
  const [addIn, now, calls]: [ReturnType<typeof addInRegistry>, Date, AddInCall[]] = [addInRegistry(), new Date(), []];
  const evaluation = evaluateBook(book, { addIn, now, calls, blankAsZero });
  const stale = compareWithStored(book, evaluation).map(({ address }) => address);
  if (stale.length > 0)
    output.complain(
      `trace: ${formatCount(stale.length, "stored value")} ${stale.length === 1 ? "is" : "are"} not what the formulas give (${formatList(stale, 4)}); the trace shows the recomputed values.`,
    );
  const trace = traceOf({ book, evaluation, addIn, calls, functions: metadata.functions, now, depth });
  const traced = trace(place.sheet, place.row, place.column);
  const [target] = targets;
  if (!target) {
    printTrace(traced, options, output);
    return;
  }
  writer.write([{ target, bytes: writeText(traced, options) }]);
  const { places, inputs } = traced;
  output.print(
    `Written to ${target.path}: ${formatCount(places.length, "place")}, back to ${formatCount(inputs.length, "typed cell")}.`,
  );
}

function printTrace(trace: Trace, options: Arguments, output: Output): void {
  if (formOf(options) === "json") output.printJson(traceAsJson(trace));
  else output.print(writeLines(trace, options));
}

function writeText(trace: Trace, options: Arguments): string {
  if (formOf(options) === "json") return `${withJsonEscapes(traceAsJson(trace))}\n`;
  const lines = writeLines(trace, options);
  return `${(formOf(options) === "html" ? lines : lines.map(withVisibleMarks)).join("\n")}\n`;
}

function writeLines(trace: Trace, options: Arguments): string[] {
  const form = formOf(options);
  const name = basename(options.positionals[0]);
  if (form === "markdown")
    return traceAsMarkdown(trace, `Where ${trace.places[0]?.address ?? ""} in ${name} comes from`);
  if (form === "html") return traceAsHtml(trace, { file: name }).trimEnd().split("\n");
  return traceAsText(trace);
}

const usage = `Traces a cell back to what was typed in: each step with its label, its formula in words, its equation and source, its value and unit.
The workbook is recalculated first and never changed.

  npm run trace -- FILE 'Sheet!C7' [options]

  A defined name can be used instead of a cell; ? lists the names. Put a sheet name with spaces or symbols in single quotes: "'Air leakage'!C7"

  --markdown         print Markdown
  --json             print JSON: every place once, with all its cells
  --html             print a self-contained web page
  --out FILE         write to a file instead of printing
  --overwrite        replace that file if it exists (never the workbook)
  --depth STEPS      go back only this many steps
  --blank-as-zero    pass blank cells to the add-in's functions as 0, as some versions of Excel do
  --help             print this

An IF branch that did not apply is not followed, and a look-up leads to the entry it found. A place already shown is referred to
by its number. Exit code: 0 traced, 2 not traced, 3 internal error.`;

const forms = ["markdown", "json", "html"] as const;

const mostSteps = 1_000_000;

const commandLine = z
  .object({
    positionals: z.tuple(
      [z.string(), z.string().min(1)],
      "name one workbook and one cell, such as 'Results!C7' (see --help)",
    ),
    markdown: flag,
    json: flag,
    html: flag,
    out: fileName.optional(),
    overwrite: flag,
    depth: typed("a number of steps", (text) =>
      /^\d+$/.test(text.trim()) && Number(text) <= mostSteps ? Number(text) : undefined,
    ).default(Infinity),
    blankAsZero: flag,
  })
  .refine(
    (asked) => forms.filter((form) => asked[form]).length <= 1,
    `choose one of ${forms.map((form) => `--${form}`).join(", ")}`,
  )
  .refine(({ overwrite, out }) => !overwrite || out !== undefined, "--overwrite goes with --out");

type Arguments = z.output<typeof commandLine>;

const formOf = (asked: Arguments) => forms.find((form) => asked[form]) ?? "text";

interface Found {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** Finds "Sheet!C7", "'Air leakage'!C7", or the single cell of a defined name; throws BadArgument with the alternatives. */
function findCell(book: Book, typed: string): Found {
  const match = /^(?:'((?:[^']|'')+)'|([^!]+))!\$?([A-Za-z]+)\$?(\d+)$/.exec(typed.trim());
  if (!match) return findCellOfName(book, typed.trim());
  const [, quoted, plain = "", letters = "", digits = ""] = match;
  const place = parsePlace(letters + digits);
  if (!place) throw new BadArgument(sentence`${letters}${digits} is not a cell of a sheet`);
  const name = quoted?.replaceAll("''", "'") ?? plain;
  const sheet = book.sheets.findIndex((one) => one.name.toLowerCase() === name.toLowerCase());
  if (sheet < 0)
    throw new BadArgument(`there is no sheet "${shorten(name)}"; the workbook has ${listSheetNames(book)}`);
  // Of merged cells only the first holds a value, so that one is meant.
  const merged = book.sheets[sheet]?.mergedAreas.find(
    ({ top, left, bottom, right }) =>
      place.row >= top && place.row <= bottom && place.column >= left && place.column <= right,
  );
  return merged ? { sheet, row: merged.top, column: merged.left } : { sheet, ...place };
}

function findCellOfName(book: Book, typed: string): Found {
  const name = book.names.find((one) => one.name.toLowerCase() === typed.toLowerCase());
  if (!name) {
    const what = parsePlace(typed.replaceAll("$", ""))
      ? "needs a sheet name"
      : "is neither a cell nor a name in the workbook";
    throw new BadArgument(`"${shorten(typed)}" ${what}; write it as 'Sheet!C7' (sheets: ${listSheetNames(book)})`);
  }
  if (isCellAddress.test(name.text)) return findCell(book, name.text);
  throw new BadArgument(sentence`the name ${name.name} is not a single cell (${name.text}); choose one of its cells`);
}

/** What can be traced by its name: the defined names of single cells, with what they hold. */
function listNames(book: Book): string[] {
  const rows = book.names.flatMap(({ name, text, sheet }) => {
    if (sheet !== undefined || !isCellAddress.test(text) || text.startsWith("#REF!")) return [];
    const place = findCell(book, text);
    const value = book.sheets[place.sheet]?.cells.get(buildCellKey(place.row, place.column))?.value ?? null;
    return [[name, text.replaceAll("$", ""), value === null ? "" : formatValue(value, 5)]];
  });
  if (rows.length === 0) return ["No name in the workbook is a single cell; name a cell, such as 'Results!C7'."];
  rows.sort(([a = ""], [b = ""]) => a.localeCompare(b, "en"));
  return [...alignColumns(rows), "Any other cell by its sheet and address, such as 'Results!C7'."];
}

const isCellAddress = /^(?:'(?:[^']|'')+'|[^!']+)!\$?[A-Za-z]+\$?\d+$/;

function listSheetNames({ sheets }: Book): string {
  return formatList(
    sheets.map(({ name }) => shorten(name)),
    12,
  );
}
