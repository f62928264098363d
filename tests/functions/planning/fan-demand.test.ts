import { describe, expect, test } from "vitest";
import { fanDemand } from "../../../src/functions";
import { refusal } from "../errors";
import { changes, placeOf } from "./limits";

describe("FANDEMAND", () => {
  const settings = [...changes, ["volume", 500], ["indoor temperature", 20], ["outdoor temperature", 0]];
  const openings = [
    ["A", 10, 0.5, 20, 200],
    ["", "", "", "", ""],
    ["B", 30, 0.5, 20, 200],
  ];
  const cell = (table: unknown[][], symbol: string, place = 2) => table.find((row) => row[1] === symbol)?.[place];

  test("a table of fixed shape; without openings their rows are blank", () => {
    const table = fanDemand([[0.6]], [[60]], settings);
    expect(table).toHaveLength(13);
    expect(new Set(table.map((row) => String(row[1]).toLowerCase())).size).toBe(13);
    expect([cell(table, "opening_dep"), cell(table, "p_fan_pres")]).toEqual(["", ""]);
    expect(cell(table, "n", 0)).toBe("flow exponent, assumed");
    expect(placeOf(fanDemand([[0.6]], [[60]], settings, openings), 1)).toEqual(placeOf(table, 1));
  });

  test("none fits: says on which side", () => {
    const why = (target: number) => {
      const table = fanDemand([[target]], [[60]], settings, openings);
      expect([cell(table, "opening_dep"), cell(table, "p_fan_dep")]).toEqual(["none", ""]);
      return cell(table, "opening_dep", 0);
    };
    expect(why(6)).toMatch(/none: the flow lies above every range$/);
    expect(why(0.01)).toMatch(/none: the flow lies below every range$/);
    const gap = [
      ["A", 1, 0.5, 20, 200],
      ["B", 300, 0.5, 20, 200],
    ];
    const table = fanDemand([[0.6]], [[60]], settings, gap);
    expect(cell(table, "opening_dep", 0)).toMatch(/none: the flow lies between the ranges$/);
  });

  test("an opening half filled in, or wrong, names its row", () => {
    const message = (...row: unknown[]) => refusal(() => fanDemand([[0.6]], [[60]], settings, [openings[0]!, row]));
    expect(message("B", 30, 0.5, 20, "")).toEqual({
      code: "#N/A",
      message: "openings, row 2: an opening without its highest fan pressure",
    });
    expect(message("", 30, 0.5, 20, 200).message).toBe("openings, row 2: an opening without its name");
    expect(message("B", -30, 0.5, 20, 200).message).toMatch(/^openings, row 2: must be above 0/);
    expect(message("B", 30, 5, 20, 200).message).toMatch(/^openings, row 2: above 0 and not more than 2/);
    expect(message("B", 30, 0.5, 300, 200).message).toMatch(/^openings, row 2: /);
    expect(refusal(() => fanDemand([[0.6]], [[60]], settings, [["A", 10, 0.5]])).message).toMatch(
      /the columns are: name, c, m/,
    );
    expect(refusal(() => fanDemand([[0.6]], [[60]], settings, [["", "", "", "", ""]])).code).toBe("#N/A");
  });

  test("missing and impossible settings are named as settings", () => {
    const message = (given: unknown[][]) => refusal(() => fanDemand([[0.6]], [[60]], given));
    expect(message(changes).message).toMatch(/^settings: volume: /);
    expect(message(settings.slice(0, 3)).message).toBe('settings: "outdoor temperature" is not given yet');
    expect(message([...settings.slice(0, 3), ["outdoor temperature", 500]]).message).toMatch(
      /^settings: outdoor temperature: /,
    );
    expect(refusal(() => fanDemand([[""]], [[60]], settings))).toEqual({
      code: "#N/A",
      message: "target: not given yet",
    });
    expect(refusal(() => fanDemand([[0.6]], [[-60]], settings)).message).toMatch(/^highest: must be above 0/);
  });
});
