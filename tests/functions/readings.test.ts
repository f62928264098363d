import { describe, expect, test } from "vitest";
import {
  baselinePressure,
  fanFlow,
  fitResiduals,
  inducedPressure,
  leakageCoefficient,
  leakageFit,
} from "../../src/functions";
import { cellsOf, column, errorIn, refusal } from "./errors";

describe("pairs of pressure and flow", () => {
  const pressures = [60, 50, 40, 30, 20];
  const flows = [272, 240, 208, 173, 133];

  test.each([null, "", 0])("a row blank in both columns (%j) is skipped", (blank) => {
    const withBlank = leakageCoefficient(column(...pressures, blank), column(...flows, blank));
    expect(withBlank).toBe(leakageCoefficient(column(...pressures), column(...flows)));
  });

  test("half a pair is #N/A with its row, as long as the form is being filled in", () => {
    const error = refusal(() => leakageFit(column(...pressures, 10), column(...flows, "")));
    expect(error).toEqual({ code: "#N/A", message: "flows: row 6 has a pressure but no flow" });
    expect(refusal(() => leakageFit(column(...pressures, null), column(...flows, 90))).message).toMatch(
      /row 6 has a flow but no pressure/,
    );
  });

  test("a typed 0 beside a number is an error, not a blank", () => {
    const error = refusal(() => leakageFit(column(...pressures, 10), column(...flows, 0)));
    expect(error).toEqual({
      code: "#VALUE!",
      message: "flows: row 6 has a pressure but no flow: 0 is not a reading",
    });
  });

  test("ranges of unlike size are refused", () => {
    expect(refusal(() => leakageFit(column(...pressures), column(1, 2))).message).toBe(
      "flows: 2 for 5 pressures: the numbers must match",
    );
  });

  test("text names its argument and row", () => {
    const error = refusal(() => leakageFit(column(60, "50,5", 40), column(1, 2, 3)));
    expect(error).toEqual({ code: "#VALUE!", message: 'pressures, row 2: a number is needed, not the text "50,5"' });
  });

  test("an error cell is passed on: #N/A stays missing, any other is an error, both naming the argument", () => {
    const cell = (basicValue: string) => ({ type: "Error", basicType: "Error", basicValue });
    const at = (basicValue: string) => refusal(() => leakageFit(column(60, 50, cell(basicValue)), column(1, 2, 3)));
    expect(at("#N/A")).toEqual({ code: "#N/A", message: "pressures, row 3: the cell holds #N/A" });
    expect(at("#DIV/0!")).toEqual({ code: "#VALUE!", message: "pressures, row 3: the cell holds #DIV/0!" });
  });

  test("a card counts as the number it shows", () => {
    const card = { type: "Double", basicType: "Double", basicValue: 60, properties: {} };
    expect(leakageCoefficient(column(card, ...pressures.slice(1)), column(...flows))).toBe(
      leakageCoefficient(column(...pressures), column(...flows)),
    );
  });

  test("several flow columns are several fans; a fan that rests is off, a spare column blank, a flow not yet typed #N/A", () => {
    const split = (resting: unknown) =>
      flows.map((flow, index) => (index < 3 ? [flow - 100, 100, ""] : [flow, resting, ""]));
    const whole = leakageCoefficient(column(...pressures), column(...flows));
    expect(leakageCoefficient(column(...pressures), split("off")) / whole).toBeCloseTo(1, 14);
    for (const blank of ["", null, 0]) {
      expect(refusal(() => leakageCoefficient(column(...pressures), split(blank)))).toEqual({
        code: "#N/A",
        message: 'flows: row 4 has no flow for fan 2; type "off" if it did not run',
      });
    }
    const negative = flows.map((flow) => [flow + 50, -50]);
    expect(refusal(() => leakageCoefficient(column(...pressures), negative)).message).toBe(
      "flows, row 1: must be 0 or more (got -50)",
    );
  });

  test("readings may stand across instead of down", () => {
    expect(leakageCoefficient([pressures], [flows])).toBe(leakageCoefficient(column(...pressures), column(...flows)));
  });

  test("fewer than three readings are #N/A that says how many there are", () => {
    const error = refusal(() => leakageFit(column(60, 50, ""), column(272, 240, "")));
    expect(error).toEqual({
      code: "#N/A",
      message: "pressures: 3 readings are needed, 2 so far",
    });
  });

  test("an excluded reading stays visible with its residual and does not count", () => {
    const include = column("yes", "No", true, "", "yes");
    const residuals = fitResiduals(column(...pressures), column(...flows), undefined, include);
    expect(residuals[1]!.slice(2)).toEqual(["", "", "", ""]);
    expect(typeof residuals[1]![1]).toBe("number");
    const without = pressures.filter((_, index) => index !== 1);
    expect(leakageCoefficient(column(...pressures), column(...flows), undefined, include)).toBe(
      leakageCoefficient(column(...without), column(...flows.filter((_, index) => index !== 1))),
    );
    expect(
      refusal(() => leakageFit(column(...pressures), column(...flows), undefined, undefined, column(1, 1, 1, 1, 0)))
        .message,
    ).toMatch(/include, row 1: text is needed/);
  });

  test("mixed signs are an error with the row; one sign, whichever, is a magnitude", () => {
    expect(refusal(() => leakageFit(column(-60, -50, 40), column(1, 2, 3))).message).toMatch(
      /^pressures, row 3: 40 Pa has the opposite sign to row 1/,
    );
    expect(leakageCoefficient(column(...pressures.map((p) => -p)), column(...flows))).toBe(
      leakageCoefficient(column(...pressures), column(...flows)),
    );
  });
});

