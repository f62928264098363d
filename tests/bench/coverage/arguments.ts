import { z } from "zod";
import { BadArgument, flag, parseOptions, typedNumber } from "../../../src/cli/shared/parse-options";
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

const commandLine = z.object({
  positionals: z.array(z.string()).max(0, "name options alone (see --help)"),
  coverage: flag,
  tests: typedNumber(10, 1_000_000).default(4000),
  scenario: z.string().optional(),
  technique: z.string().optional(),
  seed: typedNumber(0, 2 ** 32 - 1).default(1),
  threads: typedNumber(1, 64).optional(),
  json: flag,
});

/** Reads the command line, the cases by their places in the list; throws BadArgument. */
export function readArguments(given: readonly string[]) {
  const asked = parseOptions(given, commandLine);
  if (asked.help) return asked;
  const { scenario, technique } = asked;
  const fits = (one: Case) =>
    (scenario === undefined || one.scenario.name === scenario) &&
    (technique === undefined || one.technique.technique === technique);
  const indices = cases.flatMap((one, index) => (fits(one) ? [index] : []));
  if (indices.length === 0) throw new BadArgument("no such scenario with such a technique (--help names them)");
  return { ...asked, indices };
}

export type Arguments = Exclude<ReturnType<typeof readArguments>, { readonly help: true }>;
