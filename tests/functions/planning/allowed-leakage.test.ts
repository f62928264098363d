import { describe, expect, test } from "vitest";
import { allowedLeakage } from "../../../src/functions";
import { column, errorIn, refusal } from "../errors";
import { none, changes, placeOf } from "./limits";

const blankRow = Array<string>(8).fill("");

describe("ALLOWEDLEAKAGE", () => {
  test("a table of sizes: a blank size leaves its row blank, a bad one spoils its own row only", () => {
    const table = allowedLeakage([[0.6]], changes, column(300, "", 0, null, -5, "big", 450));
    expect(table.map((row) => row.length)).toEqual(Array<number>(7).fill(8));
    expect([table[0]?.[0], table[6]?.[0]]).toEqual([180, 270]);
    for (const row of [1, 2, 3]) expect(table[row]).toEqual(blankRow);
    expect(errorIn(table[4]?.[0])).toEqual({ code: "#VALUE!", message: "volumes, row 5: must be above 0 (got -5)" });
    expect(errorIn(table[5]?.[7]).message).toMatch(/^volumes, row 6: a number is needed/);
  });

  test("limits in a column, each for its own size", () => {
    const table = allowedLeakage(column(0.6, 1, ""), changes, column(500, 500, 500));
    expect(placeOf(table, 0)).toEqual([300, 500, ""]);
  });

  test("a size that the limit does not need only leaves its own column blank", () => {
    const table = allowedLeakage([[0.6]], changes, [[500]], column(400, "", 0));
    expect(placeOf(table, 3)).toEqual([0.75, "", ""]);
    expect(placeOf(table, 0)).toEqual([300, 300, 300]);
    expect(errorIn(allowedLeakage([[0.6]], changes, [[500]], column(400, -1))[1]?.[0]).message).toBe(
      "envelope_areas, row 2: must be above 0 (got -1)",
    );
  });

  test("sizes from the settings; a column takes their place, its blanks included", () => {
    const settings = [...changes, ["volume", 500], ["envelope area", 600], ["floor area", 200]];
    expect(allowedLeakage([[0.6]], settings)[0]?.slice(0, 5)).toEqual([300, 300, 0.6, 0.5, 1.5]);
    expect(allowedLeakage([[0.6]], settings, column(250, ""))).toEqual([
      allowedLeakage([[0.6]], [...changes, ["volume", 250], ["envelope area", 600], ["floor area", 200]])[0],
      blankRow,
    ]);
    expect(allowedLeakage([[0.6]], settings, none, [[""]])[0]?.[3]).toBe("");
  });

  test("what is still missing is #N/A and named", () => {
    expect(refusal(() => allowedLeakage([[0.6]]))).toEqual({
      code: "#N/A",
      message:
        'settings: "quantity" is not given yet; it is one of: air change rate, per envelope area, per floor area, leakage area per envelope area',
    });
    expect(refusal(() => allowedLeakage([[0.6]], changes)).message).toMatch(/^settings: volume: /);
    const area = [["quantity", "leakage area per envelope area"]];
    expect(refusal(() => allowedLeakage([[0.7]], area, none, [[300]])).code).toBe("#N/A");
    expect(refusal(() => allowedLeakage([[0.7]], area, none, [[300]])).message).toMatch(/leakage area definition/);
    expect(allowedLeakage([[""]], changes, [[500]])).toEqual([blankRow]);
  });

  test("columns of unlike size are refused; a heading row on request names the units", () => {
    expect(refusal(() => allowedLeakage([[0.6]], changes, column(1, 2), column(1, 2, 3))).message).toMatch(
      /^envelope_areas: 3 rows for 2 of volumes/,
    );
    const [head, row] = allowedLeakage([[0.6]], [...changes, ["headings", "yes"], ["units", "IP"]], [[15000]]);
    expect(head).toHaveLength(8);
    expect(head?.slice(0, 2)).toEqual(["q50, cfm", "flow at the limit's pressure, cfm"]);
    expect(row?.[0]).toBeCloseTo(150, 10);
  });

  test("ten thousand sizes in one call", () => {
    const volumes = Array.from({ length: 10_000 }, (_, index) => [200 + index / 10]);
    const table = allowedLeakage([[0.6]], changes, volumes);
    expect(table).toHaveLength(10_000);
    expect(table[9999]?.[0]).toBe(0.6 * (200 + 999.9));
  });
});
