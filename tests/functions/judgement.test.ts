import { describe, expect, test } from "vitest";
import { averagedResult, passFail } from "../../src/functions";
import { cellsOf, column, errorIn, refusal } from "./errors";

const verdictOf = (...given: Parameters<typeof passFail>) => cellsOf(passFail(...given))[0];

describe("PASSFAIL", () => {
  test("at the limit it passes, however binary arithmetic writes the mean (0.56 and 0.64 against 0.6)", () => {
    const mean = averagedResult([[0.56]], [[0.64]]);
    expect(mean).toBeGreaterThan(0.6);
    expect(verdictOf([[mean]], [[0.6]])).toBe("pass");
    expect(verdictOf([[0.6000001]], [[0.6]])).toBe("fail");
  });

  test("rounding before comparing is the programme's rule (ASTM E29): 0.604 passes 0.6 only with decimals", () => {
    expect(verdictOf([[0.604]], [[0.6]])).toBe("fail");
    expect(verdictOf([[0.604]], [[0.6]], undefined, undefined, [[1]])).toBe("pass");
    expect(verdictOf([[0.65]], [[0.6]], undefined, "plain", [[1]])).toBe("pass");
    expect(verdictOf([[0.6500001]], [[0.6]], undefined, "plain", [[1]])).toBe("fail");
  });

  test("a blank sent as 0 never helps a house to pass: it neither rounds to whole numbers nor stands for no uncertainty", () => {
    for (const blank of [0, "", null]) {
      expect(verdictOf([[3.4]], [[3]], undefined, undefined, [[blank]])).toBe("fail");
      expect(refusal(() => passFail([[3]], [[3]], [[blank]], "guarded acceptance")).message).toMatch(
        /^expanded_uncertainty:/,
      );
    }
    expect(verdictOf([[3.4]], [[3]], undefined, undefined, [["0"]])).toBe("pass");
  });

  test("guarded rules by JCGM 106, on the limits of the budget", () => {
    expect(verdictOf([[0.58]], [[0.6]], [[0.03]], "guarded acceptance")).toBe("not proven");
    // The upper limit that the budget shows is 0.57·exp(0.03/0.57) = 0.6008, that of 0.569 is 0.5998.
    expect(verdictOf([[0.57]], [[0.6]], [[0.03]], "guarded acceptance")).toBe("not proven");
    expect(verdictOf([[0.569]], [[0.6]], [[0.03]], "guarded acceptance")).toBe("pass");
    expect(verdictOf([[0.64]], [[0.6]], [[0.03]], "guarded acceptance")).toBe("fail");
    expect(verdictOf([[0.62]], [[0.6]], [[0.03]], "guarded rejection")).toBe("pass");
    expect(verdictOf([[0.64]], [[0.6]], [[0.03]], "guarded rejection")).toBe("fail");
    expect(refusal(() => passFail([[0.5]], [[0.6]], undefined, "guarded acceptance")).message).toMatch(
      /^expanded_uncertainty:/,
    );
    expect(refusal(() => passFail([[0.5]], [[0.6]], [[0.03]], "guarded acceptance", [[1]])).message).toMatch(
      /^decimals:/,
    );
  });

  test("a test that is not valid has no verdict, one whose checks are open has none yet", () => {
    expect(verdictOf([[0.3]], [[0.6]], undefined, undefined, undefined, [["not valid"]])).toBe("not valid");
    expect(verdictOf([[0.3]], [[0.6]], undefined, undefined, undefined, [["valid"]])).toBe("pass");
    for (const open of ["open", "", null, 0]) {
      expect(refusal(() => passFail([[0.3]], [[0.6]], undefined, undefined, undefined, [[open]])).code).toBe("#N/A");
    }
  });

  test("a column of results against one limit, blanks staying blank and errors staying in their row", () => {
    const [pass, blank, fail, wrong] = cellsOf(passFail(column(0.4, "", 0.9, "x"), [[0.6]]));
    expect([pass, blank, fail]).toEqual(["pass", "", "fail"]);
    expect(errorIn(wrong)).toEqual({ code: "#VALUE!", message: 'result, row 4: a number is needed, not the text "x"' });
  });
});

describe("AVERAGEDRESULT", () => {
  test("several runs are averaged within their direction first", () => {
    expect(averagedResult(column(0.4, 0.6), column(0.7))).toBeCloseTo(0.6, 14);
  });

  test("one missing direction is refused by name, or accepted where asked", () => {
    expect(refusal(() => averagedResult([[0.5]], [[""]]))).toEqual({
      code: "#N/A",
      message: 'pressurization: no result yet; one direction alone counts only with one_direction "accept"',
    });
    expect(averagedResult([[0.5]], [[0]], "accept")).toBe(0.5);
    expect(refusal(() => averagedResult([[""]], [[""]], "accept")).code).toBe("#N/A");
  });
});
