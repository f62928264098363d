import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { reduceLimits, usualLimits } from "../../../src/workbook/formula/work-limits";
import { bookOf, dynamic, evaluated, f, legacy, read, sheet, type Content } from "../formula/book";
import { traced } from "../trace/traced";

/** Little enough for a test to be fast; the counts are the same on every machine. */
const limits = { steps: 2_000_000, bytes: 20_000_000 };
const tooMany = /^not evaluated: it needs more than half of the steps remaining of the workbook.s 2 million/;
const tooMuch = /^not evaluated: its results need more memory than remains of the workbook.s 20 MB/;

const lambda = (parameters: string, body: string) => `LAMBDA(${parameters},${body})`;
const fibonacci = [
  { name: "fib", text: lambda("n", "IF(n<2,n,fib(n-1)+fib(n-2))") },
  ...Array.from({ length: 60 }, (_, index) => ({
    name: `twice${index}`,
    text: index === 0 ? "1" : `twice${index - 1}+twice${index - 1}`,
  })),
];

describe("a formula without end is given up, with its reason", () => {
  it.each([
    ["a LAMBDA that calls itself twice", "fib(40)", tooMany],
    ["names that double each other", "twice59", tooMany],
    [
      "arrays made for each value of an array",
      `SUM(MAKEARRAY(300,300,${lambda("a,b", "SUM(SEQUENCE(10000))")}))`,
      tooMany,
    ],
    ["a REDUCE of arrays", `REDUCE(0,SEQUENCE(9999),${lambda("a,b", "a+SUM(SEQUENCE(50000))")})`, tooMany],
    [
      "a MAP in a MAP in a MAP",
      `SUM(MAP(SEQUENCE(999),${lambda("x", `SUM(MAP(SEQUENCE(999),${lambda("y", "x*y")}))`)}))`,
      tooMany,
    ],
    ["texts that grow", `LEN(CONCAT(MAP(SEQUENCE(9999),${lambda("x", 'REPT("a",32767)')})))`, tooMany],
    ["a search for a pattern that nearly matches everywhere", `COUNTIF(A1:A9,"*${"a?".repeat(9)}b")`, tooMany],
  ])("%s", (_, formula, reason) => {
    const long = "a".repeat(32_767);
    const texts = Object.fromEntries(Array.from({ length: 9 }, (_row, index) => [`A${index + 1}`, long]));
    const { at, evaluation } = evaluated(
      { ...texts, Z1: f(formula), Z2: f("1+1"), Z3: f("Z1+1") },
      { limits },
      { names: fibonacci },
    );
    expect(at("Z1")).toMatch(reason);
    // It costs itself and what rests on it; all else has its value.
    expect([at("Z2"), at("Z3")]).toEqual([2, at("Z1")]);
    expect(evaluation.work.exceeded).toEqual(["steps"]);
  });

  it("a spill without room is refused before its cells are looked at", () => {
    const columns = [..."ABCDEFGHIJKLMNOPQRST"];
    const spills = Object.fromEntries(
      columns.map((column) => [`${column}1`, dynamic(`${column}1`, "SEQUENCE(15000)")]),
    );
    const { at, evaluation } = evaluated(spills, { limits: { ...limits, steps: 100_000_000 } });
    expect(at("A15000")).toBe(15_000);
    for (const column of columns.slice(1)) expect(at(`${column}1`)).toMatch(tooMuch);
    // Two passes over the one that fits, and 75 000 steps to make each of the others once; to look at their cells would take four times as many.
    expect(evaluation.work.steps).toBeLessThan(5_000_000);
  });

  it("stacks that double are refused before they are made", () => {
    const steps = Array.from(
      { length: 24 },
      (_, index) => `stack_${index + 1},VSTACK(stack_${index},stack_${index})`,
    ).join(",");
    expect(evaluated({ Z1: dynamic("Z1", `ROWS(LET(stack_0,SEQUENCE(999),${steps},stack_24))`) }).at("Z1")).toMatch(
      /two million values/,
    );
  });
});

