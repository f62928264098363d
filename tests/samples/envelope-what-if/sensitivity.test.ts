import "../look-up";
import { describe, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/index";
import { errorsOf, sample, type Typed } from "../sample";
import { asStored, typed } from "./form";

/** The assumptions in their order, from row 13 on. */
const lines = {
  exponent: 13,
  components: 14,
  partitions: 15,
  height: 16,
  size: 17,
  areas: 18,
  lengths: 19,
  pieces: 20,
  asFlow: 21,
  asArea: 22,
  asHole: 23,
} as const;

type Changes = Readonly<Record<string, CellValue>>;

/** Share of the allowed flow, and n50 of the known components alone, of the second variant by its own rows. */
const share = (test: Typed) => test.cell("Variants!M36") as number;
const rate = (test: Typed) => (test.cell("Variants!L36") as number) / (test.cell("Variants!L23") as number);

/** The line's figures, one step down and one step up, are those of the workbook in which the step is typed. */
function expectLine(line: keyof typeof lines, down: Changes, up: Changes, elsewhere: Changes = {}): void {
  const form = typed(elsewhere);
  const row = lines[line];
  for (const [changes, ofRate, ofShare] of [
    [down, "G", "I"],
    [up, "H", "J"],
  ] as const) {
    const changed = typed({ ...elsewhere, ...changes });
    expect(form.cell(`Sensitivity!${ofShare}${row}`), `${line} ${ofShare}`).toBeCloseToRelative(share(changed));
    expect(form.cell(`Sensitivity!${ofRate}${row}`), `${line} ${ofRate}`).toBeCloseToRelative(rate(changed));
  }
}

/** Cells of a column of the library, times a factor or plus a term, where the leakage is given in one way. */
function library(column: string, kind: RegExp, by: (value: number) => number): Changes {
  const rows = Array.from({ length: 34 }, (_, index) => 7 + index);
  const given = rows.filter((row) => kind.test((asStored.cell(`Library!D${row}`) as string | null) ?? ""));
  return Object.fromEntries(
    given.map((row) => [`Library!${column}${row}`, by(asStored.cell(`Library!${column}${row}`) as number)]),
  );
}

describe("each assumption one step down and one step up", () => {
  it("gives what the workbook gives with the step typed in", () => {
    expectLine("exponent", { "Variants!C5": 0.6 }, { "Variants!C5": 0.7 });
    expectLine("partitions", { "Variants!J10": 8 }, { "Variants!J10": 14 });
    expectLine("height", { "Variants!G10": 2.65 }, { "Variants!G10": 2.85 });
    const exponents = (step: number) => library("H", /./, (n) => n + step);
    expectLine("components", exponents(-0.05), exponents(0.05));
  });

  it("for amounts by their unit and leakages by how they are given", () => {
    const amounts = (rows: readonly number[], factor: number): Changes =>
      Object.fromEntries(
        rows.flatMap((row) => {
          const amount = asStored.cell(`Components!G${row}`);
          return typeof amount === "number" ? [[`Components!G${row}`, amount * factor]] : [];
        }),
      );
    expectLine("areas", amounts([12, 13, 14], 0.9), amounts([12, 13, 14], 1.1));
    expectLine("pieces", amounts([15, 16, 17, 18, 19], 0.8), amounts([15, 16, 17, 18, 19], 1.2));
    for (const [line, kind, step] of [
      ["asFlow", /^flow/, 0.3],
      ["asArea", /^leakage area/, 0.5],
      ["asHole", /^hole/, 0.5],
    ] as const)
      expectLine(
        line,
        library("E", kind, (value) => value * (1 - step)),
        library("E", kind, (value) => value * (1 + step)),
      );
  });

  it("under limits per area and at other pressures, and for a plan by its corners", () => {
    const area = { "Variants!C23": "US Army Corps of Engineers" };
    expectLine("exponent", { "Variants!C5": 0.6 }, { "Variants!C5": 0.7 }, area);
    expectLine("height", { "Variants!G10": 2.65 }, { "Variants!G10": 2.85 }, area);
    const plan = typed({ "Overview!C12": "Odd plan" });
    const higher = typed({ "Odd plan!E20": 2.85, "Odd plan!H20": 2.7 });
    expect(plan.cell("Sensitivity!J16")).toBeCloseToRelative(higher.cell("Variants!M40") as number);
    const planPerArea = { "Variants!C27": "Phius" };
    expect(typed({ ...planPerArea, "Overview!C12": "Odd plan" }).cell("Sensitivity!J16")).toBeCloseToRelative(
      typed({ ...planPerArea, "Odd plan!E20": 2.85, "Odd plan!H20": 2.7 }).cell("Variants!M40") as number,
    );
  });

  it("for the size that is counted and for lengths, which follow from the outline", () => {
    expect(asStored.cell("Sensitivity!I17")).toBeCloseToRelative(share(asStored) / 0.98);
    expect(asStored.cell("Sensitivity!H17")).toBeCloseToRelative(rate(asStored) / 1.02);
    const joints = [9, 10, 11].map((row) => 45.6 * (asStored.cell(`Components!E${row}`) as number));
    const length = joints.reduce((sum, flow) => sum + flow, 0) / (asStored.cell("Variants!L36") as number);
    expect(asStored.cell("Sensitivity!J19")).toBeCloseToRelative(share(asStored) * (1 + 0.1 * length));
    expect(asStored.cell("Sensitivity!G19")).toBeCloseToRelative(rate(asStored) * (1 - 0.1 * length));
    const perArea = typed({ "Variants!C23": "Phius" });
    expect(perArea.cell("Sensitivity!J17")).toBeCloseToRelative(share(perArea) / 1.02);
    expect(perArea.cell("Sensitivity!H17")).toBeCloseToRelative(rate(perArea));
  });

  it("by steps of one's own", () => {
    const wider = typed({ "Sensitivity!E15": 6 });
    expect(wider.cell("Sensitivity!J15")).toBeCloseToRelative(share(typed({ "Variants!J10": 17 })));
  });
});

describe("the order of the bars", () => {
  const sorted = (test: Typed, column: string) =>
    Object.values(lines).map((row) => test.cell(`Sensitivity!${column}${row}`));

  it("is by size, each assumption once, the chart's values in points", () => {
    const names = sorted(asStored, "AA");
    expect(new Set(names).size).toBe(11);
    expect(names[0]).toBe("Leakage given as area (joints, hatches)");
    const widths = sorted(asStored, "AB").map((down, index) =>
      Math.max(Math.abs(down as number), Math.abs(sorted(asStored, "AC")[index] as number)),
    );
    expect(widths).toEqual([...widths].sort((one, other) => other - one));
    expect(sorted(asStored, "AC")[0]).toBeCloseToRelative(
      100 * ((asStored.cell("Sensitivity!J22") as number) - share(asStored)),
    );
    expect(asStored.cell("Sensitivity!B24")).toMatch(
      /^“Leakage given as area.*” moves the share most: 71 % as it is, /,
    );
  });

  it("leaves out an assumption without a step, and repeats the caution on amounts", () => {
    const test = typed({ "Sensitivity!E22": null, "Variants!D10": 15.2 });
    expect(sorted(test, "AA").slice(-1)).toEqual([""]);
    expect(errorsOf(test)).toEqual([]);
    expect(test.cell("Sensitivity!B24")).toContain("look again");
  });
});

describe("a blank form", () => {
  const { typed: form, typedCells } = sample("blank/envelope-what-if.xlsx");

  it.each([false, true])("keeps the steps and is calm (blank cells as zero: %s)", (blankAsZero) => {
    const blank = form({}, blankAsZero);
    expect(errorsOf(blank)).toEqual([]);
    expect(typedCells).toContain("Sensitivity!E13");
    expect(blank.cell("Sensitivity!E22")).toBe(50);
    expect(blank.cell("Sensitivity!B24")).toBe("");
  });
});
