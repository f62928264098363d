import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { evaluateBook, openWorkbook } from "../../src/workbook";
import { budgetRatios, trialRatios } from "./budget";
import { fitRatios } from "./fits";
import { logRatios } from "./logs";
import { timeCallsInReview } from "./pane";
import { planningRatios } from "./planning";
import type { Ratio } from "./ratio";
import { timeReader } from "./reader";
import { recalcComparison } from "./recalc";
import { reviewRatios } from "./review";

const times = (ratio: number) => `${ratio.toPrecision(3).padStart(6)} ×`;
const asPower = (growth: number) => `time ~ work^${growth.toFixed(2)}`;

/** Every comparison of processor times, with what it is a ratio to; median, lowest and highest of the rounds. */
const comparisons: readonly (readonly [heading: string, run: (bundle: string) => Ratio[]])[] = [
  ["A fit of ten readings, over the bare logarithms and sums", fitRatios],
  ["The judgement of one direction of a test, over TESTRESULT", budgetRatios],
  ["A Monte Carlo run in the sheet, over as many bare fits", trialRatios],
  ["Limits for ten thousand houses in one call, over the bare arithmetic", planningRatios],
  ["A log as long as a sheet, over a bare pass over the same cells", logRatios],
  ["The review of a workbook, over opening and evaluating it once", reviewRatios],
];
/** Prints every ratio and the counts of the sample workbooks. */
export async function printSpeeds(bundle: string): Promise<void> {
  for (const [heading, run] of comparisons) {
    console.log(`\n${heading}:`);
    for (const { name, median, lowest, highest, growth } of run(bundle)) {
      const range = `(${lowest.toPrecision(2)} to ${highest.toPrecision(2)})`;
      const ending = growth === undefined ? "" : `, ${asPower(growth)}`;
      console.log(`  ${name.padEnd(46)} ${times(median)}   ${range}${ending}`);
    }
  }

  const { formulaCells, wholeProcess, inRunningProcess, withoutStart, growth } = await recalcComparison();
  console.log(`\nRecalculating ${formulaCells} formula cells, time of LibreOffice over ours on the same file:`);
  console.log(`  whole process against whole process            ${times(wholeProcess)}`);
  console.log(`  its whole process against ours already running ${times(inRunningProcess)}`);
  console.log(`  both without their start-up                    ${times(withoutStart)}`);
  console.log(`  ours, by the number of cells                   ${asPower(growth)}`);

  const { firstView, longestTasks } = await timeReader(dirname(bundle));
  console.log("\nThe review page in Chromium, final-test.xlsx, each round a fresh page, in order:");
  console.log(
    `  first view over the evaluation within it       ${firstView.map((ratio) => ratio.toFixed(2)).join(", ")}`,
  );
  console.log(
    `  longest task of the page in a review, ms       ${longestTasks.map((task) => task.toFixed(0)).join(", ")}`,
  );

  const waits = await timeCallsInReview(dirname(bundle));
  console.log("\nThe pane in Chromium, over final-test.xlsx, while Check runs in its worker:");
  console.log(`  longest extra delay of a function call, ms     ${waits.map((delay) => delay.toFixed(0)).join(", ")}`);

  console.log("\nAdd-in calls of the sample workbooks:");
  for (const file of readdirSync("sample-workbooks").filter((name) => name.endsWith(".xlsx"))) {
    const { book } = openWorkbook(new Uint8Array(readFileSync(join("sample-workbooks", file))));
    const { addIn } = evaluateBook(book, { addIn: addInRegistry() });
    console.log(`  ${file.padEnd(24)} ${addIn.calls} calls in ${addIn.cells} cells, at most ${addIn.depth} deep`);
  }
}
