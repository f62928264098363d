import { describe, expect, test } from "vitest";
import { enScore } from "../../src/functions";
import { column, errorIn, refusal } from "./errors";

const scores = (...given: Parameters<typeof enScore>): unknown[][] => enScore(...given);

describe("ENSCORE", () => {
  test("a row a pair: blanks stay blank, an error stays in its row, headings where wanted", () => {
    const rows = scores(
      column(0.6, "", 0.7, "x"),
      [[0.03]],
      column(0.58, 0.58, 0.58, 0.58),
      [[0.04]],
      null!,
      null!,
      null!,
      "yes",
    );
    expect(rows[0]).toEqual(["E_n", "zeta", "difference in %", "agreement", "zeta says"]);
    expect(rows[1]!.slice(3)).toEqual(["agree", "acceptable"]);
    expect(rows[2]).toEqual(["", "", "", "", ""]);
    expect(rows[3]!.slice(3)).toEqual(["disagree", "action signal"]);
    expect(errorIn(rows[4]![0])).toEqual({
      code: "#VALUE!",
      message: 'result, row 4: a number is needed, not the text "x"',
    });
  });

  test("a blank uncertainty leaves its row blank, since 0 would be none", () => {
    for (const blank of [0, "", null])
      expect(scores([[0.6]], [[blank]], [[0.58]], [[0.04]])).toEqual([["", "", "", "", ""]]);
  });

  test("blank coverage factors are 2, a blank common part is none", () => {
    const plain = scores([[0.6]], [[0.03]], [[0.58]], [[0.04]]);
    expect(scores([[0.6]], [[0.03]], [[0.58]], [[0.04]], [[""]], [[0]], [[""]])).toEqual(plain);
    expect(scores([[0.6]], [[0.03]], [[0.58]], [[0.04]], [[0]], [[2]], [[2]])).toEqual(plain);
    expect(scores([[0.6]], [[0.03]], [[0.58]], [[0.04]], [[0]], [[3]], [[3]])[0]![1]).toBeCloseTo(1.2, 12);
  });

  test("an error names its argument", () => {
    expect(refusal(() => scores([[0.6]], [[0.03]], [[0.58]], [[0.04]], [[2]])).message).toMatch(
      /^common_uncertainty: /,
    );
    expect(refusal(() => scores([[0.6]], [[0.03]], [[-0.58]], [[0.04]])).message).toMatch(/^other_result: /);
    expect(refusal(() => scores(column(0.6, 0.7), column(0.1, 0.1, 0.1), [[0.58]], [[0.04]])).message).toMatch(
      /^expanded_uncertainty: .*the numbers must match/,
    );
  });
});
