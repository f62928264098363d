import { describe, expect, it } from "vitest";
import type { AddInFunction, AddInRegistry } from "../../../src/workbook/formula/calls/add-in";
import { compareWithStored } from "../../../src/workbook/formula/evaluation";
import { ErrorValue } from "../../../src/workbook/model";
import { dynamic, evaluated, f, legacy } from "./book";

const matrix = (name: string) => ({ name, matrix: true, repeating: false, type: "any" as const });
const scalar = (name: string) => ({ name, matrix: false, repeating: false, type: "any" as const });

/** Invented functions: what they get is what the tests look at. */
function registry(): { registry: AddInRegistry; seen: unknown[][] } {
  const seen: unknown[][] = [];
  const entry = (
    parameters: AddInFunction["parameters"],
    compute: (...given: unknown[]) => unknown,
  ): AddInFunction => ({
    parameters,
    compute: (...given) => {
      seen.push(given);
      return compute(...given);
    },
  });
  return {
    seen,
    registry: new Map([
      ["TWICE", entry([scalar("value")], (value) => 2 * Number(value))],
      ["SHOW", entry([matrix("values"), scalar("choice"), matrix("more")], () => 1)],
      [
        "TABLE",
        entry([], () => [
          ["n", 0.65],
          ["C", ""],
          ["r2", 0.99],
        ]),
      ],
      ["FAIL", entry([], () => () => 1)],
      [
        "COMPLAIN",
        entry([scalar("code")], (code) => {
          // eslint-disable-next-line @typescript-eslint/only-throw-error -- the host's error objects are no Error here
          throw { code, message: "row 4 has a pressure but no flow" };
        }),
      ],
      [
        "MIXED",
        entry([], () => [
          [1, Object.assign(new Error("no value"), { code: "#N/A" })],
          [Number.NaN, { type: "Double", basicValue: 7 }],
        ]),
      ],
    ]),
  };
}

