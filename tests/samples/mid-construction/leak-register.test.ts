import "../look-up";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { leaks } from "../../../sample-workbooks/mid-construction/leaks";
import type { CellValue } from "../../../src/workbook/index";
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

const column = (letter: string, sheet = "Leak register") =>
  Array.from({ length: 40 }, (_, index) => `${sheet}!${letter}${9 + index}`);

/** A cell of the register, by the number of its leak: the sample numbers them from 1. */
const of = (letter: string, leak: number) => `Leak register!${letter}${8 + leak}`;

describe("the flow of a leak", () => {
  it("is carried over from the step that taped it, and as wide as the triangle that has its standard uncertainty", () => {
    for (const [leak, step, basis] of [
      [1, 2, "won, step 2"],
      [6, 7, "tape, step 7"],
      [7, 8, "won, step 8"],
    ] as const) {
      const gain = asStored.cell(`Tape and retest!X${7 + step}`) as number;
      const u = asStored.cell(`Tape and retest!Y${7 + step}`) as number;
      expect(asStored.cell(of("W", leak)), basis).toBeCloseToRelative(gain);
      const least = Math.max(0, gain - Math.sqrt(6) * u);
      if (least > 0) expect(asStored.cell(of("X", leak)), basis).toBeCloseToRelative(least);
      else expect(asStored.cell(of("X", leak)), basis).toBe(0);
      expect(asStored.cell(of("Y", leak)), basis).toBeCloseToRelative(gain + Math.sqrt(6) * u);
      expect(asStored.cell(of("Z", leak))).toBe(basis);
    }
  });

  it("is estimated where no tape measured it, or where lasting tape is to be followed by a further repair", () => {
    expect(["W", "X", "Y", "Z"].map((letter) => asStored.cell(of(letter, 8)))).toEqual([14, 8, 20, "estimate"]);
    expect(["W", "X", "Y", "Z"].map((letter) => asStored.cell(of(letter, 4)))).toEqual([4, 1, 7, "estimate"]);
    expect(typed({ [of("Q", 4)]: null }).cell(of("Z", 4))).toBe("won, step 5");
    expect(asStored.cell(of("W", 12))).toBe("");
  });

  it("follows a leak to its new row when the register is sorted", () => {
    const swapped = typed({ [of("B", 1)]: 6, [of("B", 6)]: 1 });
    expect(swapped.cell(of("Z", 1))).toBe("tape, step 7");
    expect(swapped.cell(of("Z", 6))).toBe("won, step 2");
  });

  it("is #N/A where a number is typed as text", () => {
    expect(typed({ [of("T", 8)]: "14 m³/h" }).cell(of("W", 8))).toMatchObject({ code: "#N/A" });
    expect(typed({ "Tape and retest!H22": "268 m³/h" }).cell(of("W", 6))).toMatchObject({ code: "#N/A" });
  });
});

describe("the rank of a repair", () => {
  const ranking = (test: typeof asStored) =>
    Array.from({ length: 14 }, (_, index) => test.cell(`Ranking and totals!C${8 + index}`)).filter((no) => no !== "");

  it("is its place by flow per cost; what is done, or was won by lasting tape, has none", () => {
    const wanted = leaks
      .filter(({ cost, likely }) => cost !== undefined && likely !== undefined)
      .sort((one, other) => other.likely! / other.cost! - one.likely! / one.cost!);
    expect(ranking(asStored)).toEqual(wanted.map(({ no }) => no));
    expect(asStored.cell("Ranking and totals!M8")).toBeCloseToRelative((100 * 4) / 45);
    expect(ranking(typed({ [of("K", 4)]: "accepted" }))).toEqual([9, 8, 10, 11]);
    expect(ranking(typed({ [of("S", 1)]: 10, [of("K", 1)]: "repaired" })), "won").toEqual([4, 9, 8, 10, 11]);
    expect(ranking(typed({ [of("S", 6)]: 100, [of("K", 6)]: "open" })), "under tape").toEqual([6, 4, 9, 8, 10, 11]);
  });

  it("is first for what costs nothing, and equal ones keep their order", () => {
    const free = typed({ [of("S", 11)]: 0 });
    expect(ranking(free)).toEqual([11, 4, 9, 8, 10]);
    expect(free.cell("Ranking and totals!M8")).toBe("no cost");
    expect(ranking(typed({ [of("T", 10)]: 9, [of("V", 10)]: 9, [of("S", 10)]: 120 }))).toEqual([4, 9, 10, 8, 11]);
  });
});

