import "../look-up";
import { describe, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/index";
import { gableHouse } from "../envelope-by-hand";
import { errorsOf, type Typed } from "../sample";
import { typed, typedCells, asStored, allowed, q50, known, drawn, counted } from "./form";

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
    expect(asStored.cell("Overview!C37")).toBe("B, large");
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