describe("baseline and induced pressure", () => {
  test("0 is a baseline reading, a blank is none: −1.5 and 0 average to −0.75, −1.5 and a blank to −1.5", () => {
    expect(baselinePressure(column(-1.5, 0))).toBe(-0.75);
    expect(baselinePressure(column(-1.5, ""))).toBe(-1.5);
    expect(baselinePressure(column(-1.5, null), column(-0.5))).toBe(-1);
  });

  test("each set is averaged first, so that a longer set does not weigh more", () => {
    expect(baselinePressure(column(-2, -2, -2, -2), column(0))).toBe(-1);
  });

  test("no reading yet is #N/A, naming the set", () => {
    expect(refusal(() => baselinePressure(column("", ""))).message).toBe("before: not given yet");
    expect(refusal(() => baselinePressure(column(-1), column(""))).code).toBe("#N/A");
  });

  test("unsigned readings with a signed baseline are caught where the direction is known", () => {
    const error = refusal(() => inducedPressure(column(50, 40), column(-2.5), undefined, "depressurization"));
    expect(error.code).toBe("#VALUE!");
    expect(error.message).toMatch(
      /^readings, row 1: a depressurization reading is below 0 as indoors minus outdoors \(got 50 Pa\)/,
    );
  });

  test.each([
    ["indoors minus outdoors", -50, -2.5],
    ["outdoors minus indoors", 50, 2.5],
    ["magnitude", 50, -2.5],
  ])("the sign convention %s gives the same induced pressure", (sign, reading, baseline) => {
    expect(inducedPressure(column(reading), column(baseline), undefined, "depressurization", sign)).toEqual([[-47.5]]);
  });

  test("a cell that cannot be read spoils its own result; readings left out are missing; a range of two columns is refused", () => {
    const [first, wrong, last] = cellsOf(inducedPressure(column(-50, "x", -30), column(0)));
    expect([first, last]).toEqual([-50, -30]);
    expect(errorIn(wrong).message).toBe('readings, row 2: a number is needed, not the text "x"');
    expect(refusal(() => inducedPressure(null as unknown as unknown[][], column(0))).code).toBe("#N/A");
    expect(
      refusal(() =>
        inducedPressure(
          [
            [-10, -20],
            [-30, -40],
          ],
          column(0),
        ),
      ).message,
    ).toBe("readings: one column is needed (got 2)");
  });

  test("a magnitude needs its direction", () => {
    expect(refusal(() => inducedPressure(column(50), column(-2.5), undefined, undefined, "magnitude")).message).toMatch(
      /^direction:/,
    );
  });

  test("a reading within the baseline is an error with its row", () => {
    expect(refusal(() => inducedPressure(column(-50, -2), column(-2.5))).message).toMatch(
      /^readings, row 2: -2 Pa does not exceed the baseline/,
    );
  });

  test("a blank row stays blank, and the row in an error is the row of the sheet", () => {
    expect(inducedPressure(column(-50, "", -40), column(0))).toEqual([[-50], [""], [-40]]);
    expect(refusal(() => inducedPressure(column(-50, "", 40), column(0))).message).toMatch(/^readings, row 3:/);
  });
});

describe("flow of the device", () => {
  test("one call fills a column; a reading outside its range spoils only its own cell", () => {
    const [inside, blank, outside] = cellsOf(fanFlow(column(100, "", 400), [[20]], [[0.5]], [[25]], [[300]]));
    expect(inside).toBe(200);
    expect(blank).toBe("");
    expect(errorIn(outside)).toEqual({
      code: "#VALUE!",
      message: "fan_pressures, row 3: 400 lies outside the calibrated range, 25 to 300",
    });
  });

  test("densities in different units are refused", () => {
    expect(refusal(() => fanFlow([[25]], [[10]], [[0.5]], undefined, undefined, [[1.2]], [[0.075]])).message).toMatch(
      /are both in the same unit\?/,
    );
  });

  test("the density correction needs both densities", () => {
    expect(refusal(() => fanFlow([[100]], [[20]], [[0.5]], undefined, undefined, [[1.2]])).message).toMatch(
      /^actual_density:/,
    );
    expect(fanFlow([[100]], [[20]], [[0.5]], undefined, undefined, [[1.44]], [[1]])).toEqual([[240]]);
  });
});
