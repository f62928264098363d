import { describe, expect, it } from "vitest";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { columnOfLetters } from "../../../src/workbook/formula/parse/address";
import { traceAsHtml } from "../../../src/workbook/trace/print-html";
import { traceAsJson } from "../../../src/workbook/trace/print-json";
import { traceAsMarkdown } from "../../../src/workbook/trace/print-markdown";
import { traceAsText } from "../../../src/workbook/trace/print-text";
import { traceOf } from "../../../src/workbook/trace/trace";
import type { Trace } from "../../../src/workbook/trace/tree";
import type { Book } from "../../../src/workbook/model";
import { bookOf, dynamic, f, legacy, sheet, type Content } from "../formula/book";
import { expectInputs } from "./leaves";

const functions = [
  {
    id: "TWICE",
    description: "Twice a value, of any unit: 2 times. Equation: y = 2·x. Source: plain arithmetic, clause 1.",
    parameters: [{ name: "x" }],
  },
  {
    id: "STEPS",
    description:
      "Two steps as a table. Columns: what it is, symbol, value, unit, source. Equation: b = a². Source: an invented handbook, ch. 2.",
    parameters: [{ name: "side_length" }],
  },
];
const matrix = (name: string) => ({ name, matrix: true, repeating: false, type: "any" as const });
const addIn = new Map([
  ["TWICE", { parameters: [matrix("x")], compute: (x: unknown) => 2 * Number((x as unknown[][])[0]?.[0]) }],
  [
    "STEPS",
    {
      parameters: [matrix("side_length")],
      compute: (x: unknown) => {
        const side = Number((x as unknown[][])[0]?.[0]);
        return [
          ["side", "a", side, "m", "handbook 2.1"],
          ["area", "b", side * side, "m²", "handbook 2.2"],
        ];
      },
    },
  ],
]);

function traced(book: Book, address: string, depth?: number): Trace {
  const evaluation = evaluateBook(book, { addIn });
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  const trace = traceOf({ book, evaluation, addIn, functions, ...(depth === undefined ? {} : { depth }) });
  return trace(0, Number(digits) - 1, columnOfLetters(letters));
}

const one = (contents: Record<string, Content>, more: Parameters<typeof bookOf>[1] = {}) =>
  bookOf([sheet("Test", contents)], more);
const addresses = (trace: Trace) => trace.places.map((place) => place.address.replace("Test!", ""));
const inputs = (trace: Trace) => trace.inputs.map((address) => address.replace("Test!", ""));

describe("labels and units", () => {
  it("come from the text beside a cell, its symbol, the unit to the right", () => {
    const book = one({ A1: "Internal volume", B1: "V", C1: 300, D1: "m³", C2: f("C1*2") });
    expect(traced(book, "C2").places[1]).toMatchObject({
      label: "Internal volume",
      symbol: "V",
      unit: "m³",
      value: 300,
    });
  });

  it("come from the column's heading and its unit in a table, with the row's number", () => {
    const book = one({
      A1: "no.", B1: "fan", C1: "use", B2: "pressure", B3: "Pa",
      A4: 1, B4: 60, C4: "yes", A5: 2, B5: 51, C5: "yes", D9: f("B5"),
    }); // prettier-ignore
    expect(traced(book, "D9").places[1]).toMatchObject({ label: "fan pressure, no. 2", unit: "Pa" });
  });

  it("take the unit out of a heading, and do not take the text of a row's entry for its name", () => {
    const book = one({ A1: "no.", B1: "use", C1: "Reading, Pa", A2: 1, B2: "yes", C2: -60, E2: f("C2") });
    expect(traced(book, "E2").places[1]).toMatchObject({ label: "Reading, no. 1", unit: "Pa" });
  });

  it("take the unit from a total's own row where its label names one before a colon", () => {
    const book = one({ A1: "corner", B1: "side, m", A2: "a", B2: 3, A3: "b", B3: 4, A4: "Inside, m²: by the add-in", B4: f("B2*B3"), C4: f("B4") }); // prettier-ignore
    expect(traced(book, "C4").places[1]).toMatchObject({ unit: "m²" });
    expect(traced(book, "B4").places[1]).toMatchObject({ unit: "m" });
  });

  it("use the column's name in an Excel table", () => {
    const book = one(
      { A1: "House", B1: "Flow, m³/h", A2: "Heron", B2: 210, D1: f("SUM(Houses[Flow, m³/h])"), D2: f("Houses[Flow, m³/h]") },
      { tables: [{ name: "Houses", sheet: 0, area: { top: 0, left: 0, bottom: 1, right: 1 }, columns: ["House", "Flow, m³/h"], headerRows: 1, totalsRows: 0 }] },
    ); // prettier-ignore
    expect(traced(book, "D1").places[1]).toMatchObject({ address: "Test!B2", label: "Heron, Flow", unit: "m³/h" });
  });
});

