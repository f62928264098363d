import { describe, expect, it } from "vitest";
import { dynamic, f, legacy, type Content } from "../formula/book";
import { traced, one, inputs } from "./traced";

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
    expect(unknown.places[0]?.notes.join()).toContain("could not determine");
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
