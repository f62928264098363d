import { describe, expect, test } from "vitest";
import { conformanceProbability } from "../../src/functions";

const cell = (result: unknown, uncertainty: unknown, target: unknown, degrees?: unknown) =>
  conformanceProbability(
    [[result]],
    [[uncertainty]],
    [[target]],
    ...(degrees === undefined ? [] : ([[[degrees]]] as const).map((range) => range.map((row) => [...row]))),
  );

describe("CONFORMANCEPROBABILITY", () => {
  test("normal without degrees of freedom, blank, 0 or 'infinite'", () => {
    const normal = cell(0.58, 0.015, 0.6);
    expect(normal[0]?.[0]).toBeCloseTo(0.9050474661743, 12);
    for (const degrees of ["", null, 0, "infinite", " Infinite ", "∞"])
      expect(cell(0.58, 0.015, 0.6, degrees)).toEqual(normal);
  });

  test("Student's distribution with degrees of freedom, truncated", () => {
    expect(cell(0.58, 0.015, 0.6, 3)[0]?.[0]).toBeCloseTo(0.8593896698783, 12);
    expect(cell(0.58, 0.015, 0.6, 3.9)).toEqual(cell(0.58, 0.015, 0.6, 3));
  });

  test("a standard uncertainty that is very small against what is in hand gives all but certainty, not an error", () => {
    for (const uncertainty of [5e-7, 4.9e-7, 1e-9, 1e-310])
      expect([cell(0.58, uncertainty, 0.6), cell(0.62, uncertainty, 0.6)]).toEqual([[[1]], [[0]]]);
  });

  test("a column of results, blanks stay blank", () => {
    const column = conformanceProbability([[0.58], [""], [0.63]], [[0]], [[0.6]]);
    expect(column).toEqual([[1], [""], [0]]);
    expect(cell(0.58, "", 0.6)).toEqual([[""]]);
    expect(cell(0, 0.01, 0.6)).toEqual([[""]]);
  });

  test.each([
    [cell.bind(null, -1, 0.1, 0.6), "result"],
    [cell.bind(null, 0.5, -0.1, 0.6), "standard_uncertainty"],
    [cell.bind(null, 0.5, 0.1, -0.6), "target"],
    [cell.bind(null, 0.5, 0.1, 0.6, -1), "degrees_of_freedom"],
    [cell.bind(null, 0.5, 0.1, 0.6, "many"), "degrees_of_freedom"],
    [cell.bind(null, 0.5, "u", 0.6), "standard_uncertainty"],
  ])("an error names its argument (%#: %s)", (call, argument) => {
    expect(call).toThrow(
      expect.objectContaining({ code: "#VALUE!", message: expect.stringContaining(argument) as string }),
    );
  });
});
