import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { openWorkbook } from "../../../src/workbook/index";
import { stored } from "../../samples/workbook";
import { slow } from "../../time-outs";
import { dynamic, evaluated, f } from "./book";

describe("an evaluation of some cells only", () => {
  it("computes these and what they need, nothing else", () => {
    const only = [{ sheet: 0, row: 2, column: 0 }];
    const { evaluation } = evaluated({ A1: 2, A2: f("A1*2"), A3: f("A2+1"), B1: f("A3*10"), B2: f("1/0") }, { only });
    expect(evaluation.cells.map(({ address }) => address)).toEqual(["Sheet1!A2", "Sheet1!A3"]);
    expect(evaluation.outcome(0, 2, 0)).toEqual({ evaluated: true, value: 5 });
    expect(evaluation.outcome(0, 0, 1)).toBeUndefined();
  });

  it("computes a cell of an array by the array's formula", () => {
    const only = [{ sheet: 0, row: 2, column: 1 }];
    const { evaluation } = evaluated({ A1: f("1+1"), B1: dynamic("B1:B3", "SEQUENCE(3)*A1") }, { only });
    expect(evaluation.outcome(0, 2, 1)).toEqual({ evaluated: true, value: 6 });
  });

  it("reads an array that reaches further than the file says, where an evaluation before told so", () => {
    const contents = { A1: dynamic("A1:A1", "SEQUENCE(3)"), C1: f("SUM(A1:A9)"), D1: f("A3") };
    const { spills } = evaluated(contents).evaluation;
    const { evaluation } = evaluated(contents, { only: [{ sheet: 0, row: 0, column: 3 }], spills });
    expect(evaluation.outcome(0, 0, 3)).toEqual({ evaluated: true, value: 3 });
  });

  it("gives each cell of a final test what the whole evaluation gives it", { timeout: slow }, () => {
    const { book } = openWorkbook(stored);
    const addIn = addInRegistry();
    const whole = evaluateBook(book, { addIn });
    const every = whole.cells.filter(({ role }, index) => role === "filled" || index % 97 === 0);
    for (const one of [...every].filter((_, index) => index % Math.ceil(every.length / 12) === 0)) {
      const some = evaluateBook(book, { addIn, only: [one], spills: whole.spills });
      expect(some.outcome(one.sheet, one.row, one.column), one.address).toEqual(one.outcome);
      expect(some.cells.length, one.address).toBeLessThan(whole.cells.length);
    }
  });
});
