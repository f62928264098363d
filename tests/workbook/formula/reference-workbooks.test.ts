import { describe, expect, it } from "vitest";
import { compareWithStored, type Difference } from "../../../src/workbook/formula/compare-stored";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { ErrorValue } from "../../../src/workbook/model";
import { openWorkbook } from "../../../src/workbook/index";
import { bytesOf, folder, present, workbooks } from "../reference-workbooks";

// Every cell that is evaluated must have the value that Excel stored.

/** At least so many cells agree; a function taken off the list, or one that refuses more than it did, shows here. */
const floor = 5487;

/**
 * Workbooks whose stored errors are not Excel's: they have no docProps/app.xml, which Excel always writes, and hold the errors of
 * formulas as text (t="str" with =NA() stored as the text "#N/A", which no spreadsheet program computes). There the text of an
 * error stands for the error.
 */
const errorsAsText = new Set(["STATISTICAL/GEOMEAN.xlsx"]);

interface Tally {
  agree: number;
  notEvaluated: number;
  readonly differences: string[];
  readonly reasons: Map<string, number>;
}

function tally(name: string, total: Tally): void {
  const { book } = openWorkbook(bytesOf(name));
  const evaluation = evaluateBook(book);
  const differences = compareWithStored(book, evaluation).filter((difference) => !isErrorAsText(name, difference));
  const different = new Set(differences.map(({ address }) => address));
  for (const { address, outcome } of evaluation.cells) {
    if (outcome.evaluated) total.agree += different.has(address) ? 0 : 1;
    else {
      total.notEvaluated += 1;
      total.reasons.set(outcome.reason, (total.reasons.get(outcome.reason) ?? 0) + 1);
    }
  }
  for (const { address, stored, computed } of differences) {
    total.differences.push(`${name} ${address}: stored ${shown(stored)}, computed ${shown(computed)}`);
  }
}

const isErrorAsText = (name: string, { stored, computed }: Difference): boolean =>
  errorsAsText.has(name) && computed instanceof ErrorValue && stored === computed.code;

const shown = (value: Difference["stored"]): string =>
  value instanceof ErrorValue ? value.code : JSON.stringify(value);

describe("workbooks saved by Excel", () => {
  it("are there: the folder ../shared/reference/workbooks lies beside the repository", () => {
    expect(present, `${folder} is absent, so nothing is compared with Excel`).toBe(true);
  });

  it("have no cell that evaluates to something else than Excel stored", () => {
    const total: Tally = { agree: 0, notEvaluated: 0, differences: [], reasons: new Map() };
    for (const name of workbooks) tally(name, total);
    const reasons = [...total.reasons].sort(([, a], [, b]) => b - a).map(([reason, count]) => `  ${count} × ${reason}`);
    process.stdout.write(
      `${workbooks.length} workbooks: ${total.agree} cells agree, ${total.notEvaluated} not evaluated\n${reasons.join("\n")}\n`,
    );
    expect(total.differences).toEqual([]);
    expect(total.agree).toBeGreaterThanOrEqual(floor);
  });
});