describe("a formula in words", () => {
  const words = (formula: string, contents: Record<string, Content> = {}) =>
    traced(one({ A1: "Flow", B1: 200, A2: "Volume", B2: 400, A3: "Limit", B3: 0.6, Z9: f(formula), ...contents }), "Z9")
      .places[0]?.words;

  it("names cells by their labels and writes operators with as few parentheses as are needed", () => {
    expect(words("B1/(B2-B3)*2")).toBe("“Flow” ÷ (“Volume” − “Limit”) × 2");
    expect(words("-(B1+B2)^2")).toBe("(−(“Flow” + “Volume”))^2");
    expect(words("B1-(B2-B3)")).toBe("“Flow” − (“Volume” − “Limit”)");
    expect(words("AVERAGE(B1:B3)")).toBe("the mean of “Flow” (3 cells)");
  });

  it("tells an add-in function by what it does and by its parameters", () => {
    expect(words("_xldudf_STILLAIR_TWICE(B1)")).toBe("twice a value (x: “Flow”)");
  });

  it("leaves out the guard that keeps a blank blank", () => {
    expect(words('IF(B1="","",B1)')).toBe("“Flow”");
  });

  it("shows the formula as it is typed in Excel", () => {
    const book = one({
      A1: 1,
      B1: dynamic("B1", "_xldudf_STILLAIR_TWICE(A1)"),
      B2: f('SUM(_xlfn.ANCHORARRAY(B1))&"_xldudf_STILLAIR_NO("'),
    });
    expect(traced(book, "B1").places[0]?.formula).toBe("=STILLAIR.TWICE(A1)");
    expect(traced(book, "B2").places[0]?.formula).toBe('=SUM(B1#)&"_xldudf_STILLAIR_NO("');
  });

  it("gives the equation and source of the function's own description", () => {
    const [place] = traced(one({ A1: 1, B1: f("_xldudf_STILLAIR_TWICE(A1)") }), "B1").places;
    expect(place?.functions).toMatchObject([
      { id: "TWICE", equation: "y = 2·x", source: "plain arithmetic, clause 1" },
    ]);
  });
});

