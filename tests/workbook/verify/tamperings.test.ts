import { describe, expect, it } from "vitest";
import { evaluateBook, openWorkbook, writeBack } from "../../../src/workbook/index";
import { stored } from "../../samples/workbook";
import { slow } from "../../time-outs";
import { expectFound } from "./expect-found";
import { addIn, storeResults, Tampered } from "./tampered";
import { adjustments } from "./tamperings/adjustments";
import { appearance } from "./tamperings/appearance";
import { decisions } from "./tamperings/decisions";
import { formulas } from "./tamperings/formulas";
import { readings } from "./tamperings/readings";
import { results } from "./tamperings/results";
import { verdicts } from "./tamperings/verdicts";

describe("tampered results are found", () => expectFound(results));
describe("tampered formulas are found", () => expectFound(formulas));

describe("the tamperings of this folder", () => {
  const lists = [results, formulas, readings, verdicts, appearance, decisions, adjustments];

  it("are eighty at least, each of its own", () => {
    const all = lists.flat();
    expect(new Set(all.map(({ what }) => what)).size).toBe(all.length);
    expect(all.length).toBeGreaterThanOrEqual(80);
  });

  it.each(lists.flatMap(([first]) => first ?? []))(
    "are reviewed as if read from a file with the new results: $what",
    { timeout: slow },
    ({ plant }) => {
      const workbook = new Tampered(stored);
      plant(workbook);
      const opened = workbook.open(false);
      const evaluation = evaluateBook(opened.book, { addIn });
      const results = evaluation.cells.flatMap(({ sheet, row, column, outcome }) =>
        outcome.evaluated ? [{ sheet, row, column, value: outcome.value }] : [],
      );
      const inMemory = storeResults(opened.book, evaluation);
      const { book: written } = openWorkbook(writeBack(opened, results));
      for (const [index, { name, cells }] of written.sheets.entries())
        expect(inMemory.sheets[index]?.cells, name).toEqual(cells);
      expect(inMemory.sheets).toHaveLength(written.sheets.length);
    },
  );
});
