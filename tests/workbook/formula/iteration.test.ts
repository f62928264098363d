import { expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { compareWithStored } from "../../../src/workbook/formula/evaluation";
import { openWorkbook } from "../../../src/workbook/index";
import { sheetOf } from "../file/package";
import { bookOf, type Content, f, read, sheet, value } from "./book";

const iteration = { count: 100, change: 0.001 };

function iterated(contents: Readonly<Record<string, Content>>, set: readonly [row: number, value: number][] = []) {
  const book = { ...bookOf([sheet("Sheet1", contents)]), iteration };
  const changes = set.map(([row, changed]) => ({ sheet: "Sheet1", row, column: 0, value: changed }));
  const evaluation = evaluateBook(book, { set: changes });
  return {
    at: (address: string) => read(book, evaluation, address),
    differences: compareWithStored(book, evaluation).map(({ address }) => address),
    cycles: evaluation.cycles,
  };
}

// A fee of ten per cent of a sum that contains the fee: 1 000 and the fee are 1 111.11.
const fee = { A1: 1000, A2: f("A3*0.1", 111.1109), A3: f("A1+A2", 1111.1109), A4: f("A3*2", 2222.2218) };

it("a circle that the file lets Excel iterate keeps its stored values, if they hold within the maximum change", () => {
  const { at, differences, cycles } = iterated(fee);
  expect(at("A4")).toBeCloseTo(2222.22, 2);
  expect([differences, cycles]).toEqual([[], []]);
});

it("from other inputs it is calculated until it settles", () => {
  const { at } = iterated(fee, [[0, 2000]]);
  expect(at("A2")).toBeCloseTo(222.222, 2);
  expect(at("A4")).toBeCloseTo(4444.44, 1);
});

it("stored values that are no solution differ", () => {
  const { differences } = iterated({ ...fee, A2: f("A3*0.1", 90) });
  expect(differences).toContain("Sheet1!A2");
});

it("what never settles is told as a circle, and so is every circle where the file does not iterate", () => {
  const counter = iterated({ A1: f("A1+1", 5), A2: f("1+1", 2) });
  expect(counter.at("A1")).toMatch(/^not evaluated: a circular reference/);
  expect([counter.at("A2"), counter.cycles]).toEqual([2, [["Sheet1!A1"]]]);
  expect(value("A3", { A3: f("Z1+1") })).toMatch(/^not evaluated: a circular reference/);
});

it.each([
  "IF(FALSE,Z1,1)",
  "IFERROR(1,Z1)",
  "CHOOSE(2,Z1,1)",
  "_xlfn.IFS(TRUE,1,TRUE,Z1)",
  "_xlfn.SWITCH(1,1,1,2,Z1)",
  "_xlfn.IFNA(1,Z1)",
  "_xlfn.XLOOKUP(1,{1,2},{1,2},Z1)",
  "IF(TRUE,1,A1)",
])("a branch that is not taken makes no circle: =%s", (formula) => {
  expect(value(formula, { A1: f("Z1+1") })).toBe(1);
});

it("a file's own limits are read, and Excel's where it gives none", () => {
  const iterationOf = (attributes: string) =>
    openWorkbook(sheetOf("", { workbook: `<calcPr ${attributes}/>` })).book.iteration;
  expect(iterationOf('iterate="1" iterateCount="50" iterateDelta="1E-4"')).toEqual({ count: 50, change: 0.0001 });
  expect(iterationOf('iterate="1"')).toEqual(iteration);
  expect(iterationOf('iterateCount="50"')).toBeUndefined();
});
