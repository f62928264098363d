import { basename } from "node:path";
import {
  evaluateBook,
  graphDataOf,
  groupsOf,
  leakageGraph,
  limitsOf,
  mostLines,
  openWorkbook,
  testsInBook,
  withFrozenFormulas,
  type AddInCall,
  type GraphData,
} from "../../workbook/index";
import { addInRegistry } from "../shared/add-in";
import { BadArgument } from "../shared/bad-argument";
import type { Output } from "../shared/output";
import { endedBy, type faultCode } from "../shared/run-program";
import { readWorkbookFile } from "../shared/read-file";
import { indented } from "../shared/words";
import { FileWriter, type Target } from "../shared/write-file";
import { readArguments, usage, type Arguments } from "./arguments";
import { chosenGroup, listOf } from "./choose";
import { missingLetters, pictureOf } from "./picture";

/** Runs the command and gives its exit code. */
export async function graphCommand(given: readonly string[], output: Output): Promise<0 | 2 | typeof faultCode> {
  try {
    const options = readArguments(given);
    if (options.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    return await run(options, output);
  } catch (problem) {
    return endedBy("graph", problem, output);
  }
}

async function run(options: Arguments, output: Output): Promise<0 | 2> {
  const { file, cells, overwrite } = options;
  const targets = targetsOf(options);
  // In an issue copy the tests are among the frozen formulas.
  const book = withFrozenFormulas(openWorkbook(readWorkbookFile(file)).book);
  const writer = new FileWriter(options.list ? [] : targets, [file], overwrite);
  const calls: AddInCall[] = [];
  evaluateBook(book, { addIn: addInRegistry(), blankAsZero: options.blankAsZero, now: new Date(), calls });
  const found = testsInBook(book, calls);
  const groups = groupsOf(found.tests, calls);
  if (options.list) {
    const waiting = found.undrawn.map(({ cell, reason }) => `${cell} cannot be drawn: ${reason}`);
    const listed = [...listOf(groups), ...waiting];
    const lines =
      listed.length > 0 ? listed : ["No test: no cell calls TESTRESULT, RESULTCARD or LEAKAGEFIT with readings."];
    output.print([file, ...indented(lines)]);
    return 0;
  }
  const choice = chosenGroup(found, groups, cells);
  if ("refusal" in choice) {
    const [first = "", ...more] = choice.refusal;
    for (const line of [`graph: ${file}: ${first}`, ...more]) output.complain(line);
    return 2;
  }
  const { group } = choice;
  if (group.length > mostLines) throw new BadArgument(`a graph shows at most ${mostLines} tests; choose by --cell`);
  const limits =
    options.limit === undefined ? limitsOf(group, calls) : [{ pressure: 50, flow: options.limit, words: "" }];
  const data = graphDataOf(group, limits, {
    title: options.title ?? "Air leakage graph",
    subtitle: `${basename(file)}: ${group.map(({ cell }) => cell).join(" and ")}`,
  });
  const drawing = leakageGraph(data);
  const picture = await pictureOf(drawing);
  const [svg, png] = targets;
  writer.write([
    { target: svg, bytes: `<?xml version="1.0" encoding="UTF-8"?>\n${drawing}\n` },
    { target: png, bytes: picture },
  ]);
  const written = `Written: ${svg.path}, ${png.path}`;
  output.print([file, ...indented([...listOf([group]), ...limitLines(data), ...letterLines(data), written])]);
  return 0;
}

function limitLines({ targets, flowUnit }: GraphData): string[] {
  if (targets.length === 0)
    return ["No limit is marked: the workbook compares none of these results (--limit gives one)."];
  return targets.map(({ flow, pressure, words }) => {
    const from = words === "" ? "" : ` (${words})`;
    return `Limit: ${Number(flow.toPrecision(5))} ${flowUnit} at ${pressure} Pa${from}`;
  });
}

/** The drawing leaves letters to the reader's machine; the picture brings its own along, which are not those of every writing. */
function letterLines({ title, subtitle, lines }: GraphData): string[] {
  const missing = missingLetters([title, subtitle, ...lines.map(({ name }) => name)].join(""));
  if (missing === "") return [];
  return [
    `The picture has no letters for ${missing} and shows boxes; the drawing (.svg) shows them where the reader's machine does.`,
  ];
}

/** The two files; a name may be given with either ending. */
function targetsOf({ out, file }: Arguments): readonly [drawing: Target, picture: Target] {
  const name = out === undefined ? `${file.replace(/\.[^./\\]*$/, "")}-graph` : out.replace(/\.(svg|png)$/i, "");
  const target = (ending: string): Target => ({ option: "--out", path: `${name}${ending}`, holds: "a report" });
  return [target(".svg"), target(".png")];
}