describe("the planned repairs", () => {
  const planned = (test: typeof asStored) =>
    Array.from({ length: 14 }, (_, index) => test.cell(`Gap and forecast!B${54 + index}`)).filter(
      (name) => name !== "",
    );

  it("of the forecast are those of the register, with their flows", () => {
    expect(planned(asStored)).toEqual([
      "Cables at the meter cupboard (leak 4)",
      "Chimney collar, roof (leak 8)",
      "Stair stringer at the slab (leak 9)",
    ]);
    const more = typed({ [of("Q", 10)]: "yes" });
    expect(planned(more)).toContain("Letterbox, front door (leak 10)");
    const flow = (test: typeof asStored) => summary(test, "Final test as planned, q50") as number;
    expect(flow(asStored) - flow(more)).toBeCloseToRelative(3);
  });

  it("all count, those that are not shown too", () => {
    const rows = Array.from({ length: 20 }, (_, index): [string, CellValue][] => [
      [`Leak register!B${21 + index}`, 13 + index],
      [`Leak register!C${21 + index}`, "roof"],
      [`Leak register!D${21 + index}`, `Staple ${index}`],
      [`Leak register!F${21 + index}`, "roofer"],
      [`Leak register!K${21 + index}`, "open"],
      [`Leak register!Q${21 + index}`, "yes"],
      ...["T", "U", "V"].map((letter): [string, CellValue] => [`Leak register!${letter}${21 + index}`, 0.5]),
    ]).flat();
    const many = typed(Object.fromEntries(rows));
    expect(many.cell("Gap and forecast!B68")).toContain("all 23 planned repairs");
    expect(summary(many, "Planned repairs, likely")).toBeCloseToRelative(27 + 10);
    expect(summary(many, "Final test as planned, q50")).toBeCloseToRelative(
      (summary(asStored, "Final test as planned, q50") as number) - 10,
    );
    expect(many.cell("Leak register!C6")).toBe("Rows to look into: 0");
  });

  it("count no more once they are retested: the flow now has them", () => {
    const retested = typed({ [of("K", 8)]: "retested" });
    expect(planned(retested)).toHaveLength(2);
    expect(summary(retested, "Planned repairs, likely")).toBeCloseToRelative(27 - 14);
    expect(retested.cell("Gap and forecast!B69")).toContain("retested already: 1");
  });

  it("without a flow are left out, and the forecast and the register say so", () => {
    const unknown = typed({ [of("Q", 12)]: "yes" });
    expect(unknown.cell("Gap and forecast!B69")).toContain("left out here");
    expect(unknown.cell(of("AD", 12))).toBe("planned, but no flow");
    expect(summary(unknown, "Probability of meeting the limit")).toBe(
      summary(asStored, "Probability of meeting the limit"),
    );
  });
});

it.each([
  [{ [of("B", 2)]: 1 }, 2, "number given twice"],
  [{ [of("B", 2)]: null }, 2, "no number"],
  [{ [of("C", 2)]: "cellar" }, 2, "storey missing or unknown"],
  [{ [of("U", 8)]: null }, 8, "three numbers, please"],
  [{ [of("U", 8)]: 15 }, 8, "low ≤ likely ≤ high"],
  [{ [of("K", 8)]: "retested" }, 8, "planned, but retested"],
])("a row of the register to look into is named: %o", (changes, leak, remark) => {
  expect(asStored.cell("Leak register!C6")).toBe("Rows to look into: 0");
  const faulty = typed(changes);
  expect(faulty.cell(of("AD", leak))).toBe(remark);
  expect(faulty.cell("Leak register!C6")).not.toBe("Rows to look into: 0");
});

describe("the sheet of a trade", () => {
  const rows = (test: typeof asStored, letter: string) =>
    Array.from({ length: 11 }, (_, index) => test.cell(`Trade sheet!${letter}${11 + index}`)).filter(
      (one) => one !== "",
    );

  it("holds the open leaks of the trade by their day, with place, photo, what to do and by when", () => {
    expect(rows(asStored, "B")).toEqual([9, 11, 10]);
    expect(rows(asStored, "C")).toEqual([121, 125, 122]);
    const chimney = leaks[7]!;
    const roofer = typed({ "Trade sheet!D6": "roofer" });
    expect("BCDEFGH".split("").map((letter) => roofer.cell(`Trade sheet!${letter}11`))).toEqual([
      chimney.no,
      chimney.photo,
      chimney.storey,
      chimney.place,
      chimney.action,
      chimney.byWhom,
      chimney.due,
    ]);
    expect(roofer.cell("Trade sheet!B2")).toBe("Leaks to repair: roofer");
    expect(typed({ "Trade sheet!D6": "plasterer" }).cell("Trade sheet!B8")).toBe("Nothing is open for this trade.");
  });

  it("says so where a trade has more leaks than one sheet holds, and gives the rest on the next", () => {
    const all = Object.fromEntries(
      leaks.flatMap(({ no }): [string, CellValue][] => [
        [of("F", no), "carpenter"],
        [of("K", no), "open"],
        [of("J", no), 46_300 - no],
      ]),
    );
    const page = typed(all);
    expect(rows(page, "B")).toEqual([12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2]);
    expect(page.cell("Trade sheet!B8")).toContain("print all 2");
    expect(rows(typed({ ...all, "Trade sheet!D7": 2 }), "B")).toEqual([1]);
  });
});

describe("the totals", () => {
  it("add the flows up by trade and by storey, and both come to the same", () => {
    const rest = (key: "trade" | "storey", name: string) =>
      leaks
        .filter((leak) => leak[key] === name && leak.likely !== undefined)
        .reduce((sum, { likely = 0 }) => sum + likely, 0);
    expect(asStored.cell("Ranking and totals!J31"), "carpenter").toBeCloseToRelative(rest("trade", "carpenter"));
    expect(asStored.cell("Ranking and totals!J65"), "roof").toBeCloseToRelative(rest("storey", "roof"));
    for (const letter of "EFGHIJKLM")
      expect(asStored.cell(`Ranking and totals!${letter}73`), letter).toBeCloseToRelative(
        asStored.cell(`Ranking and totals!${letter}41`) as number,
      );
    const shares = column("AK").map(
      (place, index) => [asStored.cell(place), asStored.cell(column("W")[index]!)] as const,
    );
    const won = shares.filter(([share]) => share === "won").reduce((sum, [, flow]) => sum + Number(flow), 0);
    expect(asStored.cell("Ranking and totals!L41")).toBeCloseToRelative(won);
    expect(asStored.cell("Ranking and totals!M41"), "cost of what is planned").toBe(45 + 260 + 120);
  });
});
