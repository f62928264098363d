import { expect } from "vitest";
import { compareWithStored, type Difference } from "../../../src/workbook/formula/evaluation";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { ErrorValue, type Book } from "../../../src/workbook/model";

/** The 87 workbooks of tests/authorities/excel-workbooks hold so many cells that a formula computes. */
const computedCells = 6953;

/** At least so many of them agree; a function taken off the list, or one that refuses more than it did, shows here. */
const floor = 5633;

/**
 * Workbooks whose stored errors are not Excel's: they have no docProps/app.xml, which Excel always writes, and hold the errors of
 * formulas as text (t="str" with =NA() stored as the text "#N/A", which no spreadsheet program computes). There the text of an
 * error stands for the error.
 */
const errorsAsText = new Set(["GEOMEAN.xlsx"]);

/** Every cell that is evaluated must have the value that Excel stored. Returns why the others are not evaluated, most frequent first. */
export function expectAgreement(books: readonly (readonly [path: string, book: Book])[]): string[] {
  const differences: string[] = [];
  const reasons = new Map<string, number>();
  let [agree, notEvaluated] = [0, 0];
  for (const [path, book] of books) {
    const evaluation = evaluateBook(book);
    const different = new Map(compareWithStored(book, evaluation).map((one) => [one.address, one]));
    for (const { address, outcome } of evaluation.cells) {
      const difference = different.get(address);
      if (!outcome.evaluated) {
        notEvaluated += 1;
        reasons.set(outcome.reason, (reasons.get(outcome.reason) ?? 0) + 1);
      } else if (difference && !isErrorAsText(path, difference)) differences.push(`${path} ${inWords(difference)}`);
      else agree += 1;
    }
  }
  process.stdout.write(`${books.length} workbooks: ${agree} cells agree, ${notEvaluated} not evaluated\n`);
  expect(differences).toEqual([]);
  expect(agree).toBeGreaterThanOrEqual(floor);
  expect(agree + notEvaluated).toBe(computedCells);
  return [...reasons].sort(([, one], [, other]) => other - one).map(([reason, count]) => `${count} × ${reason}`);
}

const isErrorAsText = (path: string, { stored, computed }: Difference): boolean =>
  errorsAsText.has(path.split("/").at(-1) ?? "") && computed instanceof ErrorValue && stored === computed.code;

const inWords = ({ address, stored, computed }: Difference): string =>
  `${address}: stored ${shown(stored)}, computed ${shown(computed)}`;

const shown = (value: Difference["stored"]): string =>
  value instanceof ErrorValue ? value.code : JSON.stringify(value);
