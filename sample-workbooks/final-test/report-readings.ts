import { lettersOf, columnOf } from "../blocks/address";
import { decimals } from "../blocks/style";
import type { Runs } from "./direction";
import { readingRows } from "./reading-rows";
import { shown, type ReportWriter } from "./report-writer";
import { onRun } from "./shadow-places";

const count = readingRows.last - readingRows.first + 1;

/** Baseline readings with their signs, and the table of induced pressures and flows of every run. */
export function readingsPart(writer: ReportWriter, runs: Runs): void {
  const numbers = Array.from(
    { length: 10 },
    (_, index) => [lettersOf(columnOf("C") + index), String(index + 1)] as const,
  );
  writer.heading("Baseline pressures, flow device covered, in Pa, with their signs");
  for (const run of runs) {
    const there = onRun(run);
    const name = run.direction + (run.run === 1 ? "" : ", second run");
    writer.heads([
      ["B", "B", `<${short(run)}`],
      ...numbers.map(([letter, number]) => [letter, letter, number] as const),
      ["M", "M", "mean"],
    ]);
    for (const [row, when] of [
      [16, "before"],
      [17, "after"],
    ] as const)
      writer.cells([
        ["B", "B", `"${when}"`],
        ...numbers.map(
          ([letter], index) =>
            [letter, letter, shown(there(`${lettersOf(columnOf("D") + index)}${row}`)), decimals(1)] as const,
        ),
        ["M", "M", shown(there(`N${row}`)), decimals(2)],
      ]);
    if (run.run === 2) writer.sentence(`IF(COUNTA(${run.readings})=0,"${name}: not made.","")`);
  }
  writer.skip();
  writer.heading("Induced pressures and flows through the envelope");
  readingTable(writer, runs);
}

function short({ direction, run }: Runs[number]): string {
  return `${direction === "depressurization" ? "depr." : "press."}${run === 1 ? "" : " 2"}`;
}

function readingTable(writer: ReportWriter, runs: Runs): void {
  const { flow } = runs[0].form.units;
  const columns = [
    ["C", "D"],
    ["E", "F"],
    ["G", "H"],
    ["I", "J"],
  ] as const;
  const pairs = runs.map((run, index) => ({ run, letters: columns[index] ?? columns[0] }));
  writer.heads([...pairs.map(({ run, letters }) => [letters[0], letters[1], short(run)] as const), ["K", "M", ""]]);
  writer.heads([
    ["B", "B", "<no."],
    ...pairs.flatMap(({ letters }) => [
      [letters[0], letters[0], "Δp, Pa"] as const,
      [letters[1], letters[1], flow] as const,
    ]),
    ["K", "M", "<<left out, and why"],
  ]);
  for (let index = 0; index < count; index++) {
    const quiet = (cell: string) => `IFERROR(${shown(cell)},"")`;
    const left = runs.map((run) => {
      const { use, reason } = run.reading(index);
      return `IF(${use}="no","${short(run)}: "&${reason}&" ","")`;
    });
    writer.cells([
      ["B", "B", String(index + 1), "0"],
      ...pairs.flatMap(({ run, letters }) => {
        const { induced, flow: through } = run.reading(index);
        return [
          [letters[0], letters[0], quiet(induced), decimals(1)],
          [letters[1], letters[1], quiet(through), decimals(1)],
        ] as const;
      }),
      ["K", "M", `TRIM(${left.join("&")})`],
    ]);
  }
  writer.words(
    "Δp: reading less the baseline, indoors minus outdoors. Flow through the envelope at the conditions of the test. A reading that is left out is shown and takes no part in the line.",
  );
}
