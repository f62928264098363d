import { BadArgument } from "../shared/bad-argument";
import { parseOptions } from "../shared/parse-options";

export const usage = `Reviews workbooks that someone else made, without Excel: recomputes every cell it can and says what a reviewer should look at.

  npm run verify -- FILE-or-FOLDER... [options]

  --html FILE       write the report as a web page (one file, nothing fetched)
  --markdown FILE   write the report as Markdown
  --json            print one JSON document instead of text
  --list            print every finding in full: without it findings of one kind are gathered
  --overwrite       let --html and --markdown replace files that exist (never a workbook)
  --threads N       use N cores instead of all
  --help            print this

Findings are "wrong" (the workbook says something that is not so), "doubtful" (a person must look) or a "note" (to be known).
Exit code: 0 nothing wrong or doubtful, 1 findings, 2 a workbook unreadable or not recomputed in full, a bad argument or no report
written, 3 internal error.`;

export interface Arguments {
  readonly paths: readonly string[];
  readonly html?: string;
  readonly markdown?: string;
  readonly threads?: number;
  readonly json: boolean;
  readonly list: boolean;
  readonly overwrite: boolean;
  readonly help: boolean;
}

const options = {
  html: { type: "string" },
  markdown: { type: "string" },
  threads: { type: "string" },
  json: { type: "boolean" },
  list: { type: "boolean" },
  overwrite: { type: "boolean" },
} as const;

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals } = parseOptions(given, options);
  const { html, markdown, json = false, list = false, overwrite = false, help = false } = values;
  if (!help && positionals.length === 0) throw new BadArgument("name a workbook or a folder (--help tells more)");
  if (html === "" || markdown === "") throw new BadArgument("--html and --markdown need a file name");
  if (html !== undefined && html === markdown) throw new BadArgument("--html and --markdown name the same file");
  const threads = values.threads === undefined ? undefined : Number(values.threads);
  if (threads !== undefined && !(Number.isInteger(threads) && threads >= 1 && threads <= 64)) {
    throw new BadArgument("--threads needs a number from 1 to 64");
  }
  return {
    paths: positionals,
    json,
    list,
    overwrite,
    help,
    ...(html !== undefined && { html }),
    ...(markdown !== undefined && { markdown }),
    ...(threads !== undefined && { threads }),
  };
}
