import { describe, expect, it } from "vitest";
import { AreaCache } from "../../../src/workbook/formula/grid/range-caches";
import type { SheetArea } from "../../../src/workbook/book/area";
import { dynamic, evaluated, f, type Content } from "./book";

describe("areas read by many cells", () => {
  it("give each reader the same values, and what hangs on them", () => {
    const contents: Record<string, Content> = { A1: f("TODAY()"), A2: f("NA()"), A3: 3 };
    for (let row = 1; row <= 3; row += 1) contents[`B${row}`] = f(`IFERROR(MATCH(3,A$1:A$3,0),0)+${row}`);
    const { at, evaluation } = evaluated(contents, { now: new Date(2024, 0, 1) });
    expect(["B1", "B2", "B3"].map(at)).toEqual([4, 5, 6]);
    const readers = evaluation.cells.filter(({ column }) => column === 1);
    expect(readers.map(({ onClock, readsError }) => ({ onClock, readsError }))).toEqual(
      Array.from({ length: 3 }, () => ({ onClock: true, readsError: true })),
    );
  });

  it("are read again once an array fills more of them", () => {
    const { at } = evaluated({
      A1: dynamic("A1", "_xlfn.SEQUENCE(C1)"),
      B1: f("MATCH(3,A$1:A$5,0)"),
      B2: f("MATCH(3,A$1:A$5,0)"),
      C1: 4,
    });
    expect(["B1", "B2"].map(at)).toEqual([3, 3]);
  });

  it("are not kept without end", () => {
    const cache = new AreaCache<string>();
    const area = (top: number): SheetArea => ({ sheet: 0, top, left: 0, bottom: top, right: 0 });
    const keep = (top: number): void => cache.keep(area(top), "found", 1_500_000);
    keep(1);
    expect(cache.get(area(1))).toBeDefined();
    keep(2);
    expect(cache.get(area(1))).toBeUndefined();
    expect(cache.get(area(2))).toBeDefined();
  });
});
