import { describe, expect, it } from "vitest";
import { dynamic, f, type Content } from "../formula/book";
import { traced, one } from "./traced";

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
