import { describe, expect, it } from "vitest";
import type { CellValue } from "../../src/workbook/index";
import {
  componentsByHand,
  fanFlowByHand,
  flatHouse,
  flowOfArea,
  gableHouse,
  infiltrationByHand,
  leakageArea,
} from "./envelope-by-hand";
import "./look-up";
import { errorsOf, sample, type Typed } from "./sample";

const { typed, typedCells } = sample("envelope-what-if.xlsx");
const asStored = typed();

/** Rows of the sheet Variants: outline from 9 on, what the limit counts from 22, what is allowed from 35. */
const allowed = (test: Typed, variant: number, column: string) => test.cell(`Variants!${column}${35 + variant}`);
const q50 = (test: Typed, variant: number) => allowed(test, variant, "C") as number;
const known = (test: Typed, variant: number) => allowed(test, variant, "L") as number;

const drawn = gableHouse(11.2, 8.4, 5.5, 3.6);
const longer = gableHouse(14.4, 8.4, 5.5, 3.6);
const amounts = {
  perimeter: 39.2,
  storeys: 2,
  windows4: 34,
  windows3: 0,
  doors3: 4.6,
  hatches: 1,
  ducts: 6,
  grommets: 14,
};

/** Shares of the volume that inner walls and floors take are invented: 11 %. */
const counted = 0.89;

describe("sizes and limits, against plane geometry and q = C·Δpⁿ by hand", () => {
  it("gives volume, envelope and floor area of every outline", () => {
    const flat = flatHouse(11.2, 8.4, 5.5);
    for (const [row, house] of [
      [9, drawn],
      [10, longer],
      [13, flat],
    ] as const) {
      expect(asStored.cell(`Variants!K${row}`)).toBeCloseToRelative(house.volume);
      expect(asStored.cell(`Variants!L${row}`)).toBeCloseToRelative(house.envelope);
      expect(asStored.cell(`Variants!M${row}`)).toBeCloseToRelative(house.floor);
    }
  });

  it("gives the odd plan from its corners, and its uncertainty", () => {
    const ground = 12.4 * 5.6 + 7.8 * 3.6;
    const upper = 7.8 * 9.2;
    const volume = ground * 2.75 + upper * 2.6;
    expect(asStored.cell("Odd plan!F26")).toBeCloseToRelative(volume);
    expect(asStored.cell("Odd plan!F32")).toBeCloseToRelative(volume);
    expect(asStored.cell("Odd plan!H32")).toBe("agrees with the call above");
    const walls = 43.2 * 2.75 + 34 * 2.6;
    expect(asStored.cell("Odd plan!F33")).toBeCloseToRelative(2 * ground + walls);
    expect(asStored.cell("Variants!L27")).toBeCloseToRelative(counted * volume);
  });

  it("turns each limit into flow and leakage areas", () => {
    expect(q50(asStored, 0)).toBeCloseToRelative(counted * drawn.volume);
    expect(q50(asStored, 1)).toBeCloseToRelative(counted * longer.volume);
    expect(q50(asStored, 2)).toBeCloseToRelative(0.6 * counted * drawn.volume);
    const perArea = 0.06 * 0.3048 * 60 * flatHouse(11.2, 8.4, 5.5).envelope;
    expect(q50(asStored, 4)).toBeCloseToRelative(perArea);
    expect(allowed(asStored, 4, "H")).toBeCloseToRelative(leakageArea(perArea, 4, 1));
    expect(allowed(asStored, 4, "I")).toBeCloseToRelative(leakageArea(perArea, 10, 1));
    expect(allowed(asStored, 4, "J")).toBeCloseToRelative(leakageArea(perArea, 10, 0.611));
    expect(allowed(asStored, 0, "K")).toBeCloseToRelative(leakageArea(counted * drawn.volume, 4, 1) / drawn.envelope);
  });

  it("lays sizes and targets out in one table", () => {
    expect(asStored.cell("Sizes and targets!F14")).toBeCloseToRelative(0.4 * counted * drawn.volume);
    expect(asStored.cell("Sizes and targets!J15")).toBeCloseToRelative(3 * counted * longer.volume);
    expect(asStored.cell("Sizes and targets!M15")).toBeCloseToRelative(
      leakageArea(0.6 * counted * longer.volume, 4, 1),
    );
    const per75 = typed({
      "Sizes and targets!C6": "per envelope area",
      "Sizes and targets!C7": 75,
      "Sizes and targets!F13": 4.572,
    });
    expect(per75.cell("Sizes and targets!F14")).toBeCloseToRelative(4.572 * drawn.envelope * (50 / 75) ** 0.65);
  });
});

