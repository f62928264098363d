import { columnOf, lettersOf } from "../blocks/address";
import { decimals } from "../blocks/style";
import type { Runs } from "./direction";
import { readingRows } from "./reading-rows";
import { runColumns, runHeads } from "./report-runs";
import { type ReportWriter, shown } from "./report-writer";
import { onRun } from "./shadow-places";

const readingCount = readingRows.last - readingRows.first + 1;
const baselineCount = 10;

/** Baseline readings with their signs, and the table of induced pressures and flows, every run in columns of its own. */
export function readingsPart(writer: ReportWriter, runs: Runs): void {
  writer.heading("Baseline pressures, flow device covered, in Pa, with their signs");
  twoHeads(writer, runs, ["before", "after"]);
  const baselines = (label: string, digits: number, column: string) =>
    writer.cells([
      ["B", "E", `"${label}"`],
      ...runs.flatMap((run, which) => {
        const there = onRun(run);
        return (["before", "after"] as const).map((when, side) => {
          const letter = runColumns[which]?.[side] ?? "";
          return [letter, letter, shown(there(`${column}${when === "before" ? 16 : 17}`)), decimals(digits)] as const;
        });
      }),
    ]);
  for (let index = 0; index < baselineCount; index++) baselines(String(index + 1), 1, lettersOf(columnOf("D") + index));
  baselines("mean", 2, "N");
  writer.skip();
  writer.heading("Induced pressures and flows through the envelope");
  twoHeads(writer, runs, ["Δp, Pa", runs[0].form.units.flow], "<no.; left out, and why");
  for (let index = 0; index < readingCount; index++) readingRow(writer, runs, index);
  writer.words(
    "Δp: reading less the baseline, indoors minus outdoors. Flow through the envelope at the conditions of the test. A reading that is left out is shown and takes no part in the line.",
  );
}

function twoHeads(writer: ReportWriter, runs: Runs, words: readonly [string, string], left = "<no."): void {
  writer.heads(runHeads(runs));
  writer.heads([
    ["B", "E", left],
    ...runColumns.flatMap(([one, two]) => [[one, one, words[0]] as const, [two, two, words[1]] as const]),
  ]);
}

/** A row of the readings with the same number; a run without it is blank. */
function readingRow(writer: ReportWriter, runs: Runs, index: number): void {
  const quiet = (cell: string) => `IFERROR(${shown(cell)},"")`;
  const left = runs.map((run) => {
    const { use, reason } = run.reading(index);
    const name = `${run.direction === "depressurization" ? "depr." : "press."}${run.run === 1 ? "" : " 2"}`;
    return `IF(${use}="no","; ${name}: "&${reason},"")`;
  });
  writer.cells([
    ["B", "E", `"${index + 1}"&${left.join("&")}`],
    ...runs.flatMap((run, which) => {
      const [one = "", two = ""] = runColumns[which] ?? [];
      const { induced, flow } = run.reading(index);
      return [[one, one, quiet(induced), decimals(1)] as const, [two, two, quiet(flow), decimals(1)] as const];
    }),
  ]);
}
