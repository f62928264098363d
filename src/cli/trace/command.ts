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
  type AddInCall,
  type Trace,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import type { Output } from "../shared/output";
import { endedBy, type faultCode } from "../shared/run-program";
import { readWorkbookFile } from "../shared/read-file";
import { withJsonEscapes, withVisibleMarks } from "../shared/visible-marks";
import { counted, listed } from "../shared/words";
import { FileWriter, type Target } from "../shared/write-file";
import { readArguments, usage, type Arguments } from "./arguments";
import { findCell } from "./find-cell";

/** Runs the command and gives its exit code. */
export function traceCommand(given: readonly string[], output: Output): 0 | 2 | typeof faultCode {
  try {
    const options = readArguments(given);
    if (options.help) output.print(usage.split("\n"));
    else run(options, output);
    return 0;
  } catch (problem) {
    return endedBy("trace", problem, output);
  }
}

function run(options: Arguments, output: Output): void {
  const { file, cell, out, overwrite, depth, blankAsZero } = options;
  // In an issue copy the frozen formulas stand in their cells again: their values were not typed in.
  const book = withFrozenFormulas(openWorkbook(readWorkbookFile(file)).book);
  const place = findCell(book, cell);
  const targets: Target[] = out === undefined ? [] : [{ option: "--out", path: out, holds: "a report" }];
  const writer = new FileWriter(targets, [file], overwrite);
  const [addIn, now, calls]: [ReturnType<typeof addInRegistry>, Date, AddInCall[]] = [addInRegistry(), new Date(), []];
  const evaluation = evaluateBook(book, { addIn, now, calls, blankAsZero });
  const stale = compareWithStored(book, evaluation).map(({ address }) => address);
  if (stale.length > 0)
    output.complain(
      `trace: ${counted(stale.length, "stored value")} ${stale.length === 1 ? "is" : "are"} not what the formulas give (${listed(stale, 4)}); the trace shows what they give.`,
    );
  const trace = traceOf({ book, evaluation, addIn, calls, functions: metadata.functions, now, depth });
  const traced = trace(place.sheet, place.row, place.column);
  const [target] = targets;
  if (!target) {
    printTrace(traced, options, output);
    return;
  }
  writer.write([{ target, bytes: textOf(traced, options) }]);
  const { places, inputs } = traced;
  output.print(
    `Written to ${target.path}: ${counted(places.length, "place")}, back to ${counted(inputs.length, "typed cell")}.`,
  );
}

function printTrace(trace: Trace, options: Arguments, output: Output): void {
  if (options.form === "json") output.printJson(traceAsJson(trace));
  else output.print(linesOf(trace, options));
}

function textOf(trace: Trace, options: Arguments): string {
  if (options.form === "json") return `${withJsonEscapes(traceAsJson(trace))}\n`;
  const lines = linesOf(trace, options);
  return `${(options.form === "html" ? lines : lines.map(withVisibleMarks)).join("\n")}\n`;
}

function linesOf(trace: Trace, { form, file }: Arguments): string[] {
  const name = basename(file);
  if (form === "markdown")
    return traceAsMarkdown(trace, `Where ${trace.places[0]?.address ?? ""} of ${name} comes from`);
  if (form === "html") return traceAsHtml(trace, { file: name }).trimEnd().split("\n");
  return traceAsText(trace);
}
