import { describe, expect, test } from "vitest";
import { passFail } from "../../../src/functions";
import { refusal } from "../errors";
import { type Table, symbolsWith, pressures, checks } from "./checks";

describe("PASSFAIL with the table", () => {
  /** Of depressurization alone, which most of these tables are of. */
  const verdict = (table: Table, result = 0.58, rule?: string, U?: number, decimals?: number): unknown => {
    const [uncertainty, rounding] = [U, decimals].map((value) => (value === undefined ? undefined : [[value]]));
    const down = "depressurization";
    const verdicts: Table = passFail([[result]], [[0.6]], uncertainty, rule, rounding, table, undefined, down);
    return verdicts[0]?.[0];
  };
  const verdictOf = (table: Table, other?: Table, directions?: string): unknown =>
    (passFail([[0.58]], [[0.6]], undefined, undefined, undefined, table, other, directions) as Table)[0]?.[0];
  const valid = checks();
  const broken = checks({ flows: [574, 320, 441, 364, 281] });
  const open = checks({ before: [-1.4] });

  test("valid, not valid and open tests are what they are meant to be", () => {
    expect([...symbolsWith(valid, "not met"), ...symbolsWith(valid, "cannot be judged")]).toEqual([]);
    expect(symbolsWith(broken, "not met")).toContain("r2");
    expect(symbolsWith(open, "not met")).toEqual([]);
    expect(symbolsWith(open, "cannot be judged")).not.toEqual([]);
  });

  test.each([
    ["plain", undefined, undefined, 0.58, "pass"],
    ["plain", undefined, undefined, 0.604, "fail"],
    ["plain", undefined, 1, 0.604, "pass"],
    ["plain", undefined, 1, 0.66, "fail"],
    ["plain", 0.05, undefined, 0.58, "pass"],
    ["guarded acceptance", 0.019, undefined, 0.58, "pass"],
    ["guarded acceptance", 0.03, undefined, 0.58, "not proven"],
    ["guarded acceptance", 0.03, undefined, 0.64, "fail"],
    ["guarded rejection", 0.03, undefined, 0.62, "pass"],
    ["guarded rejection", 0.03, undefined, 0.64, "fail"],
  ] as const)(
    "%s, U %s, decimals %s, %d: %s; never where the test is not valid or open",
    (rule, U, decimals, result, expected) => {
      expect(verdict(valid, result, rule, U, decimals)).toBe(expected);
      expect(verdict(broken, result, rule, U, decimals)).toBe("not valid");
      expect(refusal(() => verdict(open, result, rule, U, decimals)).code).toBe("#N/A");
    },
  );

  test("an open check is named, with what is missing", () => {
    expect(refusal(() => verdict(open)).message).toBe(
      'validity, row 3: "baseline before, mean of the positive readings" cannot be judged yet: ' +
        "give the single baseline readings before: one average hides its positive part",
    );
  });

  test("a check that is not met outweighs one that is open", () => {
    expect(verdict([...open, ...broken])).toBe("not valid");
  });

  test("both directions stand one below the other, headings and blank rows between them", () => {
    const up = checks({
      direction: "pressurization",
      pressures: pressures.map(Math.abs),
      settings: [["headings", "yes"]],
    });
    const gap = [Array.from({ length: 9 }, () => "")];
    expect(symbolsWith(up, "not met")).toEqual([]);
    expect(verdict([...valid, ...gap, ...up])).toBe("pass");
    expect(verdict([...up, ...gap, ...broken])).toBe("not valid");
    expect(refusal(() => verdict([...valid, ...open])).code).toBe("#N/A");
  });

  describe("the directions of the result", () => {
    const pressurized = pressures.map(Math.abs);
    const up = checks({ direction: "pressurization", pressures: pressurized });
    // Six baseline readings of −9 Pa, too far from 0 for ISO 9972.
    const brokenUp = checks({
      direction: "pressurization",
      pressures: pressurized,
      before: [-9, -9, -9],
      after: [-9, -9, -9],
    });
    const lacking = (direction: string) => ({
      code: "#N/A",
      message: `validity: no checks of ${direction}; for a result of one direction alone name it under "directions"`,
    });

    test("the checks of one direction are no verdict on the mean of both", () => {
      expect(refusal(() => verdictOf(valid))).toEqual(lacking("pressurization"));
      expect(refusal(() => verdictOf(up))).toEqual(lacking("depressurization"));
      expect(refusal(() => verdictOf(valid, undefined, "both"))).toEqual(lacking("pressurization"));
      expect(refusal(() => verdictOf([...valid, ...valid]))).toEqual(lacking("pressurization"));
      expect(refusal(() => verdictOf(valid, [[""]]))).toEqual(lacking("pressurization"));
    });

    test("two tables count as one below the other does", () => {
      expect(verdictOf(valid, up)).toBe("pass");
      expect(verdictOf(up, valid, "both")).toBe("pass");
      expect(verdictOf([...valid, ...up])).toBe("pass");
      expect(verdictOf([[""]], [...valid, ...up])).toBe("pass");
      expect(verdictOf(valid, brokenUp)).toBe("not valid");
      expect(verdictOf([...valid, ...brokenUp])).toBe("not valid");
    });

    test("a result of one direction is named as such, and needs its own table", () => {
      expect(verdictOf(valid, undefined, "depressurization")).toBe("pass");
      expect(verdictOf(up, undefined, "pressurization")).toBe("pass");
      expect(refusal(() => verdictOf(valid, undefined, "pressurization"))).toEqual(lacking("pressurization"));
      expect(refusal(() => verdictOf(valid, undefined, "one")).message).toBe(
        'directions: "one" is not one of: both, depressurization, pressurization',
      );
      // What was tested and handed over counts.
      expect(verdictOf(valid, brokenUp, "depressurization")).toBe("not valid");
    });

    test("a check not met outweighs a direction that is missing", () => {
      expect(verdictOf(broken)).toBe("not valid");
    });

    test("a refused second table is named as such", () => {
      expect(refusal(() => verdictOf(valid, up.slice(0, 10))).message).toMatch(/^validity: the whole table /);
      expect(refusal(() => verdictOf(valid, [["valid"]])).message).toMatch(/^other_validity: the whole table /);
      const lost = up.map((row, index) => (index === 2 ? [...row.slice(0, 5), "", ...row.slice(6)] : row));
      expect(refusal(() => verdictOf(valid, lost)).message).toMatch(/^other_validity, row 3: /);
    });
  });

  test("a cut table might hide what is not met, so it is refused", () => {
    const message = /the whole table of VALIDITYCHECKS is needed/;
    for (const cut of [
      broken.slice(0, 10),
      broken.slice(1),
      [...valid, ...broken.slice(0, 10)],
      broken.map((row) => row.slice(0, 8)),
    ]) {
      expect(refusal(() => verdict(cut))).toMatchObject({
        code: "#VALUE!",
        message: expect.stringMatching(message) as string,
      });
    }
    const sideBySide = valid.map((row, index) => [...row, ...broken[index]!]);
    expect(refusal(() => verdict(sideBySide)).code).toBe("#VALUE!");
    expect(refusal(() => verdict([...valid.slice(0, -1), valid[0]!])).code).toBe("#VALUE!");
  });

  test("a table of an earlier version is refused with a sentence that says what to do", () => {
    const older = (table: Table) => table.slice(0, 27);
    const message = "validity: the table has 27 checks for each direction; recalculate VALIDITYCHECKS over 35 rows";
    for (const table of [older(valid), older(broken), [...older(valid), ...older(valid)]]) {
      expect(refusal(() => verdict(table))).toEqual({ code: "#VALUE!", message });
    }
    expect(refusal(() => verdict([...valid, ...older(valid)])).message).toMatch(/the whole table .* 35 rows/);
    expect(refusal(() => verdict(valid.slice(0, 28))).message).toMatch(/the whole table .* 35 rows/);
  });

  test("an error of one direction reaches the verdict as it is", () => {
    const missing = [{ type: "Error", basicValue: "#N/A" }, ...Array.from({ length: 8 }, () => "")];
    expect(refusal(() => verdict([...valid, missing])).code).toBe("#N/A");
    expect(
      refusal(() => verdict([...valid, [{ type: "Error", basicValue: "#VALUE!" }, ...missing.slice(1)]])).code,
    ).toBe("#VALUE!");
  });

  test("CGSB: the flow of the other direction, given for its difference, makes no valid depressurization invalid", () => {
    // Weights q² from 15 Pa, eight readings in steps of 5 Pa.
    const induced = [50, 45, 40, 35, 30, 25, 20, 15];
    const cgsb = (direction: "depressurization" | "pressurization", sign: number) =>
      checks({
        direction,
        pressures: induced.map((pressure) => sign * pressure - 1.3),
        flows: [508, 475, 441, 404, 366, 324, 281, 235],
        settings: [
          ["standard", "CGSB 149.10"],
          ["q50 of the other direction", 510],
        ],
      });
    expect(verdictOf(cgsb("depressurization", -1))).toBe("pass");
    const turned = cgsb("pressurization", 1);
    expect(symbolsWith(turned, "not met")).toContain("direction");
    expect(verdictOf(turned)).toBe("not valid");
  });

  test("advisory checks never decide", () => {
    const windy = checks({
      settings: [
        ["wind speed", 9],
        ["wind place", "near the ground"],
        ["beaufort", 6],
      ],
    });
    expect(symbolsWith(windy, "not met", "advisory")).toEqual(expect.arrayContaining(["wind", "beaufort"]));
    expect(verdict(windy)).toBe("pass");
  });
});
