import { describe, expect, test } from "vitest";
import { validityChecks } from "../../../src/functions";
import { column, refusal } from "../errors";
import { rowOf, outcome, symbolsWith, pressures, flows, checks } from "./checks";

describe("half-filled forms", () => {
  test("without any reading there is nothing to judge", () => {
    expect(refusal(() => checks({ pressures: ["", ""], flows: ["", null] }))).toEqual({
      code: "#N/A",
      message: "pressures: not given yet",
    });
  });

  test("two readings: pressures are judged, the line is not", () => {
    const table = checks({ pressures: pressures.slice(0, 2), flows: flows.slice(0, 2) });
    expect(outcome(table, "dp_max")).toBe("met");
    expect(outcome(table, "count")).toBe("not met");
    for (const symbol of ["n", "r2", "n50"]) expect(outcome(table, symbol)).toBe("cannot be judged");
  });

  test("no baseline yet: nothing that needs it is judged, the count is", () => {
    const table = checks({ before: ["", ""], after: ["", ""] });
    expect(outcome(table, "count")).toBe("met");
    for (const symbol of ["dp01-", "dp02-", "dp_min", "dp_max", "n", "dp0_of_min"]) {
      expect([symbol, outcome(table, symbol)]).toEqual([symbol, "cannot be judged"]);
    }
  });

  test("no baseline after the test yet: its checks stay open", () => {
    for (const after of [undefined, ["", ""]]) {
      const table = checks({ after });
      expect(symbolsWith(table, "cannot be judged")).toEqual(["dp02+", "dp02-", "dp0_of_min"]);
      expect(outcome(table, "n")).toBe("met");
    }
  });

  test("no settings at all: the readings are judged", () => {
    const table = validityChecks(
      "depressurization",
      column(...pressures),
      column(...flows),
      column(-1, -1.2),
      column(-1, 0),
    );
    for (const symbol of ["count", "dp_min", "dp_max", "n", "r2"]) expect(outcome(table, symbol)).toBe("met");
    expect(outcome(table, "n50")).toBe("cannot be judged");
    expect(symbolsWith(table, "cannot be judged")).toEqual(["gauge_days", "fan_days"]);
  });

  test("a technique that lacks its uncertainties leaves the line open, and says so", () => {
    const table = checks({ settings: [["technique", "errors in both"]] });
    expect(rowOf(table, "n")).toMatchObject({ measured: "", outcome: "cannot be judged" });
    expect(rowOf(table, "n").advice).toMatch(/the uncertainties that the technique asks for$/);
    const given = checks({
      settings: [
        ["technique", "errors in both"],
        ["pressure uncertainty", 0.5],
        ["flow uncertainty", 0.02],
      ],
    });
    expect(outcome(given, "n")).toBe("met");
  });

  test("readings at one pressure have no line, but are readings (ASTM E1827)", () => {
    const table = checks({
      pressures: [-51.3, -51.3, -51.3, -51.3, -51.3],
      flows: [500, 503, 499, 501, 500],
      settings: [["standard", "ASTM E1827"]],
    });
    expect(outcome(table, "count")).toBe("met");
    expect(outcome(table, "dp_max")).toBe("met");
    expect(rowOf(table, "n")).toMatchObject({ measured: "", outcome: "" });
  });
});
