import { describe, expect, test } from "vitest";
import { heatLoss, infiltrationFlow } from "../../src/functions";
import { cellsOf, column, errorIn, refusal } from "./errors";

const none = undefined as never;
const sheltered = [
  ["storeys", 2],
  ["shelter class", 3],
];

describe("INFILTRATIONFLOW", () => {
  test("what a model needs is named: an argument as an argument, a setting as a setting", () => {
    const message = (...given: Parameters<typeof infiltrationFlow>) => refusal(() => infiltrationFlow(...given));
    expect(message("basic", [[500]], none, [[20]], none, sheltered)).toEqual({
      code: "#N/A",
      message: "wind_speed: not given yet",
    });
    expect(message("basic", [[500]], none, [[20]], [[4]])).toEqual({
      code: "#N/A",
      message: "settings: storeys: not given yet",
    });
    expect(message("enhanced", [[500]], none, [[20]], [[4]], sheltered).message).toBe("settings: flue: not given yet");
    expect(message("EN ISO 13789", [[500]]).message).toBe("settings: exposed sides: not given yet");
    expect(message("ASHRAE 62.2", [[500]], none, none, none, [["floor area", 100]]).message).toBe(
      "settings: weather and shielding factor: not given yet",
    );
    expect(message("", [[500]])).toMatchObject({ code: "#N/A" });
    expect(message("n50/30", [[500]]).message).toMatch(/^model: "n50\/30" is not one of: n50\/20, basic, /);
  });

  test("outside its tables a model says nothing", () => {
    const message = (storeys: unknown, shelter: unknown, wind = 4) => {
      const settings = [
        ["storeys", storeys],
        ["shelter class", shelter],
      ];
      return refusal(() => infiltrationFlow("basic", [[500]], none, [[20]], [[wind]], settings)).message;
    };
    expect(message(4, 3)).toBe("settings: storeys: a whole number from 1 to 3 (got 4)");
    expect(message(1.5, 3)).toBe("settings: storeys: a whole number from 1 to 3 (got 1.5)");
    expect(message(2, 6)).toBe("settings: shelter class: a whole number from 1 to 5 (got 6)");
    expect(message(2, 3, -1)).toMatch(/^wind_speed: between 0 and 100/);
    expect(refusal(() => infiltrationFlow("basic", [[500]], [[2]], [[20]], [[4]], sheltered)).message).toMatch(
      /^exponent: /,
    );
  });

  test("columns: a blank flow stays blank, a blank wind is missing in its row, calm and no difference are values", () => {
    const result = cellsOf(
      infiltrationFlow("basic", column(500, "", 500, 500), none, [[0]], column(0, 4, "", 4), sheltered),
    );
    expect(result.slice(0, 2)).toEqual([0, ""]);
    expect(errorIn(result[2])).toEqual({ code: "#N/A", message: "wind_speed, row 3: not given yet" });
    expect(result[3]).toBeGreaterThan(0);
  });

  test("the exponent of the argument goes before that of the settings, and that before 0.65", () => {
    const flow = (argument: unknown, setting: unknown) =>
      cellsOf(
        infiltrationFlow("basic", [[500]], [[argument]], [[20]], [[4]], [...sheltered, ["exponent", setting]]),
      )[0];
    expect(flow("", "")).toBe(flow(0.65, ""));
    expect(flow("", 0.7)).toBe(flow(0.7, 0.6));
    expect(flow(0.7, 0.6)).not.toBe(flow("", 0.6));
  });
});

describe("HEATLOSS", () => {
  test("three cells a row, blank where their input is missing", () => {
    expect(heatLoss(column(100, "", 0, 50), column(20, 20, 20, ""), [[1000]])).toEqual([
      [34, 680, 34],
      ["", "", ""],
      ["", "", ""],
      [17, "", 17],
    ]);
    expect(heatLoss([[100]])).toEqual([[34, "", ""]]);
    expect(heatLoss([[100]], [[0]], [[0]])).toEqual([[34, 0, ""]]);
  });

  test("a heat capacity in other units is noticed", () => {
    expect(refusal(() => heatLoss([[100]], none, none, [[1.08]])).message).toMatch(/^heat_capacity: /);
    expect(refusal(() => heatLoss([[100]], none, none, [[0.34]], "IP")).message).toMatch(/^heat_capacity: /);
    expect(refusal(() => heatLoss([[100]], none, [[-3]])).message).toMatch(/^degree_hours: /);
    expect(refusal(() => heatLoss([[-100]])).message).toMatch(/^flow: /);
  });
});
