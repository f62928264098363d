import { BadArgument } from "../shared/bad-argument";
import { parseOptions } from "../shared/parse-options";
import { sentence } from "../../workbook/index";

export const usage = `Draws the air leakage graph of a test that a workbook computes: readings, fitted lines with their confidence bands, 50 Pa and
the limit, as a drawing (.svg) and a picture (.png). The workbook is recalculated first and never changed.

  npm run graph -- FILE [options]

  --cell 'Sheet!A1'   draw the test that this cell computes; several times for several tests on one graph
  --list              list the tests of the workbook and draw nothing
  --out NAME          write NAME.svg and NAME.png; without it FILE-graph.svg and FILE-graph.png, beside the workbook
  --overwrite         replace files that exist (never the workbook)
  --title TEXT        the heading of the graph
  --limit FLOW        mark this flow at 50 Pa as the limit, in the graph's unit of flow, in place of the workbook's own
  --blank-as-zero     hand blank cells to the add-in's functions as 0, as some versions of Excel do
  --help              print this

Tests are found where a cell calls TESTRESULT, RESULTCARD or LEAKAGEFIT. A depressurization and a pressurization that are averaged,
or that are the only ones, stand on one graph. Exit code: 0 drawn, 2 nothing drawn, 3 internal error.`;

export interface Arguments {
  readonly file: string;
  readonly cells: readonly string[];
  readonly list: boolean;
  readonly out: string | undefined;
  readonly overwrite: boolean;
  readonly title: string | undefined;
  readonly limit: number | undefined;
  readonly blankAsZero: boolean;
  readonly help: boolean;
}

const options = {
  cell: { type: "string", multiple: true },
  list: { type: "boolean" },
  out: { type: "string" },
  overwrite: { type: "boolean" },
  title: { type: "string" },
  limit: { type: "string" },
  "blank-as-zero": { type: "boolean" },
} as const;

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals } = parseOptions(given, options);
  const { help = false, list = false, overwrite = false, cell: cells = [], title, out, limit } = values;
  const [file = ""] = positionals;
  if (!help && positionals.length !== 1) throw new BadArgument("name one workbook (--help tells more)");
  if (out === "") throw new BadArgument("--out needs a file name");
  return {
    file,
    cells,
    list,
    out,
    overwrite,
    title,
    limit: limit === undefined ? undefined : flowOf(limit),
    blankAsZero: values["blank-as-zero"] ?? false,
    help,
  };
}

function flowOf(text: string): number {
  const flow = Number(text.replace(",", "."));
  if (text.trim() !== "" && flow > 0 && flow < Infinity) return flow;
  throw new BadArgument(sentence`--limit needs a flow above 0, not "${text}"`);
}
