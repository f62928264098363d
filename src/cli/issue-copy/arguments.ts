import { BadArgument } from "../shared/bad-argument";
import { parseOptions } from "../shared/parse-options";
import { sentence } from "../../workbook/index";

export const usage = `Writes the copy that goes to someone without the add-in. What needs the add-in holds its value; a sheet at the end lists these formulas, the
method's version and a fingerprint of inputs and results, by which "npm run verify" tells whether the copy is as it was issued.

  npm run issue-copy -- FILE --out FILE [options]

  --date YYYY-MM-DD   day of issue; without it today
  --recalculate       where stored values are not what the formulas give, put in what they give. Without it there is no copy then
  --keep-old-values   issue a copy although some cells could not be evaluated: these keep their stored values
  --overwrite         replace the file if it exists (never the input)
  --help              print this

All other formulas stay, and everything else of the workbook is as it was. Exit code: 0 issued, 2 not, 3 internal error.`;

export interface Arguments {
  readonly file: string;
  readonly out: string;
  readonly date: string;
  readonly recalculate: boolean;
  readonly keepOldValues: boolean;
  readonly overwrite: boolean;
  readonly help: boolean;
}

const options = {
  out: { type: "string" },
  date: { type: "string" },
  recalculate: { type: "boolean" },
  "keep-old-values": { type: "boolean" },
  overwrite: { type: "boolean" },
} as const;

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[], today: Date): Arguments {
  const { values, positionals } = parseOptions(given, options);
  const { help = false, out = "", overwrite = false, recalculate = false, date } = values;
  const [file = "", ...more] = positionals;
  if (!help && (file === "" || more.length > 0)) throw new BadArgument("name one workbook (--help tells more)");
  if (!help && out === "") throw new BadArgument("--out needs a file name for the copy (--help tells more)");
  return {
    file,
    out,
    date: date === undefined ? dayOf(today) : checkedDay(date),
    recalculate,
    keepOldValues: values["keep-old-values"] ?? false,
    overwrite,
    help,
  };
}

/** The day by the clock on the wall. */
function dayOf(moment: Date): string {
  const two = (number: number): string => String(number).padStart(2, "0");
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

function checkedDay(text: string): string {
  const moment = new Date(`${text}T12:00:00Z`);
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(moment.getTime()) && moment.toISOString().startsWith(text))
    return text;
  throw new BadArgument(sentence`--date needs a day such as 2026-11-05, not "${text}"`);
}
