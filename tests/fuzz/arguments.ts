import { availableParallelism } from "node:os";
import { z } from "zod";
import { flag, parseOptions, typedNumber } from "../../src/cli/shared/parse-options";

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

const commandLine = z
  .object({
    positionals: z.array(z.string()),
    minutes: typedNumber(0.1, 100_000, "any").default(10),
    inputs: typedNumber(1, 1e9).default(Infinity),
    seed: typedNumber(0, 2 ** 32 - 1).default(1),
    first: typedNumber(0, 1e9).default(0),
    noCorpus: flag,
    corpusOnly: flag,
    findings: z.string().default("fuzz-findings"),
    threads: typedNumber(1, 64).default(availableParallelism()),
  })
  .refine(({ noCorpus, corpusOnly }) => !noCorpus || !corpusOnly, "choose one of --no-corpus and --corpus-only");

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]) {
  const asked = parseOptions(given, commandLine);
  if (asked.help) return asked;
  const { positionals: files, noCorpus, corpusOnly } = asked;
  return { ...asked, files, corpus: files.length === 0 && !noCorpus, mutants: files.length === 0 && !corpusOnly };
}

export type Arguments = Exclude<ReturnType<typeof readArguments>, { readonly help: true }>;