describe("the budget of components", () => {
  it("adds windows by EN 12207, joints and holes, as by hand", () => {
    expect(known(asStored, 0)).toBeCloseToRelative(componentsByHand(amounts));
    expect(known(asStored, 1)).toBeCloseToRelative(
      componentsByHand({ ...amounts, perimeter: 45.6, windows4: 41, ducts: 8, grommets: 16 }),
    );
    expect(asStored.cell("Components!F25")).toBe("agrees");
  });

  it("says what is left, as flow and as one hole", () => {
    const left = counted * drawn.volume - componentsByHand(amounts);
    expect(allowed(asStored, 0, "N")).toBeCloseToRelative(left);
    expect(allowed(asStored, 0, "O")).toBeCloseToRelative(left / flowOfArea(50, 0.6, 0.5));
    expect(allowed(asStored, 2, "P")).toBe("known components exceed the limit");
    expect(allowed(asStored, 2, "O")).toBe(0);
  });

  it("follows a change of the windows from class 4 to class 3", () => {
    const change = 34 * (9 - 3) * 0.5 ** (2 / 3);
    expect(known(asStored, 3) - known(asStored, 0)).toBeCloseToRelative(change);
    const changed = typed({ "Components!C12": "Windows, class 3" });
    expect(known(changed, 0) - known(asStored, 0)).toBeCloseToRelative(change);
  });

  it("refuses an amount without its component instead of leaving it out", () => {
    expect(typed({ "Components!F21": 3 }).cell("Components!F24")).toMatchObject({ code: "#N/A" });
  });
});

describe("what if", () => {
  it("a larger envelope raises the flow that is allowed, a tighter limit lowers it", () => {
    const larger = typed({ "Variants!D9": 12.2 });
    expect(q50(larger, 0)).toBeCloseToRelative(counted * gableHouse(12.2, 8.4, 5.5, 3.6).volume);
    expect(q50(larger, 0)).toBeGreaterThan(q50(asStored, 0));
    expect(known(larger, 0)).toBeGreaterThan(known(asStored, 0));
    const tighter = typed({ "Limits!E19": 0.8 });
    expect(q50(tighter, 0)).toBeCloseToRelative(0.8 * q50(asStored, 0));
    expect(q50(tighter, 2)).toBe(q50(asStored, 2));
  });

  it("carries a limit at 4 Pa by the exponent, and leaves one at 50 Pa alone", () => {
    const atFour = typed({ "Variants!C22": "England, Part L 2021, at 4 Pa" });
    expect(q50(atFour, 0)).toBeCloseToRelative(1.57 * drawn.envelope * 12.5 ** 0.65);
    const steeper = typed({ "Variants!C22": "England, Part L 2021, at 4 Pa", "Variants!C5": 0.7 });
    expect(q50(steeper, 0)).toBeCloseToRelative(1.57 * drawn.envelope * 12.5 ** 0.7);
    expect(q50(steeper, 1)).toBe(q50(asStored, 1));
  });

  it("takes a leakage area per envelope area by its definition", () => {
    const area = typed({ "Variants!C22": "R-2000, leakage area" });
    expect(allowed(area, 0, "J")).toBeCloseToRelative(0.7 * drawn.envelope);
  });

  it("follows a moved corner of the odd plan", () => {
    const moved = typed({ "Odd plan!C9": 13.4, "Odd plan!C10": 13.4 });
    expect(q50(moved, 5) - q50(asStored, 5)).toBeCloseToRelative(counted * 5.6 * 2.75);
  });

  it("counts no volume room by room before the share of partitions is known", () => {
    const unknown = typed({ "Variants!J9": null });
    expect(unknown.cell("Variants!L22")).toBe("");
    expect(unknown.cell("Variants!P22")).toBe("share of partitions is missing");
    expect(allowed(unknown, 0, "C")).toBe("");
    const whole = typed({ "Variants!J9": null, "Variants!C22": "IECC 2021, zones 3 to 8" });
    expect(q50(whole, 0)).toBeCloseToRelative(3 * drawn.volume);
  });
});

