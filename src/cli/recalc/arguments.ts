import { BadArgument } from "../shared/bad-argument";
import { parseOptions } from "../shared/parse-options";

export const usage = `Recalculates workbooks without Excel and compares every cell with its stored value.

  npm run recalc -- FILE-or-FOLDER... [options]

  --set 'Sheet!B4=512'   put a value into a cell first (may be given several times); one workbook only.
                         A number, TRUE or FALSE, text, "text in double quotes", or nothing for a blank cell.
                         A sheet name with blanks or signs may stand in single quotes: 'Air leakage'!B4=512
  --over-formulas        let --set replace the result of a formula; not together with --out
  --out FILE             write a copy with the recalculated values; nothing else in it changes. One workbook only
  --html FILE            write a page to look at or to hand on: results, findings, the air leakage graph, every sheet as a table.
                         One file that needs nothing else. One workbook only
  --overwrite            let --out and --html replace files that exist (never the input)
  --keep-old-values      let --out write a copy although some cells could not be evaluated: these keep their stored
                         values, which may be out of date. Without it there is no copy then
  --list                 list every changed or different cell: without it the lists are cut, and with --out only counted
  --blank-as-zero        hand blank cells to the add-in's functions as 0, as some versions of Excel do
  --work N               allow a workbook N times the usual steps and memory
                         (200 million and 250 MB, several times what a large workbook takes); cells beyond are not evaluated
  --json                 print one JSON document instead of text
  --help                 print this

Exit code: 0 all stored values are right, 1 some differ, 2 cells not evaluated, a file unreadable, a bad argument or no copy
written, 3 internal error. With --out the results are meant to change: 0 all evaluated, 1 error values where there
were none, 2 and 3 as above.`;

export interface Arguments {
  readonly paths: readonly string[];
  readonly set: readonly string[];
  readonly out?: string;
  readonly html?: string;
  readonly overwrite: boolean;
  readonly keepOldValues: boolean;
  readonly list: boolean;
  readonly overFormulas: boolean;
  readonly blankAsZero: boolean;
  /** How many times the usual work a workbook may take. */
  readonly work: number;
  readonly json: boolean;
  readonly help: boolean;
}

/** Beyond, the memory of no machine is enough. */
const mostWork = 1000;

const options = {
  set: { type: "string", multiple: true },
  out: { type: "string" },
  html: { type: "string" },
  overwrite: { type: "boolean" },
  "keep-old-values": { type: "boolean" },
  list: { type: "boolean" },
  "over-formulas": { type: "boolean" },
  "blank-as-zero": { type: "boolean" },
  work: { type: "string" },
  json: { type: "boolean" },
} as const;

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals } = parseOptions(given, options);
  const { set = [], out, html, overwrite = false, list = false, json = false, help = false } = values;
  const overFormulas = values["over-formulas"] ?? false;
  const keepOldValues = values["keep-old-values"] ?? false;
  const blankAsZero = values["blank-as-zero"] ?? false;
  if (!help && positionals.length === 0) throw new BadArgument("name a workbook or a folder (--help tells more)");
  if (overwrite && out === undefined && html === undefined)
    throw new BadArgument("--overwrite goes with --out or --html");
  if (keepOldValues && out === undefined) throw new BadArgument("--keep-old-values goes with --out");
  if (overFormulas && set.length === 0) throw new BadArgument("--over-formulas goes with --set");
  if (overFormulas && out !== undefined) {
    throw new BadArgument("--over-formulas cannot be combined with --out: the copy would lose the formula");
  }
  if (out === "") throw new BadArgument("--out needs a file name");
  if (html === "") throw new BadArgument("--html needs a file name");
  const work = values.work === undefined ? 1 : Number(values.work);
  if (!(work > 0 && work <= mostWork)) throw new BadArgument(`--work needs a number above 0, at most ${mostWork}`);
  const rest = { paths: positionals, set, overwrite, keepOldValues, list, overFormulas, blankAsZero, work, json, help };
  return { ...rest, ...(out !== undefined && { out }), ...(html !== undefined && { html }) };
}
