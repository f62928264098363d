import { availableParallelism } from "node:os";
import { BadArgument, parseOptions } from "../../src/cli/shared/parse-options";

export const usage = `Runs every command on damaged and hostile workbooks and says what breaks: a crash, a stack trace, a control character on the terminal, a changed input, a file left
behind, memory above 1.5 GB, a run without end. Processor time above 10 s is printed, and no fault.

  npm run fuzz -- [FILE...] [options]

  FILE...         these workbooks, or those of the corpus with these names, through every command, and no mutants
  --minutes N     go on with mutants for so long, 10 if not given; the corpus comes first
  --inputs N      stop after so many mutants
  --seed N        the same seed gives the same mutants in the same order, 1 if not given
  --first N       begin with the mutant of this number: how a finding is made again
  --no-corpus     mutants alone
  --corpus-only   the corpus alone, through every command as a user starts it too
  --findings DIR  where findings are written, fuzz-findings if not given
  --threads N     use N cores instead of all
  --help          print this

A finding is the smallest workbook that still shows the fault, and a text with the command, the seed and the number. Exit code: 0 nothing found, 1 findings,
2 a bad argument. The last line is "N passed, N failed", by runs.`;

const options = {
  minutes: { type: "string" },
  inputs: { type: "string" },
  seed: { type: "string" },
  first: { type: "string" },
  "no-corpus": { type: "boolean" },
  "corpus-only": { type: "boolean" },
  findings: { type: "string" },
  threads: { type: "string" },
} as const;

export interface Arguments {
  readonly files: readonly string[];
  readonly minutes: number;
  readonly inputs: number;
  readonly seed: number;
  readonly first: number;
  readonly corpus: boolean;
  readonly mutants: boolean;
  readonly findings: string;
  readonly threads: number;
  readonly help: boolean;
}

function number(name: string, given: string, lowest: number, highest: number, whole = true): number {
  const value = Number(given);
  if (given.trim() !== "" && value >= lowest && value <= highest && (!whole || Number.isInteger(value))) return value;
  throw new BadArgument(`--${name} needs a ${whole ? "whole " : ""}number from ${lowest} to ${highest}`);
}

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals: files } = parseOptions(given, options);
  const { minutes = "10", inputs, seed = "1", first = "0", threads, findings = "fuzz-findings", help = false } = values;
  const [without = false, only = false] = [values["no-corpus"], values["corpus-only"]];
  if (without && only) throw new BadArgument("choose one of --no-corpus and --corpus-only");
  return {
    files,
    minutes: number("minutes", minutes, 0.1, 100_000, false),
    inputs: inputs === undefined ? Infinity : number("inputs", inputs, 1, 1e9),
    seed: number("seed", seed, 0, 2 ** 32 - 1),
    first: number("first", first, 0, 1e9),
    corpus: files.length === 0 && !without,
    mutants: files.length === 0 && !only,
    findings,
    threads: threads === undefined ? availableParallelism() : number("threads", threads, 1, 64),
    help,
  };
}
