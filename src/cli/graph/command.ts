import { basename } from "node:path";
import * as z from "zod";
import {
  type AddInCall,
  evaluateBook,
  type GraphData,
  describeGraph,
  drawLeakageGraph,
  mostLines,
  openWorkbook,
  readTests,
  withFrozenFormulas,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { readWorkbookFile } from "../shared/find-files";
import type { Output } from "../shared/output";
import { BadArgument, fileName, flag, oneWorkbook, parseOptions, typed } from "../shared/parse-options";
import { reportEnd, type faultCode } from "../shared/run-program";
import { indentLines } from "../shared/report-lines";
import { FileWriter, type Target } from "../shared/write-file";
import { chooseTest, listTests } from "./choose";
import { findMissingLetters, renderPicture } from "./picture";

/** Runs the command and returns its exit code. */
export async function runGraphCommand(given: readonly string[], output: Output): Promise<0 | 2 | typeof faultCode> {
  try {
    const options = parseOptions(given, commandLine);
    if (options.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    return await run(options, output);
  } catch (problem) {
    return reportEnd("graph", problem, output);
  }
}

async function run(options: Arguments, output: Output): Promise<0 | 2> {
  const {
    positionals: [file],
    cell: cells,
    overwrite,
  } = options;
  const targets = nameTargets(options);
  // In an issue copy the tests are among the frozen formulas.
  const book = withFrozenFormulas(openWorkbook(readWorkbookFile(file)).book);
  const isListed = options.list || cells.some((cell) => cell.trim() === "?");
  const writer = new FileWriter(isListed ? [] : targets, [file], overwrite);
  const calls: AddInCall[] = [];
  const addIn = addInRegistry();
  const evaluation = evaluateBook(book, { addIn, blankAsZero: options.blankAsZero, now: new Date(), calls });
  const found = readTests(book, evaluation, addIn, calls);
  if (isListed) {
    const waiting = found.refused.map(({ cell, reason }) => `${cell} cannot be drawn: ${reason}`);
    const listed = [...listTests(found.tests), ...waiting];
    const lines =
      listed.length > 0 ? listed : ["No test: no cell calls TESTRESULT, RESULTCARD or LEAKAGEFIT with readings."];
    output.print([file, ...indentLines(lines)]);
    return 0;
  }
  const choice = chooseTest(found, cells);
  if ("refusal" in choice) {
    const [first = "", ...more] = choice.refusal;
    for (const line of [`graph: ${file}: ${first}`, ...more]) output.complain(line);
    return 2;
  }
  const { runs } = choice.test;
  if (runs.length > mostLines) throw new BadArgument(`a graph shows at most ${mostLines} tests; choose with --cell`);
  const test =
    options.limit === undefined
      ? choice.test
      : { runs, limits: [{ pressure: 50, flow: options.limit, stated: undefined }] };
  const data = describeGraph(test, {
    title: options.title ?? "Air leakage graph",
    subtitle: `${basename(file)}: ${runs.map(({ cell }) => cell).join(" and ")}`,
  });
  const drawing = drawLeakageGraph(data);
  const picture = await renderPicture(drawing);
  const [svg, png] = targets;
  writer.write([
    { target: svg, bytes: `<?xml version="1.0" encoding="UTF-8"?>\n${drawing}\n` },
    { target: png, bytes: picture },
  ]);
  const written = `Written: ${svg.path}, ${png.path}`;
  output.print([file, ...indentLines([...listTests([test]), ...limitLines(data), ...listLettering(data), written])]);
  return 0;
}

function limitLines({ targets, flowUnit }: GraphData): string[] {
  if (targets.length === 0)
    return ["No limit is marked: the workbook compares none of these results with one (set it with --limit)."];
  return targets.map(({ flow, pressure, words }) => {
    const from = words === "" ? "" : ` (${words})`;
    return `Limit: ${Number(flow.toPrecision(5))} ${flowUnit} at ${pressure} Pa${from}`;
  });
}

/** The drawing uses the reader's fonts; the picture embeds its own, which do not cover every script. */
function listLettering({ title, subtitle, lines }: GraphData): string[] {
  const missing = findMissingLetters([title, subtitle, ...lines.map(({ name }) => name)].join(""));
  if (missing === "") return [];
  return [
    `The picture has no glyphs for ${missing} and shows boxes; the drawing (.svg) shows them if the reader's fonts do.`,
  ];
}

/** The two files; a name may be given with either ending. */
function nameTargets({ out, positionals: [file] }: Arguments): readonly [drawing: Target, picture: Target] {
  const name = out === undefined ? `${file.replace(/\.[^./\\]*$/, "")}-graph` : out.replace(/\.(svg|png)$/i, "");
  const nameTarget = (ending: string): Target => ({ option: "--out", path: `${name}${ending}`, holds: "a report" });
  return [nameTarget(".svg"), nameTarget(".png")];
}

const usage = `Draws the air leakage graph of a test in a workbook: readings, fitted lines with their confidence bands, 50 Pa and
the limit, as a drawing (.svg) and a picture (.png). The workbook is recalculated first and never changed.

  npm run graph -- FILE [options]

  --cell 'Sheet!A1'   draw the test computed by this cell; repeat for several tests on one graph; ? lists them
  --list              list the tests in the workbook and draw nothing
  --out NAME          write NAME.svg and NAME.png (default: FILE-graph.svg and FILE-graph.png, next to the workbook)
  --overwrite         replace existing files (never the workbook)
  --title TEXT        the heading of the graph
  --limit FLOW        mark this flow at 50 Pa as the limit, in the graph's unit of flow, instead of the workbook's
  --blank-as-zero     pass blank cells to the add-in's functions as 0, as some versions of Excel do
  --help              print this

Tests are cells that call TESTRESULT, RESULTCARD or LEAKAGEFIT. A depressurization and a pressurization that are averaged,
or are the only tests, share one graph. Exit code: 0 drawn, 2 nothing drawn, 3 internal error.`;

const commandLine = z.object({
  positionals: oneWorkbook,
  cell: z.array(z.string()).default([]),
  list: flag,
  out: fileName.optional(),
  overwrite: flag,
  title: z.string().optional(),
  limit: typed("a flow above 0", readFlow).optional(),
  blankAsZero: flag,
});

type Arguments = z.output<typeof commandLine>;

function readFlow(text: string): number | undefined {
  const flow = Number(text.replace(",", "."));
  return text.trim() !== "" && flow > 0 && flow < Infinity ? flow : undefined;
}
