import { alignColumns } from "../../src/cli/shared/report-lines";
import { budget, type Outcome } from "./runs/outcome";

interface Most {
  seconds: number;
  slowest: string;
  memory: number;
  largest: string;
  runs: number;
}

const megabytes = (bytes: number): string => `${Math.round(bytes / 2 ** 20)} MB`;

/** Counts runs, and keeps the dearest of each command. */
export class Tally {
  passed = 0;
  failed = 0;
  inputs = 0;
  private readonly most = new Map<string, Most>();
  private readonly slow: string[] = [];

  add(input: string, outcomes: readonly Outcome[]): void {
    this.inputs++;
    for (const outcome of outcomes) this.addRun(input, outcome);
  }

  private addRun(input: string, { way, as, seconds, memory, faults }: Outcome): void {
    if (faults.length > 0) this.failed++;
    else this.passed++;
    const name = `${way}, ${as}`;
    const most = this.most.get(name) ?? { seconds: -1, slowest: "", memory: -1, largest: "", runs: 0 };
    most.runs++;
    if (seconds > most.seconds) [most.seconds, most.slowest] = [seconds, input];
    if (memory > most.memory) [most.memory, most.largest] = [memory, input];
    this.most.set(name, most);
    if (seconds > budget.seconds) this.slow.push(`${seconds.toFixed(1)} s: ${name}: ${input}`);
  }

  /** What the runs took, the dearest of each command by name. */
  lines(): string[] {
    const rows = [...this.most].map(([name, { runs, seconds, slowest, memory, largest }]) => [
      ...[name, String(runs), `${seconds.toFixed(1)} s`, slowest, megabytes(memory), largest],
    ]);
    const slow = this.slow.slice(0, 40);
    return [
      `${this.inputs} workbooks. The most processor time and memory that a run of each command took, and for which workbook:`,
      ...alignColumns(
        [["command", "runs", "time", "of", "memory", "of"], ...rows],
        [false, true, true, false, true, false],
      ).map((line) => `  ${line}`),
      ...(slow.length > 0
        ? [`Above the budget of ${budget.seconds} s: ${this.slow.length} runs`, ...slow.map((line) => `  ${line}`)]
        : [`No run took more than ${budget.seconds} s of processor time.`]),
    ];
  }
}
