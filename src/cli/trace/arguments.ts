import { BadArgument } from "../shared/bad-argument";
import { parseOptions } from "../shared/parse-options";
import { sentence } from "../../workbook/index";

export const usage = `Traces a cell back to what was typed in: each step with its label, its formula in words, its equation and source, its value and unit.
The workbook is recalculated first and never changed.

  npm run trace -- FILE 'Sheet!C7' [options]

  A defined name does in place of a cell. A sheet name with blanks or signs may stand in single quotes: "'Air leakage'!C7"

  --markdown         print Markdown
  --json             print JSON: every place once, with all its cells
  --html             print a page of its own, to open in a browser
  --out FILE         write it to a file instead of printing it
  --overwrite        replace that file if it exists (never the workbook)
  --depth STEPS      go back only so many steps
  --blank-as-zero    hand blank cells to the add-in's functions as 0, as some versions of Excel do
  --help             print this

A branch of IF that did not count is not followed, and a look-up leads to the entry that it found. A place that was told already is referred to
by its number. Exit code: 0 traced, 2 not, 3 internal error.`;

const forms = ["markdown", "json", "html"] as const;

export interface Arguments {
  readonly file: string;
  readonly cell: string;
  readonly form: (typeof forms)[number] | "text";
  readonly out: string | undefined;
  readonly overwrite: boolean;
  readonly depth: number;
  readonly blankAsZero: boolean;
  readonly help: boolean;
}

const options = {
  markdown: { type: "boolean" },
  json: { type: "boolean" },
  html: { type: "boolean" },
  out: { type: "string" },
  overwrite: { type: "boolean" },
  depth: { type: "string" },
  "blank-as-zero": { type: "boolean" },
} as const;

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals } = parseOptions(given, options);
  const { help = false, out, overwrite = false, depth } = values;
  const [file = "", cell = "", ...more] = positionals;
  if (!help && (cell === "" || more.length > 0))
    throw new BadArgument("name one workbook and one cell, such as 'Results!C7' (--help tells more)");
  const chosen = forms.filter((form) => values[form] === true);
  if (chosen.length > 1) throw new BadArgument(`choose one of ${forms.map((form) => `--${form}`).join(", ")}`);
  if (out === "") throw new BadArgument("--out needs a file name");
  if (overwrite && out === undefined) throw new BadArgument("--overwrite goes with --out");
  return {
    file,
    cell,
    form: chosen[0] ?? "text",
    out,
    overwrite,
    depth: depth === undefined ? Infinity : stepsOf(depth),
    blankAsZero: values["blank-as-zero"] ?? false,
    help,
  };
}

function stepsOf(text: string): number {
  const steps = Number(text);
  if (/^\d+$/.test(text.trim()) && steps <= 1_000_000) return steps;
  throw new BadArgument(sentence`--depth needs a number of steps, not "${text}"`);
}
