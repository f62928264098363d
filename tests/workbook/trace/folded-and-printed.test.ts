import { describe, expect, it } from "vitest";
import { traceAsHtml } from "../../../src/workbook/trace/print-html";
import { traceAsJson, traceAsMarkdown, traceAsText } from "../../../src/workbook/trace/print";
import type { Trace } from "../../../src/workbook/trace/tree";
import { f, type Content } from "../formula/book";
import { traced, one } from "./traced";

const addresses = (trace: Trace) => trace.places.map((place) => place.address.replace("Test!", ""));

describe("what is read together", () => {
  it("is folded, and what was told once is referred to", () => {
    const rows = Object.fromEntries(
      [1, 2, 3, 4].flatMap((row) => [
        [`A${row}`, row * 10],
        [`B${row}`, f(`A${row}*$E$1`)],
      ]),
    ) as Record<string, Content>;
    const trace = traced(one({ ...rows, E1: 2, C1: f("SUM(B1:B4)/B2+E1") }), "C1");
    expect(addresses(trace)).toEqual(["C1", "B1:B4", "E1", "A1:A4"]);
    expect(trace.places[1]).toMatchObject({
      kind: "formulas",
      formula: "=A1*$E$1",
      spread: { cells: 4, numbers: 4, lowest: 20, highest: 80 },
    });
    expect(traceAsText(trace).join("\n")).toContain("→ see");
  });

  it("says how many cells are blank", () => {
    const trace = traced(one({ A1: 1, A3: -2.5, C1: f("COUNT(A1:A4)"), C2: f("B9") }), "C1");
    expect(trace.places[1]?.spread).toEqual({ cells: 4, blank: 2, numbers: 2, lowest: -2.5, highest: 1 });
    expect(traceAsText(trace).join("\n")).toContain("4 cells, 2 numbers −2.5 … 1, 2 blank");
    expect(traced(one({ C2: f("B9") }), "C2").places[1]).toMatchObject({ kind: "blank", address: "Test!B9" });
  });

  it("stops at the depth asked for, and says so", () => {
    const trace = traced(one({ A1: 1, A2: f("A1"), A3: f("A2"), A4: f("A3") }), "A4", 2);
    expect(addresses(trace)).toEqual(["A4", "A3", "A2"]);
    expect(trace.places[2]?.cut).toBe(true);
    expect(traceAsText(trace).join("\n")).toContain("the requested depth ends here");
  });

  it("does not call results typed in where the depth ends at them", () => {
    const book = one({
      A1: 1,
      A2: 2,
      B1: f("A1*2"),
      B2: 5,
      C1: f("SUM(B1:B2)"),
      C2: f("SUM(A1:A2)"),
      C3: f("SUM(D1:D2)"),
    });
    expect(traceAsText(traced(book, "C1", 1)).join("\n")).toContain(
      "Test!B1:B2 = 2 cells, 2 … 5  [2]  (several cells)",
    );
    expect(traceAsText(traced(book, "C2", 1)).join("\n")).toContain("Test!A1:A2 = 2 cells, 1 … 2  [2]  (typed in)");
    expect(traceAsText(traced(book, "C3", 1)).join("\n")).toContain(
      "Test!D1:D2 = 2 cells, 2 blank  [2]  (blank cells)",
    );
  });
});

describe("printed forms", () => {
  const book = one({ A1: 'Flow <&"> _of_ `it`', B1: 200, D1: f('B1&"<script>"') });
  const trace = traced(book, "D1");

  it("escape what the sheet says", () => {
    expect(traceAsHtml(trace, { file: "<b>.xlsx" })).not.toMatch(/<script>"|<b>|<&/);
    expect(traceAsMarkdown(trace, "x").join("\n")).toContain("\\_of\\_ \\`it\\`");
  });

  it("JSON numbers places as the text does, and lists the inputs", () => {
    const json = JSON.parse(traceAsJson(trace)) as {
      cell: string;
      inputs: string[];
      places: { number: number; branches: { place: number }[] }[];
    };
    expect(json.cell).toBe("Test!D1");
    expect(json.inputs).toEqual(["Test!B1"]);
    expect(json.places.map(({ number }) => number)).toEqual([1, 2]);
    expect(json.places[0]?.branches).toEqual([{ role: "", place: 2 }]);
  });
});
