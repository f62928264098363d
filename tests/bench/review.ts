import { readFileSync } from "node:fs";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { evaluateBook, openWorkbook, verifyWorkbook } from "../../src/workbook";
import { ratios, type Ratio } from "./ratio";

/** Ratio of a review, which evaluates a workbook under both conventions for blank cells and asks over seventy questions, to one evaluation. */
export function reviewRatios(): Ratio[] {
  const bytes = new Uint8Array(readFileSync("sample-workbooks/final-test.xlsx"));
  const addIn = addInRegistry();
  const now = new Date();
  return ratios({ name: "evaluation", run: () => evaluateBook(openWorkbook(bytes).book, { addIn, now }) }, [
    {
      name: "verify, final-test.xlsx",
      run: () => verifyWorkbook(openWorkbook(bytes, { withLooks: true }), addIn, now),
    },
  ]);
}
