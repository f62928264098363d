import { expect, it } from "vitest";
import { excelBooks } from "../../authorities/excel-workbooks/vectors";
import { expectAgreement } from "./agreement";
import { slow } from "../../time-outs";

it("no cell of the workbooks saved by Excel evaluates to something else than Excel stored", { timeout: slow }, () => {
  const books = excelBooks();
  expect(books).toHaveLength(87);
  expectAgreement(books);
});
