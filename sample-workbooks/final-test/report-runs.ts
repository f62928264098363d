import type { Runs } from "./direction";
import type { ReportWriter } from "./report-writer";

/** The two columns that belong to each run, in every table of the report. */
export const runColumns = [
  ["F", "G"],
  ["H", "I"],
  ["J", "K"],
  ["L", "M"],
] as const;

/** Heads over the columns of the runs. */
export function runHeads(runs: Runs): (readonly [from: string, to: string, words: string])[] {
  return runs.map(({ direction, run }, index) => {
    const [from = "", to = ""] = runColumns[index] ?? [];
    return [from, to, run === 1 ? direction : "second run"] as const;
  });
}

/** One row over the runs; a run that was not made is blank. */
export function runRow(
  writer: ReportWriter,
  runs: Runs,
  label: string,
  format: string,
  cell: (run: Runs[number]) => string,
): void {
  writer.cells([
    ["B", "E", `"${label}"`],
    ...runs.map((run, index) => {
      const [from = "", to = ""] = runColumns[index] ?? [];
      return [from, to, `IF(COUNTA(${run.readings})=0,"",${cell(run)})`, format] as const;
    }),
  ]);
}
