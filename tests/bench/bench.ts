import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { addInRegistry } from "../../src/cli/recalc/add-in";
import { evaluateBook, openWorkbook } from "../../src/workbook";
import { fitRatios } from "./fits";
import { logRatios } from "./logs";
import { planningRatios } from "./planning";
import { recalcComparison } from "./recalc";

const times = (ratio: number) => `${ratio.toPrecision(3).padStart(6)} ×`;

console.log(
  "A fit of ten readings, processor time over that of the bare logarithms and sums (median; lowest to highest):",
);
for (const { name, median, lowest, highest } of fitRatios("dist/functions.js")) {
  console.log(`  ${name.padEnd(46)} ${times(median)}   (${lowest.toPrecision(2)} to ${highest.toPrecision(2)})`);
}

console.log("\nLimits for ten thousand houses in one call, processor time over that of the bare arithmetic:");
for (const { name, median, lowest, highest } of planningRatios("dist/functions.js")) {
  console.log(`  ${name.padEnd(46)} ${times(median)}   (${lowest.toPrecision(2)} to ${highest.toPrecision(2)})`);
}

console.log("\nA log as long as a sheet, processor time over that of a bare pass over the same cells:");
for (const { name, median, lowest, highest } of logRatios("dist/functions.js")) {
  console.log(`  ${name.padEnd(46)} ${times(median)}   (${lowest.toPrecision(2)} to ${highest.toPrecision(2)})`);
}

const { formulaCells, wholeProcess, inRunningProcess, withoutStart } = await recalcComparison();
console.log(`\nRecalculating ${formulaCells} formula cells, time of LibreOffice over ours on the same file:`);
console.log(`  whole process against whole process            ${times(wholeProcess)}`);
console.log(`  its whole process against ours already running ${times(inRunningProcess)}`);
console.log(`  both without their start-up                    ${times(withoutStart)}`);

console.log("\nAdd-in calls of the sample workbooks:");
for (const file of readdirSync("sample-workbooks").filter((name) => name.endsWith(".xlsx"))) {
  const { book } = openWorkbook(new Uint8Array(readFileSync(join("sample-workbooks", file))));
  const { addIn } = evaluateBook(book, { addIn: addInRegistry() });
  console.log(`  ${file.padEnd(24)} ${addIn.calls} calls in ${addIn.cells} cells, at most ${addIn.depth} deep`);
}
