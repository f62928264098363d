import { BadArgument } from "../../../src/cli/shared/bad-argument";
import type { Output } from "../../../src/cli/shared/output";
import { parseOptions } from "../../../src/cli/shared/parse-options";
import { Progress } from "../../../src/cli/shared/progress";
import { shippedFunctions } from "../shipped";
import { cases, lackingFor, type Case } from "./cases";
import { blockOf, endingOf, headingOf, jsonOf, type Counted } from "./print";
import { scenarios } from "./scenarios";
import { tally } from "./tally";
import { techniques } from "./techniques";
import { runOnThreads } from "./threads";

const usage = `Says how often the intervals of the built functions hold the true value, by simulated tests.

  npm run bench -- --coverage [options]

  --tests N          simulated tests of each row, 4000 if not given
  --scenario NAME    this one alone: ${scenarios.map(({ name }) => name).join(", ")}
  --technique NAME   this one alone: ${[...new Set(techniques.map(({ technique }) => technique))].join(", ")}
  --seed N           1 if not given; the same seed gives the same figures on any number of cores
  --threads N        use N cores instead of all
  --json             print one JSON document instead of the table
  --help             print this`;

const options = {
  coverage: { type: "boolean" },
  tests: { type: "string" },
  scenario: { type: "string" },
  technique: { type: "string" },
  seed: { type: "string" },
  threads: { type: "string" },
  json: { type: "boolean" },
} as const;

interface Arguments {
  readonly indices: readonly number[];
  readonly tests: number;
  readonly seed: number;
  readonly threads: number | undefined;
  readonly json: boolean;
  readonly help: boolean;
}

function wholeNumber(name: string, given: string, lowest: number, highest: number): number {
  const value = Number(given);
  if (given.trim() !== "" && Number.isInteger(value) && value >= lowest && value <= highest) return value;
  throw new BadArgument(`--${name} needs a whole number from ${lowest} to ${highest}`);
}

/** Reads the command line; throws BadArgument. */
export function readArguments(given: readonly string[]): Arguments {
  const { values, positionals } = parseOptions(given, options);
  const { scenario, technique, tests = "4000", seed = "1", threads, json = false, help = false } = values;
  if (positionals.length > 0) throw new BadArgument(`"${positionals[0]}" is no option (--help tells more)`);
  const fits = (one: Case) =>
    (scenario === undefined || one.scenario.name === scenario) &&
    (technique === undefined || one.technique.technique === technique);
  const indices = cases.flatMap((one, index) => (fits(one) ? [index] : []));
  if (indices.length === 0) throw new BadArgument("no such scenario with such a technique (--help names them)");
  return {
    indices,
    tests: wholeNumber("tests", tests, 10, 1_000_000),
    seed: wholeNumber("seed", seed, 0, 2 ** 32 - 1),
    threads: threads === undefined ? undefined : wholeNumber("threads", threads, 1, 64),
    json,
    help,
  };
}

/** The cases that one table shows, table by table. */
function byTable(indices: readonly number[]): number[][] {
  const tables = new Map<string, number[]>();
  for (const index of indices) {
    const { scenario, instruments } = cases[index]!;
    const name = `${scenario.name}, ${instruments.name}`;
    tables.set(name, [...(tables.get(name) ?? []), index]);
  }
  return [...tables.values()];
}

/** Runs the cases of one table; what the functions do not know is passed over. */
async function count(
  indices: readonly number[],
  { tests, seed, threads }: Arguments,
  bundle: string,
): Promise<Counted[]> {
  const functions = shippedFunctions(bundle);
  const lacking = indices.map((index) => lackingFor(cases[index]!, functions));
  const tried = indices.filter((_, place) => lacking[place] === undefined);
  const progress = new Progress();
  const outcomes = await runOnThreads({ indices: tried, seed, tests, bundle, threads }, (done, index) => {
    const { scenario, instruments, technique } = cases[index]!;
    const name = `${scenario.name}, ${instruments.name}, ${technique.name}`;
    progress.step(`${name}: ${done} of the ${tried.length * tests} tests of this table`);
  });
  progress.clear();
  return indices.map((index, place): Counted => {
    const of = cases[index]!;
    const words = lacking[place];
    return words === undefined ? { of, figures: tally(outcomes[tried.indexOf(index)]!) } : { of, lacking: words };
  });
}

/** Prints each table as soon as it is counted: a run takes long, and may be broken off. */
async function run(asked: Arguments, bundle: string, output: Output): Promise<void> {
  const { seed, tests, json, indices } = asked;
  const method = String(shippedFunctions(bundle).get("METHODVERSION")!());
  const words = { seed, tests, method };
  const all: Counted[] = [];
  if (!json) output.print(headingOf(words));
  for (const table of byTable(indices)) {
    const counted = await count(table, asked, bundle);
    all.push(...counted);
    if (!json) output.print(blockOf(counted));
  }
  output.print(json ? jsonOf(all, words) : endingOf(all));
}

/** Runs the command and gives its exit code: 0, or 2 for a bad argument. Figures outside what is wanted are printed, and no fault of the command. */
export async function coverageCommand(given: readonly string[], bundle: string, output: Output): Promise<0 | 2> {
  try {
    const asked = readArguments(given);
    if (asked.help) {
      output.print(usage);
      return 0;
    }
    await run(asked, bundle, output);
    return 0;
  } catch (problem) {
    if (!(problem instanceof BadArgument)) throw problem;
    output.complain(`bench: ${problem.message}`);
    return 2;
  }
}
