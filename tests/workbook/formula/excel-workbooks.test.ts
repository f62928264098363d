import { expect, it } from "vitest";
import { excelBooks } from "../../authorities/excel-workbooks/vectors";
import { expectAgreement } from "./agreement";

it("no cell of the workbooks saved by Excel evaluates to something else than Excel stored", () => {
  const books = excelBooks();
  expect(books).toHaveLength(87);
  expectAgreement(books);
});
