import { describe, expect, test } from "vitest";
import { airDensity, pressureStations, stackPressure, windPressure } from "../../../src/functions";
import { cellsOf, column, errorIn, refusal } from "../errors";
import { none } from "./limits";

describe("PRESSURESTATIONS", () => {
  test("signed by the direction, the gauge shows the baseline too; readings are averaged", () => {
    expect(pressureStations([[20]], [[60]], [[3]], "depressurization", column(-1, -2, ""))).toEqual([
      [-60, -61.5],
      [-40, -41.5],
      [-20, -21.5],
    ]);
    expect(pressureStations([[20]], [[60]], [[2]], "pressurization", [[-1.5]])).toEqual([
      [60, 58.5],
      [20, 18.5],
    ]);
    expect(pressureStations([[20]], [[60]], [[2]])).toEqual([
      [60, 60],
      [20, 20],
    ]);
  });

  test("refuses what would mislead", () => {
    const message = (...given: Parameters<typeof pressureStations>) => refusal(() => pressureStations(...given));
    expect(message([[20]], [[60]], [[3]], none, [[-1]])).toEqual({
      code: "#N/A",
      message: "direction: not given yet",
    });
    expect(message([[2]], [[60]], [[3]], "depressurization", [[3]]).message).toMatch(/^baseline: /);
    expect(message([[60]], [[20]], [[3]]).message).toMatch(/^highest: must be above the lowest/);
    expect(message([[20]], [[60]], [[2.5]]).message).toMatch(/^count: a whole number/);
    expect(message([[20]], [[60]], [[1e9]]).message).toMatch(/^count: /);
    expect(message([[0]], [[60]], [[3]])).toEqual({ code: "#N/A", message: "lowest: not given yet" });
    expect(message(column(10, 20), [[60]], [[3]]).message).toBe("lowest: one cell is needed, not 2");
  });
});

describe("STACKPRESSURE and WINDPRESSURE", () => {
  test("columns of temperatures; a blank gives a blank, 0 °C is a temperature, a slip of unit an error in its row", () => {
    const [first, blank, slip] = cellsOf(stackPressure([[8]], [[20]], column(0, "", 300)));
    expect(first).toBeCloseTo(-3.458, 3);
    expect(blank).toBe("");
    expect(errorIn(slip).message).toMatch(/^outdoor_temperature, row 3: .*did you type °F or K/);
  });

  test("a temperature below absolute zero names its argument in °F too, not the conversion's", () => {
    expect(refusal(() => stackPressure([[26]], [[68]], [[-500]], none, none, "IP")).message).toMatch(
      /^outdoor_temperature: /,
    );
    expect(refusal(() => airDensity([[-500]], none, none, "IP")).message).toMatch(/^temperature: /);
  });

  test("heights beyond the building are refused", () => {
    expect(refusal(() => stackPressure([[8]], [[20]], [[0]], [[9]])).message).toMatch(/^measuring_height: /);
    expect(refusal(() => stackPressure([[8]], [[20]], [[0]], none, [[40]])).message).toMatch(/^neutral_height: /);
    expect(cellsOf(stackPressure([[8]], [[20]], [[0]], [[0]], [[0]]))).toEqual([0]);
    expect(refusal(() => windPressure([[-3]])).message).toMatch(/^speed: /);
  });
});