describe("branches", () => {
  const book = (formula: string) => one({ A1: 1, A2: 2, A3: 3, A4: 0, A5: f("1/A4"), B1: f(formula) });
  const reached = (formula: string) => inputs(traced(book(formula), "B1"));

  it("follow what counted, and the condition", () => {
    expect(reached("IF(A1>0,A2,A3)")).toEqual(["A1", "A2"]);
    expect(reached("IF(A1<0,A2,A3)")).toEqual(["A1", "A3"]);
    expect(reached("IFS(A1>5,A2,A1>0,A3)")).toEqual(["A1", "A3"]);
    expect(reached("IFS(A5,A2,A1>0,A3)")).toEqual(["A4"]);
    expect(traced(book("IFS(A5,A2,A1>0,A3)"), "B1").places[0]?.words).toBe("an error, from Test!A5");
    expect(reached("SWITCH(A1,2,A4,1,A3,A2)")).toEqual(["A1", "A3"]);
    expect(reached("CHOOSE(A2,A1,A3,A4)")).toEqual(["A2", "A3"]);
    expect(reached("LET(limit,A2,IF(A1<limit,limit,A3))")).toEqual(["A1", "A2"]);
    expect(traced(book("IF(A1<0,A2,A3)"), "B1").places[0]?.reasons).toEqual(["not: Test!A1 < 0"]);
  });

  it("follow the error that was caught, and what took its place", () => {
    expect(reached("IFERROR(A5,A3)")).toEqual(["A3", "A4"]);
    expect(reached("IFERROR(A1,A3)")).toEqual(["A1"]);
    expect(reached("IFNA(A5,A3)")).toEqual(["A4"]);
  });

  it("both count in an array formula, and where the condition cannot be told, which is said", () => {
    const array = one({ A1: 1, A2: -1, B1: 5, B2: 6, C1: 7, C2: 8, D1: legacy("D1:D2", "IF(A1:A2>0,B1:B2,C1:C2)") });
    expect(inputs(traced(array, "D2"))).toEqual(["A1", "B1", "C1", "A2", "B2", "C2"]);
    const unknown = traced(book("IF(NOSUCHFUNCTION(A1),A2,A3)"), "B1");
    expect(inputs(unknown)).toEqual(["A1", "A2", "A3"]);
    expect(unknown.places[0]?.notes.join()).toContain("cannot be told");
    expect(unknown.places[0]?.notEvaluated).toContain("NOSUCHFUNCTION");
  });
});

describe("look-ups", () => {
  const table: Record<string, Content> = {
    A1: "x",
    A2: "y",
    A3: "z",
    B1: 10,
    B2: 20,
    B3: 30,
    C1: 11,
    C2: 21,
    C3: 31,
    E1: "y",
    E2: 2,
  };
  const reached = (formula: string) => inputs(traced(one({ ...table, G1: f(formula) }), "G1"));

  it("lead to the entry that they found and to what was looked for", () => {
    expect(reached("INDEX(A1:C3,MATCH(E1,A1:A3,0),3)")).toEqual(["E1", "A2", "C2"]);
    expect(reached("INDEX(C1:C3,MATCH(E1,INDEX(A1:C3,,1),0))")).toEqual(["E1", "A2", "C2"]);
    expect(reached("VLOOKUP(E1,A1:C3,2,FALSE)")).toEqual(["E1", "A2", "B2"]);
    expect(reached("XLOOKUP(E1,A1:A3,B1:B3)")).toEqual(["E1", "A2", "B2"]);
    expect(reached("LOOKUP(15,B1:B3,C1:C3)")).toEqual(["B1", "C1"]);
    expect(reached("OFFSET(A1,E2,1)")).toEqual(["E2", "B3"]);
    expect(reached('INDIRECT("B"&E2)')).toEqual(["B2", "E2"]);
    expect(reached("ROWS(A1:A3)*E2")).toEqual(["E2"]);
  });

  it("lead to everything that was looked through where nothing was found", () => {
    expect(reached('XLOOKUP("q",A1:A3,B1:B3,E2)')).toEqual(["A1", "A2", "E2", "A3"]);
    expect(reached('IFERROR(MATCH("q",A1:A3,0),E2)')).toEqual(["A1", "A2", "E2", "A3"]);
  });

  it("lead into a spilled table by its row: symbol, unit, source, then the formula that fills it", () => {
    const book = one({
      A1: 3,
      C1: dynamic("C1:G2", "_xldudf_STILLAIR_STEPS(A1)"),
      I1: f('INDEX(C1#,MATCH("b",INDEX(C1#,,2),0),3)'),
    });
    const trace = traced(book, "I1");
    const row = trace.places.find(({ address }) => address === "Test!E2");
    expect(row).toMatchObject({
      kind: "spilled",
      label: "area",
      symbol: "b",
      unit: "m²",
      value: 9,
      source: "handbook 2.2",
    });
    expect(trace.places[row?.branches[0]?.node ?? 0]).toMatchObject({ address: "Test!C1", kind: "formula" });
    expect(inputs(trace)).toEqual(["A1"]);
  });
});

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
    expect(traceAsText(trace)).toContain("→ see");
  });

  it("says how many cells are blank", () => {
    const trace = traced(one({ A1: 1, A3: -2.5, C1: f("COUNT(A1:A4)"), C2: f("B9") }), "C1");
    expect(trace.places[1]?.spread).toEqual({ cells: 4, blank: 2, numbers: 2, lowest: -2.5, highest: 1 });
    expect(traceAsText(trace)).toContain("4 cells, 2 numbers −2.5 … 1, 2 blank");
    expect(traced(one({ C2: f("B9") }), "C2").places[1]).toMatchObject({ kind: "blank", address: "Test!B9" });
  });

  it("stops at the depth asked for, and says so", () => {
    const trace = traced(one({ A1: 1, A2: f("A1"), A3: f("A2"), A4: f("A3") }), "A4", 2);
    expect(addresses(trace)).toEqual(["A4", "A3", "A2"]);
    expect(trace.places[2]?.cut).toBe(true);
    expect(traceAsText(trace)).toContain("the depth asked for ends here");
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
    expect(traceAsText(traced(book, "C1", 1))).toContain("Test!B1:B2 = 2 cells, 2 … 5  [2]  (several cells)");
    expect(traceAsText(traced(book, "C2", 1))).toContain("Test!A1:A2 = 2 cells, 1 … 2  [2]  (typed in)");
    expect(traceAsText(traced(book, "C3", 1))).toContain("Test!D1:D2 = 2 cells, 2 blank  [2]  (blank cells)");
  });
});

