import { BadArgument } from "../../../src/cli/shared/parse-options";
import { type Output, Progress } from "../../../src/cli/shared/output";
import { shippedFunctions } from "../shipped";
import { readArguments, usage, type Arguments } from "./arguments";
import { cases } from "./cases";
import { blockOf, endingOf, headingOf, jsonOf, type Counted } from "./print";
import { tally } from "./tally";
import { runOnThreads } from "./threads";

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

/** Runs the cases of one table. */
async function count(
  indices: readonly number[],
  { tests, seed, threads }: Arguments,
  bundle: string,
): Promise<Counted[]> {
  const progress = new Progress();
  const outcomes = await runOnThreads({ indices, seed, tests, bundle, threads }, (done, index) => {
    const { scenario, instruments, technique } = cases[index]!;
    const name = `${scenario.name}, ${instruments.name}, ${technique.name}`;
    progress.step(`${name}: ${done} of the ${indices.length * tests} tests of this table`);
  });
  progress.clear();
  return indices.map((index, place): Counted => ({ of: cases[index]!, figures: tally(outcomes[place]!) }));
}

/** Prints each table as soon as it is counted: a run takes long, and may be broken off. */
async function run(asked: Arguments, bundle: string, output: Output): Promise<void> {
  const { seed, tests, json, indices } = asked;
  const method = String(shippedFunctions(bundle).get("METHODVERSION")!());
  const words = { seed, tests, method };
  const all: Counted[] = [];
  if (!json) output.print(headingOf(words).split("\n"));
  for (const table of byTable(indices)) {
    const counted = await count(table, asked, bundle);
    all.push(...counted);
    if (!json) output.print(blockOf(counted).split("\n"));
  }
  if (json) output.printJson(jsonOf(all, words));
  else output.print(endingOf(all).split("\n"));
}

/** Runs the command and gives its exit code: 0, or 2 for a bad argument. Figures outside what is wanted are printed, and no fault of the command. */
export async function coverageCommand(given: readonly string[], bundle: string, output: Output): Promise<0 | 2> {
  try {
    const asked = readArguments(given);
    if (asked.help) {
      output.print(usage.split("\n"));
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
