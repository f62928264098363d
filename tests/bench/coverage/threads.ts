import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { buildSync } from "esbuild";
import type { Outcome } from "./evaluate";
import type { Job } from "./outcomes";

/** Tests of one job: few enough that all cores end together, so many that handing them over costs nothing. */
const testsPerJob = 50;

/** What is to be run: the tests 0 to `tests` − 1 of each case, by its place in the list. */
export interface Run {
  readonly indices: readonly number[];
  readonly seed: number;
  readonly tests: number;
  /** The built functions.js. */
  readonly bundle: string;
  readonly threads?: number | undefined;
}

function jobsOf({ indices, seed, tests }: Run): Job[] {
  return indices.flatMap((index) =>
    Array.from({ length: Math.ceil(tests / testsPerJob) }, (_, chunk) => ({
      index,
      seed,
      from: chunk * testsPerJob,
      to: Math.min(tests, (chunk + 1) * testsPerJob),
    })),
  );
}

/** The program of a thread as plain JavaScript: a thread does not inherit what reads TypeScript in the main one. */
function threadProgram(): string {
  const built = buildSync({
    entryPoints: ["tests/bench/coverage/worker.ts"],
    bundle: true,
    platform: "node",
    format: "cjs",
    write: false,
  });
  return built.outputFiles[0]!.text;
}

/**
 * Runs the tests on all cores and gives the outcomes of each case in the order of its tests: the same for a seed whatever the number of cores.
 * @param tell Reports how many tests are done, and the case of the latest.
 */
export async function runOnThreads(run: Run, tell: (done: number, index: number) => void): Promise<Outcome[][]> {
  const jobs = jobsOf(run);
  const outcomes: Outcome[][] = jobs.map(() => []);
  const program = threadProgram();
  let [next, done] = [0, 0];
  const thread = () =>
    new Promise<void>((resolve, reject) => {
      const worker = new Worker(program, { eval: true, workerData: run.bundle });
      let current = -1;
      const take = () => {
        current = next++;
        const job = jobs[current];
        if (job === undefined) void worker.terminate().then(() => resolve());
        else worker.postMessage(job);
      };
      worker.on("message", (found: Outcome[]) => {
        outcomes[current] = found;
        done += found.length;
        tell(done, jobs[current]!.index);
        take();
      });
      worker.on("error", reject);
      take();
    });
  const count = Math.min(jobs.length, run.threads ?? availableParallelism());
  await Promise.all(Array.from({ length: count }, thread));
  return run.indices.map((index) => jobs.flatMap((job, place) => (job.index === index ? outcomes[place]! : [])));
}
