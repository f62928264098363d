import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { traceAsHtml } from "../../../src/workbook/trace/print-html";
import { traceAsJson, traceAsMarkdown, traceAsText } from "../../../src/workbook/trace/print";
import { traceOf } from "../../../src/workbook/trace/trace";
import { f, type Content } from "../formula/book";
import { expectInputs } from "./leaves";
import { functions, addIn, traced, one, inputs } from "./traced";
import { slow } from "../../time-outs";

describe("odd workbooks", { timeout: slow }, () => {
  it("circles end, and are named", () => {
    const trace = traced(one({ A1: f("B1+1"), B1: f("A1+C1"), C1: 5 }), "A1");
    expect(inputs(trace)).toEqual(["C1"]);
    expect(trace.places[0]?.notes.join()).toContain("circular reference");
    expect(traced(one({ A1: f("A1") }), "A1").places).toHaveLength(1);
  });

  it("a long circle is named by its beginning: each of its cells repeats it", () => {
    const cells = Object.fromEntries(
      Array.from({ length: 400 }, (_, row) => [`A${row + 1}`, f(`A${((row + 1) % 400) + 1}`)]),
    );
    const [note = ""] = traced(one(cells), "A1").places[0]!.notes;
    expect(note).toMatch(/Test!A\d+ → .* …$/);
    expect(note.length).toBeLessThan(350);
  });

  it("a column in which each cell builds on the one before is no circle", () => {
    const rows: Record<string, Content> = { A1: 1 };
    for (let row = 2; row <= 9; row += 1) rows[`A${row}`] = f(`A${row - 1}*2`);
    const trace = traced(one({ ...rows, C1: f("SUM(A2:A9)") }), "C1");
    expect(inputs(trace)).toEqual(["A1"]);
    expect(trace.places[1]?.notes).toEqual(["each builds on another one"]);
  });

  it("a chain of twenty thousand cells is followed to its end, in every form", () => {
    const rows: Record<string, Content> = { A1: 1 };
    for (let row = 2; row <= 20_000; row += 1) rows[`A${row}`] = f(row % 2 ? `A${row - 1}+1` : `1+A${row - 1}`);
    const trace = traced(one(rows), "A20000");
    expect(trace.places).toHaveLength(20_000);
    expect(inputs(trace)).toEqual(["A1"]);
    for (const text of [
      traceAsText(trace).join("\n"),
      traceAsMarkdown(trace, "Chain").join("\n"),
      traceAsJson(trace),
      traceAsHtml(trace, { file: "chain.xlsx" }),
    ])
      expect(text).toContain("A20000");
  });

  it("names, other workbooks, names that mean nothing and formulas that read nothing", () => {
    const names = [
      { name: "Volume", text: "Test!$A$1" },
      { name: "Double", text: "Test!$A$1*2" },
    ];
    const trace = traced(one({ A1: 300, B1: f("Volume+Double") }, { names }), "B1");
    expect(trace.places[1]).toMatchObject({ address: "Test!A1", name: "Volume" });
    expect(trace.places[0]?.words).toBe("Volume + Double (Volume × 2)");
    expect(traced(one({ A1: f("[1]Other!B4+1") }), "A1").places[0]?.notes.join()).toContain("another workbook");
    expect(traced(one({ A1: f("Nothing+1") }), "A1").places[0]?.notes.join()).toContain(
      "no name Nothing is defined here",
    );
    expect(traceAsText(traced(one({ A1: f("PI()/4") }), "A1")).join("\n")).toContain("reads no other cell");
  });

  it("a typed or blank cell is its own trace", () => {
    expect(traced(one({ A1: 5 }), "A1").places).toMatchObject([{ kind: "input", value: 5 }]);
    expect(traced(one({ A1: 5 }), "C7").places).toMatchObject([{ kind: "blank" }]);
  });

  it("random sheets of formulas end in typed cells", () => {
    let seed = 20_261_124;
    const random = (below: number) => (seed = (seed * 48_271) % 2_147_483_647) % below;
    const cell = () => `${"ABCDEF"[random(6)] ?? "A"}${1 + random(12)}`;
    const shapes = [
      () => `${cell()}+${cell()}`, () => `SUM(${cell()}:${cell()})`, () => `IF(${cell()}>${random(9)},${cell()},${cell()})`,
      () => `INDEX(${cell()}:${cell()},1,1)`, () => `IFERROR(1/${cell()},${cell()})`, () => `MATCH(${cell()},A1:A12,0)`,
      () => `LET(x,${cell()},x*IF(x>2,${cell()},1))`, () => `OFFSET(${cell()},${random(3)},0)`, () => `$A$1*${cell()}`,
    ]; // prettier-ignore
    for (let turn = 0; turn < 60; turn += 1) {
      const contents: Record<string, Content> = {};
      for (let count = 0; count < 50; count += 1)
        contents[cell()] = random(3) === 0 ? random(9) : f((shapes[random(shapes.length)] ?? cell)());
      const book = one(contents);
      const evaluation = evaluateBook(book, { addIn });
      const trace = traceOf({ book, evaluation, addIn, functions });
      for (const { row, column } of book.sheets[0]?.cells.values() ?? []) expectInputs(book, trace(0, row, column));
    }
  });
});