describe("cells of arrays are kept as far as there is room for them", () => {
  const columns = "ABCDEFGHIJ".split("");

  it("of arrays in braces: those that find no room are not evaluated, nor is what reads their cells", () => {
    const contents: Record<string, Content> = { Z1: f("SUM(J1:J9)"), Z2: f("A9") };
    for (const letter of columns) contents[`${letter}1`] = legacy(`${letter}1:${letter}9000`, "ROW()");
    const { at, evaluation } = evaluated(contents, { limits });
    expect([at("A9"), at("Z2")]).toEqual([1, 1]);
    expect(at("J1")).toMatch(tooMuch);
    expect(at("Z1")).toMatch(tooMuch);
    expect(evaluation.work.exceeded).toContain("memory");
    expect(evaluation.work.bytes).toBeLessThanOrEqual(limits.bytes);
  });

  it("of arrays that spill, which are seen only when they are calculated", () => {
    const contents: Record<string, Content> = { Z1: f("1+1") };
    for (const letter of columns) contents[`${letter}1`] = dynamic(`${letter}1`, "SEQUENCE(9000)");
    const { at, evaluation } = evaluated(contents, { limits });
    expect(at("Z1")).toBe(2);
    expect(
      columns.map((letter) => at(`${letter}1`)).filter((value) => typeof value === "string").length,
    ).toBeGreaterThan(3);
    expect(evaluation.cells.length).toBeLessThan(40_000);
  });

  it("long texts count with their length", () => {
    const contents: Record<string, Content> = {};
    for (let row = 1; row <= 1000; row += 1) contents[`A${row}`] = f('REPT("a",32767)');
    const { evaluation } = evaluated(contents, { limits: { steps: 200_000_000, bytes: 5_000_000 } });
    const kept = evaluation.cells.filter(({ outcome }) => outcome.evaluated).length;
    // The last formula needs room for its own text and for the one that is kept.
    expect(kept).toBe(Math.floor(5_000_000 / 32_783) - 1);
  });
});

describe("what comes after a calculation that was too long", () => {
  it("may take a tenth of it", () => {
    const book = bookOf([sheet("Test", { A1: f("fib(40)") })], { names: fibonacci });
    expect(reduceLimits(evaluateBook(book, { limits }).work)).toEqual({ ...limits, steps: limits.steps / 10 });
    const short = evaluateBook(bookOf([sheet("Test", { A1: f("1+1") })]), { limits });
    expect(reduceLimits(short.work)).toEqual(limits);
    expect(short.work.steps).toBeLessThan(200);
    expect(read(book, evaluateBook(book), "A1")).toMatch(`${usualLimits.steps / 1e6} million`);
  });

  it("is bounded too: a trace of such a formula ends", () => {
    const { places } = traced(bookOf([sheet("Test", { A1: f("IF(fib(40)>1,1,2)") })], { names: fibonacci }), "A1");
    expect(places[0]?.notEvaluated).toMatch(/^it needs more than half of the steps /);
  });
});

describe("columns filled down take little more for each row", () => {
  /** Steps of a calculation over so many rows. */
  const stepsOf = (formula: (row: number) => string, rows: number): number => {
    const contents: Record<string, Content> = {};
    for (let row = 1; row <= rows; row += 1) {
      contents[`A${row}`] = row % 97;
      contents[`B${row}`] = f(formula(row));
    }
    return evaluated(contents).evaluation.work.steps;
  };

  it.each([
    ["running sums", (row: number) => `SUM(A$1:A${row})`],
    ["counts of each value", (row: number) => `COUNTIF(A:A,A${row})`],
  ])("%s", (_, formula) => {
    // Twice the rows: twice the steps, where each row reading all before it would be four times as many.
    expect(stepsOf(formula, 4000) / stepsOf(formula, 2000)).toBeLessThan(2.2);
  });

  it("with the same results as cell by cell", () => {
    const contents: Record<string, Content> = {};
    for (let row = 1; row <= 80; row += 1) {
      contents[`A${row}`] = row === 70 ? f("1/0") : row % 7 === 0 ? "7" : row / 3;
      contents[`B${row}`] = f(`SUM(A$1:A${row})`);
    }
    const { at } = evaluated({
      ...contents,
      C1: f("COUNTIF(A1:A60,7)"),
      C2: f('COUNTIF(A1:A60,"7")'),
      C3: f("COUNTIF(A1:A60,1/3+1E-17)"),
    });
    let sum = 0;
    for (let row = 1; row <= 69; row += 1) {
      if (row % 7 !== 0) sum += row / 3;
      expect(at(`B${row}`)).toBe(sum);
    }
    expect([at("B70"), at("B80")]).toEqual(["#DIV/0!", "#DIV/0!"]);
    // The text "7" counts as the number; 21/3 is a text in row 21.
    expect([at("C1"), at("C2"), at("C3")]).toEqual([8, 8, 1]);
  });
});