describe("add-in functions", () => {
  it("are called from every form in which a file holds them", () => {
    const { registry: addIn } = registry();
    const { at } = evaluated(
      {
        A1: 4,
        B1: dynamic("B1", "_xldudf_STILLAIR_TWICE(A1)"),
        B2: dynamic("B2", "[2]!_xldudf_STILLAIR_TWICE(A1)"),
        B3: f("STILLAIR.TWICE(A1)"),
        B4: f("IF(STILLAIR.TWICE(A1)>7,INDEX(_xldudf_STILLAIR_TABLE(),3,2),0)"),
        B5: f("stillair.twice(A1)+1"),
      },
      { addIn },
    );
    expect(["B1", "B2", "B3", "B4", "B5"].map(at)).toEqual([8, 8, 8, 0.99, 9]);
  });

  it("get ranges as arrays, single values as they are, nothing as null, and blanks by the host's convention", () => {
    const contents = {
      A1: 1,
      A2: "x",
      A3: new ErrorValue("#N/A"),
      B1: dynamic("B1", "_xldudf_STILLAIR_SHOW(A1:A4,A9,)"),
    };
    const first = registry();
    evaluated(contents, { addIn: first.registry });
    const error = { type: "Error", basicType: "Error", basicValue: "#N/A" };
    expect(first.seen).toEqual([[[[1], ["x"], [error], [null]], null, null]]);
    const second = registry();
    evaluated(contents, { addIn: second.registry, blankAsZero: true });
    expect(second.seen).toEqual([[[[1], ["x"], [error], [0]], 0, null]]);
  });

  it("give arrays that spill, fill a range in braces, or show their first value", () => {
    const { at, evaluation } = evaluated(
      {
        A1: dynamic("A1:B3", "_xldudf_STILLAIR_TABLE()"),
        D1: legacy("D1:E2", "_xldudf_STILLAIR_TABLE()"),
        G1: f("_xldudf_STILLAIR_TABLE()"),
        H1: f("SUM(A1#)"),
      },
      { addIn: registry().registry },
    );
    expect(["A1", "B1", "B2", "B3", "D1", "E1", "G1", "H1"].map(at)).toEqual([
      "n",
      0.65,
      "",
      0.99,
      "n",
      0.65,
      "n",
      1.6400000000000001,
    ]);
    expect(evaluation.spills).toEqual([{ address: "Sheet1!A1", area: { top: 0, left: 0, bottom: 2, right: 1 } }]);
  });

  it("give errors with their reason, whole or inside arrays; cards give their value", () => {
    const { at, evaluation } = evaluated(
      {
        A1: dynamic("A1", '_xldudf_STILLAIR_COMPLAIN("#N/A")'),
        B1: dynamic("B1:C2", "_xldudf_STILLAIR_MIXED()"),
        D1: f('IFERROR(A1,"caught")'),
      },
      { addIn: registry().registry },
    );
    const outcome = evaluation.outcome(0, 0, 0);
    expect(outcome?.evaluated === true && outcome.value).toEqual(
      new ErrorValue("#N/A", "row 4 has a pressure but no flow"),
    );
    expect(["B1", "C1", "B2", "C2", "D1"].map(at)).toEqual([1, "#N/A", "#NUM!", 7, "caught"]);
  });

  it("that are unknown, or that give what no cell can hold, are not evaluated", () => {
    const { at } = evaluated(
      {
        A1: dynamic("A1", "_xldudf_STILLAIR_NOSUCH()"),
        A2: dynamic("A2", "_xldudf_STILLAIR_FAIL()"),
        A3: dynamic("A3", "_xldudf_OTHERFIRM_TWICE(1)"),
      },
      { addIn: registry().registry },
    );
    expect(at("A1")).toBe("not evaluated: the add-in has no function NOSUCH");
    expect(at("A2")).toBe("not evaluated: FAIL gave something that is no cell value");
    expect(at("A3")).toMatch(/^not evaluated: the function OTHERFIRM_TWICE of another add-in/);
  });

  it("are counted, with the longest chain of cells that call them", () => {
    const { evaluation } = evaluated(
      {
        A1: 1,
        B1: dynamic("B1", "_xldudf_STILLAIR_TWICE(A1)"),
        C1: f("B1+1"),
        D1: dynamic("D1", "_xldudf_STILLAIR_TWICE(C1)"),
        E1: f("SUM(B1:D1)"),
        F1: f("STILLAIR.TWICE(A1)+STILLAIR.TWICE(A1)"),
      },
      { addIn: registry().registry },
    );
    expect(evaluation.addIn).toEqual({ calls: 4, cells: 3, depth: 2 });
  });

  it("typed while the add-in was absent differ from the file with the reason that Excel needs them entered again", () => {
    const { book, evaluation } = evaluated(
      { A1: f("STILLAIR.TWICE(4)", new ErrorValue("#NAME?")) },
      { addIn: registry().registry },
    );
    const [difference] = compareWithStored(book, evaluation);
    expect(difference?.computed).toBe(8);
    expect(difference?.reason).toMatch(/re-entered/);
  });
});

describe("comparison with the stored values", () => {
  it("is exact for text, truth values and error codes, relative for numbers, and sees spilled cells", () => {
    const { book, evaluation } = evaluated({
      A1: f("1/3", 0.3333333333),
      A2: f("1/3", 0.33333333),
      A3: f('"a"', "A"),
      A4: f("1/0", new ErrorValue("#VALUE!")),
      A5: f("TRUE", 1),
      B1: dynamic("B1:B2", "_xlfn.SEQUENCE(2)", 1),
      B2: 3,
      C1: f('A9&""', null),
    });
    expect(compareWithStored(book, evaluation).map(({ address }) => address)).toEqual(
      ["Sheet1!A2", "Sheet1!A3", "Sheet1!A4", "Sheet1!A5", "Sheet1!B2"].sort(),
    );
  });

  it("measures a final difference against what was subtracted", () => {
    const { book, evaluation } = evaluated({
      A1: 512.25,
      A2: 512.25 - 3e-11,
      A3: f("A1-A2", 2.9e-11),
      A4: f("A1-A2", 2.9e-9),
    });
    expect(compareWithStored(book, evaluation).map(({ address }) => address)).toEqual(["Sheet1!A4"]);
  });
});
