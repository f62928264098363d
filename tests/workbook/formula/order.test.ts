import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { evaluated, f, type Content } from "./book";

describe("order of evaluation", () => {
  it("follows a chain of 12 000 cells without recursion, whichever way it is stored", () => {
    const contents: Record<string, Content> = { A12000: 1 };
    for (let row = 1; row < 12_000; row += 1) contents[`A${row}`] = f(`A${row + 1}+1`);
    expect(evaluated(contents).at("A1")).toBe(12_000);
  });

  it("follows a chain that only INDIRECT knows of", () => {
    const contents: Record<string, Content> = { A3000: 1 };
    for (let row = 1; row < 3000; row += 1) contents[`A${row}`] = f(`INDIRECT("A"&ROW()+1)+1`);
    expect(evaluated(contents).at("A1")).toBe(3000);
  });

  it("reports circles with their cells and takes what depends on them along", () => {
    const { at, evaluation } = evaluated({
      A1: f("B1+1"),
      B1: f("C1*2"),
      C1: f("A1"),
      D1: f("A1+1"),
      E1: f("SUM(E1:E9)"),
      F1: 5,
      G1: f("F1*2"),
    });
    expect(at("A1")).toMatch(/^not evaluated: a circular reference: Sheet1!/);
    expect(at("D1")).toMatch(/^not evaluated: a circular reference/);
    expect(at("E1")).toBe("not evaluated: a circular reference: Sheet1!E1 → Sheet1!E1");
    expect(at("G1")).toBe(10);
    expect(evaluation.cycles.map((circle) => [...circle].sort())).toEqual([
      ["Sheet1!A1", "Sheet1!B1", "Sheet1!C1"],
      ["Sheet1!E1"],
    ]);
  });

  it("sees no circle in a branch that is not taken, nor where only the place of a cell is asked", () => {
    const { at } = evaluated({
      A1: f("IF(TRUE,1,B1)"),
      B1: f("A1+1"),
      C1: f("ROW(C1)"),
      D1: f("IF(B1>0,E1,F1)"),
      E1: f("B1"),
      F1: f("D1"),
    });
    expect(["A1", "B1", "C1", "D1", "F1"].map(at)).toEqual([1, 2, 1, 2, 2]);
  });

  it("names the cell where the trouble began", () => {
    const { evaluation } = evaluated({ A1: f("NOSUCHFUNCTION(1)"), B1: f("A1+1"), C1: f("IFERROR(B1,0)") });
    expect(evaluation.outcome(0, 0, 2)).toEqual({
      evaluated: false,
      reason: "the function NOSUCHFUNCTION is not one of those that are calculated here",
      cause: "the function NOSUCHFUNCTION is not one of those that are calculated here",
      origin: "Sheet1!A1",
    });
  });

  it("never takes a stored value for a computed one", () => {
    const { at } = evaluated({ A1: f("NOSUCHFUNCTION(1)", 5), B1: f("A1+1", 6) });
    expect(at("B1")).toMatch(/^not evaluated/);
  });

  it("evaluates 12 000 formulas in well under half a second, parsing included", () => {
    const contents: Record<string, Content> = {};
    for (let row = 1; row <= 3000; row += 1) {
      contents[`A${row}`] = row;
      contents[`B${row}`] = f(`A${row}*2+1`);
      contents[`C${row}`] = f(`ROUND(B${row}/3,2)`);
      contents[`D${row}`] = f(`IF(C${row}>100,LN(C${row}),C${row}^2)`);
      contents[`E${row}`] = f(`SUM(A${row}:D${row})`);
    }
    const { book, at } = evaluated(contents);
    expect(at("E1")).toBe(1 + 3 + 1 + 1);
    // Processor time, the best of three: other work on the machine is not ours to answer for.
    const milliseconds = [1, 2, 3].map(() => {
      const start = process.cpuUsage();
      evaluateBook(book);
      const { user, system } = process.cpuUsage(start);
      return (user + system) / 1000;
    });
    expect(Math.min(...milliseconds)).toBeLessThan(500);
  });
});