describe("fan, infiltration and heat", () => {
  it("asks the fan for the flow of the densities on the day, and names the opening", () => {
    const flow = fanFlowByHand(1.5 * counted * drawn.volume, 60, 19, 7);
    expect(asStored.cell("Overview!C36")).toBeCloseToRelative(flow);
    expect(asStored.cell("Overview!C37")).toBe("ring A");
    const leaky = typed({ "Fan!C7": 20 });
    expect(leaky.cell("Overview!C37")).toBe("none");
    expect(leaky.cell("Overview!B18")).toContain("no opening of the device gives it");
  });

  it("gives each model's infiltration as by hand, and heat and cost from it", () => {
    const hand = infiltrationByHand(counted * drawn.volume, 9.1);
    for (let row = 46; row <= 50; row++) {
      const model = asStored.cell(`In use!B${row}`) as string;
      expect(asStored.cell(`In use!C${row}`), model).toBeCloseToRelative(hand[model] ?? NaN);
      const energy = ((hand[model] ?? NaN) * 0.34 * 74_000) / 1000;
      expect(asStored.cell(`In use!E${row}`), model).toBeCloseToRelative(energy);
      expect(asStored.cell(`In use!F${row}`), model).toBeCloseToRelative(energy * 0.11);
    }
    expect(asStored.cell("In use!B50")).toBe("ASHRAE 62.2");
    expect(asStored.cell("In use!D39")).toBeCloseToRelative(0.34 * 27);
  });
});

describe("the comparison in plain words", () => {
  const sentence = (test: Typed, row: number) => test.cell(`Overview!B${row}`) as string;

  it("tells a larger house", () => {
    expect(sentence(asStored, 15)).toBe(
      "“One bay longer” against “As drawn”: 29 % more volume, 21 % more envelope area.",
    );
    expect(sentence(asStored, 16)).toContain("it allows 786 m³/h at 50 Pa instead of 611, 29 % more.");
  });

  it("tells a tighter limit that the components alone exceed", () => {
    const tighter = typed({ "Overview!C12": "Tighter limit" });
    expect(sentence(tighter, 15)).toBe("“Tighter limit” against “As drawn”: the same volume, the same envelope area.");
    expect(sentence(tighter, 16)).toContain("Passive house, new build instead of Passive house, retrofit");
    expect(sentence(tighter, 16)).toContain("40 % less");
    expect(sentence(tighter, 17)).toMatch(/^The known components alone exceed the limit by 129 m³\/h/);
  });

  it("tells other windows by what is left over", () => {
    const windows = typed({ "Overview!C12": "Older windows" });
    expect(sentence(windows, 16)).toContain("the same");
    expect(windows.cell("Overview!F34")).toBe("129 m³/h less");
  });

  it("compares nothing with a variant whose name stands twice", () => {
    const twice = typed({ "Variants!B14": "One bay longer" });
    expect(twice.cell("Overview!F12")).toBe("no variant, or two, of this name");
    expect(twice.cell("Overview!D27")).toBe("");
    expect(twice.cell("Variants!P23")).toBe("the name stands twice");
  });
});

describe("slips", () => {
  it.each([110, -5])("a share of partitions of %s %% gives no volume", (share) => {
    const test = typed({ "Variants!J10": share });
    expect(test.cell("Overview!D23")).toBe("");
    expect(test.cell("Variants!P23")).toBe("share of partitions: 11 for 11 %");
    expect(allowed(test, 1, "C")).not.toBeTypeOf("number");
  });

  it("a share of partitions typed as a fraction is pointed out", () => {
    expect(typed({ "Variants!J10": 0.11 }).cell("Variants!P23")).toBe("share of partitions: 11 for 11 %");
    expect(typed({ "Variants!J10": 0 }).cell("Variants!P23")).toBe("");
  });

  it("a length that is text is pointed out", () => {
    expect(typed({ "Variants!D10": "14,4" }).cell("Variants!P23")).toBe("sizes cannot be reckoned");
  });

  it("an opening without its range is no opening called 0", () => {
    const test = typed({ "Fan!F16": null });
    expect(test.cell("Overview!C37")).toBe("");
    expect(asStored.cell("Overview!C37")).toBe("ring A");
  });
});

describe("blanks", () => {
  const emptied = (places: readonly string[]) => Object.fromEntries(places.map((place) => [place, null as CellValue]));

  it.each([false, true])("an empty form stays calm (blank cells as zero: %s)", (blankAsZero) => {
    const empty = typed(emptied(typedCells), blankAsZero);
    expect(errorsOf(empty)).toEqual([]);
    expect(empty.cell("Overview!B15")).toBe("");
    expect(empty.cell("Variants!C35")).toBe("");
  });

  it("a half-filled row stays blank and says what is missing", () => {
    const half = typed({ "Variants!B15": "Next idea", "Variants!D15": 9.4 });
    expect(errorsOf(half)).toEqual([]);
    expect(allowed(half, 6, "C")).toBe("");
    expect(half.cell("Variants!P28")).toBe("no criterion chosen");
  });
});
