import { basename } from "node:path";
import metadata from "../../functions/functions.json";
import {
  compareWithStored,
  evaluateBook,
  openWorkbook,
  traceAsHtml,
  traceAsJson,
  traceAsMarkdown,
  traceAsText,
  traceOf,
  withFrozenFormulas,
  WorkbookProblem,
  type AddInCall,
  type Trace,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { BadArgument } from "../shared/bad-argument";
import type { Output } from "../shared/output";
import { readWorkbookFile } from "../shared/read-file";
import { counted, listed } from "../shared/words";
import { checkTarget, writeWhole } from "../shared/write-file";
import { readArguments, usage, type Arguments } from "./arguments";
import { findCell } from "./find-cell";

/** Runs the command and gives its exit code. */
export function traceCommand(given: readonly string[], output: Output): 0 | 2 {
  try {
    const options = readArguments(given);
    if (options.help) output.print(usage);
    else run(options, output);
    return 0;
  } catch (problem) {
    if (!(problem instanceof BadArgument || problem instanceof WorkbookProblem)) throw problem;
    output.complain(`trace: ${problem.message}`);
    return 2;
  }
}

function run(options: Arguments, output: Output): void {
  const { file, cell, out, overwrite, depth, blankAsZero } = options;
  // In an issue copy the frozen formulas stand in their cells again: their values were not typed in.
  const book = withFrozenFormulas(openWorkbook(readWorkbookFile(file)).book);
  const place = findCell(book, cell);
  if (out !== undefined) checkTarget(out, file, overwrite);
  const [addIn, now, calls]: [ReturnType<typeof addInRegistry>, Date, AddInCall[]] = [addInRegistry(), new Date(), []];
  const evaluation = evaluateBook(book, { addIn, now, calls, blankAsZero });
  const stale = compareWithStored(book, evaluation).map(({ address }) => address);
  if (stale.length > 0)
    output.complain(
      `trace: ${counted(stale.length, "stored value")} ${stale.length === 1 ? "is" : "are"} not what the formulas give (${listed(stale, 4)}); the trace shows what they give.`,
    );
  const trace = traceOf({ book, evaluation, addIn, calls, functions: metadata.functions, now, depth });
  const traced = trace(place.sheet, place.row, place.column);
  const text = printed(traced, options);
  if (out === undefined) output.print(text);
  else {
    writeWhole(out, new TextEncoder().encode(`${text}\n`));
    const { places, inputs } = traced;
    output.print(
      `Written to ${out}: ${counted(places.length, "place")}, back to ${counted(inputs.length, "typed cell")}.`,
    );
  }
}

function printed(trace: Trace, { form, file }: Arguments): string {
  const name = basename(file);
  switch (form) {
    case "text":
      return traceAsText(trace);
    case "json":
      return traceAsJson(trace);
    case "markdown":
      return traceAsMarkdown(trace, `Where ${trace.places[0]?.address ?? ""} of ${name} comes from`);
    case "html":
      return traceAsHtml(trace, { file: name }).trimEnd();
  }
}