describe("odd workbooks", () => {
  it("circles end, and are named", () => {
    const trace = traced(one({ A1: f("B1+1"), B1: f("A1+C1"), C1: 5 }), "A1");
    expect(inputs(trace)).toEqual(["C1"]);
    expect(trace.places[0]?.notes.join()).toContain("circle");
    expect(traced(one({ A1: f("A1") }), "A1").places).toHaveLength(1);
  });

  it("a column in which each cell builds on the one before is no circle", () => {
    const rows: Record<string, Content> = { A1: 1 };
    for (let row = 2; row <= 9; row += 1) rows[`A${row}`] = f(`A${row - 1}*2`);
    const trace = traced(one({ ...rows, C1: f("SUM(A2:A9)") }), "C1");
    expect(inputs(trace)).toEqual(["A1"]);
    expect(trace.places[1]?.notes).toEqual(["each builds on another of them"]);
  });

  it("a chain of twenty thousand cells is followed to its end, in every form", () => {
    const rows: Record<string, Content> = { A1: 1 };
    for (let row = 2; row <= 20_000; row += 1) rows[`A${row}`] = f(row % 2 ? `A${row - 1}+1` : `1+A${row - 1}`);
    const trace = traced(one(rows), "A20000");
    expect(trace.places).toHaveLength(20_000);
    expect(inputs(trace)).toEqual(["A1"]);
    for (const text of [
      traceAsText(trace),
      traceAsMarkdown(trace, "Chain"),
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
    expect(traced(one({ A1: f("Nothing+1") }), "A1").places[0]?.notes.join()).toContain("means nothing");
    expect(traceAsText(traced(one({ A1: f("PI()/4") }), "A1"))).toContain("reads no other cell");
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

describe("printed forms", () => {
  const book = one({ A1: 'Flow <&"> _of_ `it`', B1: 200, D1: f('B1&"<script>"') });
  const trace = traced(book, "D1");

  it("escape what the sheet says", () => {
    expect(traceAsHtml(trace, { file: "<b>.xlsx" })).not.toMatch(/<script>"|<b>|<&/);
    expect(traceAsMarkdown(trace, "x")).toContain("\\_of\\_ \\`it\\`");
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
