import { BadArgument, parseOptions } from "../../../src/cli/shared/parse-options";
import { cases, type Case } from "./cases";
import { scenarios } from "./scenarios";
import { techniques } from "./techniques";

export const usage = `Says how often the intervals of the built functions hold the true value, by simulated tests.

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

export interface Arguments {
  /** The cases by their places in the list. */
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
  if (positionals.length > 0) throw new BadArgument(`"${positionals[0]}" is no option (see --help)`);
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
