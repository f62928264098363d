import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { BadArgument } from "../../src/cli/shared/parse-options";
import { type Output, Progress } from "../../src/cli/shared/output";
import { readArguments, usage, type Arguments } from "./arguments";
import { corpusNames, corpusWorkbook } from "./corpus/corpus";
import { drawsOf } from "./draws";
import { signatureOf, writeFinding } from "./findings";
import { Mutants } from "./mutants/draw";
import { wholeOf, type Mutant } from "./mutants/mutant";
import { allWays, mainWays, type Way } from "./runs/commands";
import { buildHelper } from "./runs/in-process";
import type { Outcome } from "./runs/outcome";
import { shrink } from "./shrink";
import { Tally } from "./tally";
import { Trial } from "./trial";

/** A workbook to try, and how. */
interface Job {
  readonly name: string;
  readonly mutant: Mutant;
  readonly ways: readonly Way[];
  readonly programs: readonly Way[];
}

/** One mutant in so many also goes through a command as a user starts it, which takes half a second for the start alone. */
const programOnceIn = 12;

/** A workbook that is taken as it is: of the corpus by its name there, or a file. */
function fileOrCorpus(name: string): Mutant {
  const build = (): Uint8Array =>
    corpusNames().includes(name) ? corpusWorkbook(name).bytes : new Uint8Array(readFileSync(name));
  return { words: name, steps: 0, build };
}

function* jobsOf({ files, corpus, mutants, seed, first, inputs }: Arguments): Generator<Job> {
  for (const file of files)
    yield { name: basename(file), mutant: fileOrCorpus(file), ways: allWays, programs: allWays };
  if (corpus)
    for (const [index, name] of corpusNames().entries()) {
      // By all ways, and as programs too, they take half an hour.
      const [ways, programs] = mutants ? [mainWays, [allWays[index % allWays.length]!]] : [allWays, allWays];
      yield { name, mutant: fileOrCorpus(name), ways, programs };
    }
  if (!mutants) return;
  const drawn = new Mutants(seed);
  for (let number = first; number < first + inputs; number++) {
    const draws = drawsOf(number);
    const mutant = drawn.mutant(number);
    const programs = draws.onceIn(programOnceIn) ? [draws.pick(allWays)] : [];
    yield { name: `seed ${seed}, number ${number}`, mutant, ways: waysFor(draws.seed()), programs };
  }
}

/** One way of each command: every way would do the same reading and computing again. */
function waysFor(seed: number): Way[] {
  const draws = drawsOf(seed);
  const commands = [...new Set(allWays.map((way) => way.split(" ")[0]))];
  return commands.map((command) => draws.pick(allWays.filter((way) => way.split(" ")[0] === command)));
}

class Run {
  readonly tally = new Tally();
  private readonly seen = new Map<string, number>();
  private readonly progress = new Progress();
  /** When the last mutant begins; the time runs from the first one. */
  private end: number | undefined;

  constructor(
    private readonly asked: Arguments,
    private readonly output: Output,
  ) {}

  /** All jobs, on as many cores as asked for; mutants end with the time, corpus and files do not. */
  async all(): Promise<void> {
    const helper = buildHelper();
    const jobs = jobsOf(this.asked);
    const work = async (): Promise<void> => {
      const trial = new Trial(helper.file);
      try {
        for (let next = jobs.next(); !next.done; next = jobs.next()) {
          if (this.isOver(next.value)) break;
          await this.one(trial, next.value);
        }
      } finally {
        trial.close();
      }
    };
    try {
      await Promise.all(Array.from({ length: this.asked.threads }, work));
    } finally {
      helper.remove();
      this.progress.clear();
    }
  }

  private isOver({ mutant }: Job): boolean {
    if (mutant.steps === 0) return false;
    this.end ??= Date.now() + this.asked.minutes * 60_000;
    return Date.now() > this.end;
  }

  private async one(trial: Trial, { name, mutant, ways, programs }: Job): Promise<void> {
    const outcomes = await trial.run(wholeOf(mutant), ways, programs);
    this.tally.add(name, outcomes);
    for (const outcome of outcomes)
      for (const fault of outcome.faults) await this.report(trial, { name, mutant, ways, programs }, outcome, fault);
    this.progress.step(`fuzz: ${this.tally.inputs} workbooks, ${this.tally.failed} runs failed; ${name}`);
  }

  /** Prints each kind of fault once, with its smallest workbook, and counts the others like it. */
  private async report(
    trial: Trial,
    { name, mutant }: Job,
    outcome: Outcome,
    fault: Outcome["faults"][number],
  ): Promise<void> {
    const signature = signatureOf(outcome, fault);
    const times = (this.seen.get(signature) ?? 0) + 1;
    this.seen.set(signature, times);
    const known = mutant.steps === 0;
    if (!known && times > 1) return;
    this.progress.clear();
    this.output.print(
      `FOUND ${name}: ${outcome.way}, ${outcome.as}: ${fault.kind}: ${fault.words.split("\n").slice(0, 3).join(" | ").slice(0, 300)}`,
    );
    if (known) return;
    const [inProcess, asProgram] = outcome.as === "program" ? [[], [outcome.way]] : [[outcome.way], []];
    const isSlow = outcome.seconds > 5;
    const smallest = isSlow
      ? wholeOf(mutant)
      : await shrink(mutant, async (bytes) => {
          const [again] = await trial.run(bytes, inProcess, asProgram);
          return again?.faults.some((other) => signatureOf(again, other) === signature) ?? false;
        });
    const lines = [
      `${outcome.way}, ${outcome.as}: ${fault.kind}`,
      `${name}: ${mutant.words}`,
      `npm run fuzz -- --no-corpus --seed ${this.asked.seed} --first ${name.split(" ").at(-1)} --inputs 1`,
      fault.words,
    ];
    const file = writeFinding(this.asked.findings, `${outcome.way} ${fault.kind} ${name}`, smallest, lines);
    this.output.print(`  written to ${file} (${smallest.length} bytes)`);
  }

  lines(): string[] {
    const repeated = [...this.seen]
      .filter(([, times]) => times > 1)
      .map(([signature, times]) => `  ${times} × ${signature}`);
    return [...this.tally.lines(), ...(repeated.length > 0 ? ["Found more than once:", ...repeated] : [])];
  }
}

/** Runs the command and gives its exit code. */
export async function fuzzCommand(given: readonly string[], output: Output): Promise<0 | 1 | 2> {
  try {
    const asked = readArguments(given);
    if (asked.help) {
      output.print(usage.split("\n"));
      return 0;
    }
    const run = new Run(asked, output);
    output.print(`Seed ${asked.seed}, from number ${asked.first}.`);
    await run.all();
    output.print([...run.lines(), `${run.tally.passed} passed, ${run.tally.failed} failed`]);
    return run.tally.failed > 0 ? 1 : 0;
  } catch (problem) {
    if (!(problem instanceof BadArgument)) throw problem;
    output.complain(`fuzz: ${problem.message}`);
    return 2;
  }
}
