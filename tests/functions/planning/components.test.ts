import { describe, expect, test } from "vitest";
import { areaFlow, componentLeakage } from "../../../src/functions";
import { cellsOf, column, refusal } from "../errors";
import { none } from "./limits";

describe("COMPONENTLEAKAGE", () => {
  test("a list with rows not used: no amount is none of it, an amount without its leakage is not yet enough", () => {
    const list = column(20, 0, "", null, 2);
    expect(componentLeakage(list, column(3, 9, 9, 9, 50), [[100]], none, [[100]])).toBe(160);
    expect(refusal(() => componentLeakage(list, column(3, 9, 9, 9, ""), [[100]]))).toEqual({
      code: "#N/A",
      message: "leakages, row 5: an amount without its leakage",
    });
    expect(refusal(() => componentLeakage(list, [[3]], column(100, 100, 100, 100, 0))).message).toBe(
      "rated_pressures, row 5: a leakage without its rated pressure",
    );
    expect(refusal(() => componentLeakage(column("", 0), [[3]], [[100]])).code).toBe("#N/A");
  });

  test("what is wrong names its row", () => {
    expect(refusal(() => componentLeakage(column(1, -2), [[3]], [[100]])).message).toBe(
      "amounts, row 2: must be 0 or more (got -2)",
    );
    expect(refusal(() => componentLeakage(column(1, 2), column(3, 4, 5), [[100]])).message).toMatch(
      /^leakages: 3 for 2 amounts/,
    );
    expect(refusal(() => componentLeakage([[1]], [[3]], [[100]], [[3]])).message).toMatch(/^exponents, row 1: /);
    expect(refusal(() => componentLeakage([[1]], [[3]], [[100]], none, [[-50]])).message).toMatch(/^at: /);
    expect(refusal(() => componentLeakage(column(1, "x"), [[3]], [[100]])).message).toMatch(
      /^amounts, row 2: a number/,
    );
  });
});

describe("AREAFLOW", () => {
  test("takes its definition by name and refuses terms that would be ignored", () => {
    expect(refusal(() => areaFlow([[15]], "", [[0.65]], [[50]])).code).toBe("#N/A");
    expect(refusal(() => areaFlow([[15]], "effective 4 Pa", [[0.65]], [[50]], [[10]])).message).toMatch(/^pressure: /);
    expect(refusal(() => areaFlow([[15]], "custom", [[0.65]], [[50]], [[50]])).message).toMatch(
      /^discharge_coefficient: /,
    );
    expect(refusal(() => areaFlow([[15]], "effective 4 Pa", [[6.5]], [[50]])).message).toMatch(/^exponent: /);
    expect(cellsOf(areaFlow(column(15, "", 0), "effective 4 Pa", [[0.65]], [[50]])).slice(1)).toEqual(["", ""]);
  });
});
