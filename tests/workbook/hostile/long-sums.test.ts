import { describe, expect, it } from "vitest";
import { evaluateBook, issueCopy, openWorkbook, verifyWorkbook } from "../../../src/workbook/index";
import { packageOf } from "../file/package";
import { bookOf, f, read, sheet } from "../formula/book";
import { traced } from "../trace/traced";

const inA1 = (formula: string) =>
  openWorkbook(packageOf({ sheets: [`<sheetData><row r="1"><c r="A1"><f>${formula}</f></c></row></sheetData>`] }));

/** One more operation than the engine's own stack takes where each costs a recursion. */
const many = 5000;

describe("operations in a row cost no recursion, however many a formula holds", () => {
  const formulas = {
    sum: Array<string>(many).fill("A2").join("+"),
    product: Array<string>(many).fill("1.02").join("*"),
    union: `SUM((${Array<string>(many).fill("A2").join(",")}))`,
  };

  it("when they are evaluated", () => {
    const book = bookOf([sheet("Test", { A1: f(formulas.sum), B1: f(formulas.union), A2: 2 })]);
    const evaluation = evaluateBook(book);
    expect(read(book, evaluation, "A1")).toBe(2 * many);
    expect(read(book, evaluation, "B1")).toBe(2 * many);
  });

  it("when they are traced", () => {
    const { places } = traced(bookOf([sheet("Test", { A1: f(formulas.sum), A2: 2 })]), "A1");
    expect(places[0]?.words).toMatch(/^Test!A2 \+ Test!A2 \+ /);
    expect(places[0]?.branches.map(({ node }) => places[node]?.address)).toEqual(["Test!A2"]);
    expect(traced(bookOf([sheet("Test", { A1: f(formulas.union) })]), "A1").places[0]?.words).toMatch(/sum/);
  });

  it.each(Object.entries(formulas))("when a workbook with a %s of them is reviewed or frozen", (_, formula) => {
    const opened = inA1(formula);
    expect(verifyWorkbook(opened, new Map(), new Date(0)).formulaCells).toBe(1);
    const options = {
      addIn: new Map(),
      methodVersion: "",
      issued: "2026-01-01",
      now: new Date(0),
      keepOldValues: true,
      whole: false,
    };
    expect(issueCopy(opened, options)).toEqual({ reason: "nothing to freeze", cells: [] });
  });
});

describe("what is nested deeper than it can be followed", () => {
  it("is told as far as it is followed", () => {
    const names = Array.from({ length: 8 }, (_, index) => ({
      name: `deep${index}`,
      text: `${"ABS(".repeat(200)}${index === 7 ? "Test!$A$2" : `deep${index + 1}`}${")".repeat(200)}`,
    }));
    const trace = traced(bookOf([sheet("Test", { A1: f("deep0"), A2: -1 })], { names }), "A1");
    expect(trace.places[0]?.notes).toContain("the formula has too many parts to trace");
  });
});
