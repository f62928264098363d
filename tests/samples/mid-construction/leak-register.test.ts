import "../look-up";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { leaks } from "../../../sample-workbooks/mid-construction/leaks";
import { partsOf, sheetParts } from "../parts";
import { typed, asStored, summary } from "./form";

describe("the leak register", () => {
  const of = (trade: string, state?: string) =>
    leaks.filter((leak) => leak.trade === trade && (state === undefined || leak.state === state)).length;

  it("is a real table with filters, sorted and filtered though the sheet is protected", () => {
    const table = asStored.book.tables.find(({ name }) => name === "Leaks");
    expect(table?.columns).toContain("found by");
    expect(table?.area).toMatchObject({ top: 7, bottom: 47 });
    const bytes = readFileSync(new URL("../../../sample-workbooks/mid-construction.xlsx", import.meta.url));
    const register = sheetParts(partsOf(bytes)).find(({ name }) => name === "Leak register");
    const protection = /<sheetProtection [^>]*>/.exec(register?.xml ?? "")?.[0];
    expect(protection).toContain('sheet="1"');
    expect(protection, "0 is allowed").toContain('sort="0" autoFilter="0"');
  });

  it("is counted by trade and state", () => {
    ["carpenter", "window fitter", "plumber", "ventilation", "electrician", "roofer"].forEach((trade, index) => {
      const row = 31 + index;
      expect(asStored.cell(`Ranking and totals!D${row}`)).toBe(trade);
      ["open", "repaired", "retested", "accepted"].forEach((state, at) => {
        expect(asStored.cell(`Ranking and totals!${"EFGH".charAt(at)}${row}`), `${trade}, ${state}`).toBe(
          of(trade, state),
        );
      });
      expect(asStored.cell(`Ranking and totals!I${row}`)).toBe(of(trade));
    });
    expect(asStored.cell("Ranking and totals!I41")).toBe(leaks.length);
    expect(asStored.cell("Ranking and totals!M77"), "by smoke").toBe(
      leaks.filter(({ foundBy }) => foundBy === "smoke").length,
    );
    expect(summary(asStored, "open")).toBe(leaks.filter(({ state }) => state === "open").length);
  });

  it("compares trades and ways as they stand, never as a number, a comparison or a pattern", () => {
    const names = ["2A", "<5", "a*", "9h", "=1"];
    const listed = names.map((name, index) => [`House and instruments!D${26 + index}`, name] as const);
    const used = names.map((name, index) => [`Leak register!F${9 + index}`, name] as const);
    const ways = names.flatMap((name, index) => [
      [`House and instruments!F${26 + index}`, name] as const,
      [`Leak register!M${9 + index}`, name] as const,
    ]);
    const renamed = typed(Object.fromEntries([...listed, ...used, ...ways]));
    expect(renamed.evaluation.cells.filter(({ outcome }) => !outcome.evaluated)).toEqual([]);
    names.forEach((name, index) => {
      expect(renamed.cell(`Ranking and totals!I${31 + index}`), name).toBe(1);
      expect(renamed.cell(`Ranking and totals!M${77 + index}`), name).toBe(1);
      const state = ["open", "repaired", "retested", "accepted"].indexOf(leaks[index]!.state);
      expect(renamed.cell(`Ranking and totals!${"EFGH".charAt(state)}${31 + index}`), name).toBe(1);
    });
  });

  it("says where a leak has no trade that is counted", () => {
    expect(asStored.cell("Ranking and totals!I42")).toBe(0);
    expect(typed({ "Leak register!F9": "gardener" }).cell("Ranking and totals!I42")).toBe(1);
    expect(typed({ "Leak register!K9": null }).cell("Ranking and totals!I42")).toBe(1);
  });
});
