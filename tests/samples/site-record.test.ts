import { describe, expect, it } from "vitest";
import { lettersOf } from "../../sample-workbooks/blocks/address";
import { testDay } from "../../sample-workbooks/test-day";
import type { CellValue } from "../../src/workbook/index";
import { errorsOf, sample, type Typed } from "./sample";

const { typed } = sample("test-day.xlsx");
const asStored = typed();
const blank = sample("blank/test-day.xlsx").typed();
const form = sample("final-test.xlsx").typed();

const onRecord = (test: Typed, place: string) => test.cell(`Site record!${place}`);

/** Columns of the four runs beside each other, each with its six. */
const runs = [
  { sheet: "Depressurization", set: "C", sign: -1, source: "D", induced: "C", first: 1 },
  { sheet: "Depressurization 2", set: "J", sign: -1, source: "D", induced: "C", first: 8 },
  { sheet: "Pressurization", set: "Q", sign: 1, source: "F", induced: "E", first: 15 },
  { sheet: "Pressurization 2", set: "X", sign: 1, source: "F", induced: "E", first: 22 },
] as const;
const readings = { heads: 46, first: 47, count: 12 } as const;

describe("the pressures to set on the site record", () => {
  it.each([
    ["as stored", 10, {}],
    ["with a baseline that was read above zero", 10, { "Pressures!C9": 1.4 }],
    ["with six stations", 6, { "Pressures!C8": 6, "Pressures!C6": 20 }],
    ["with twelve stations", 12, { "Pressures!C8": 12 }],
  ] as const)("are the stations of the sheet Pressures, signed by direction (%s)", (_, count, changes) => {
    const test = typed(changes);
    let set = 0;
    for (const { set: letters, sign, source, induced } of runs)
      for (let index = 0; index < readings.count; index++) {
        const station = (column: string) => test.cell(`Pressures!${column}${25 + index}`);
        const pressure = onRecord(test, `${letters}${readings.first + index}`);
        expect(pressure ?? "").toEqual(station(source) ?? "");
        if (typeof pressure !== "number") continue;
        expect(Math.sign(pressure)).toBe(sign);
        expect(Math.sign(station(induced) as number)).toBe(sign);
        set += 1;
      }
    expect(set).toBe(4 * count);
  });

  it("stay away while there is nothing to set", () => {
    for (const { set } of runs) expect(onRecord(typed({ "Day!C13": null }), `${set}${readings.first}`)).toBe("");
  });
});

describe("the order of the site record", () => {
  /** Labels down a column, from one row to another, counted from 1. */
  const down = (test: Typed, sheet: string, letters: string, [first, last]: readonly [number, number]) =>
    Array.from({ length: last - first + 1 }, (_, index) => test.cell(`${sheet}!${letters}${first + index}`));
  const wordsOf = (values: readonly CellValue[]) =>
    values.filter((value): value is string => typeof value === "string" && value !== "");
  const tabs = form.book.sheets.map(({ name }) => name);

  it("leads from sheet to sheet of the final test as its tabs follow each other", () => {
    const blocks = ["B5", "B12", "B13", "B19", "P5", "P24", "B32", "I32", "P32", "W32"];
    const targets = blocks.map((place) => /→ (.+)$/.exec(wordsOf([onRecord(asStored, place)]).join(""))?.[1] ?? place);
    expect(targets).toEqual([
      "Cover",
      "Rooms",
      "Firm",
      "Preparation",
      "Preparation",
      "Preparation",
      ...runs.map(({ sheet }) => sheet),
    ]);
    const order = targets.map((name) => tabs.indexOf(name));
    expect(order).toEqual([...order].sort((one, other) => one - other));
    expect(order).not.toContain(-1);
  });

  it.each([
    ["the house", "B", [6, 11], "Cover", "B", [6, 10]],
    ["the test", "I", [6, 11], "Cover", "F", [6, 11]],
    ["the instruments", "B", [14, 18], "Firm", "B", [13, 17]],
    ["building, device, services, weather", "B", [20, 29], "Preparation", "B", [6, 15]],
  ] as const)("has the lines of the form, one after the other: %s", (_, letters, rows, sheet, column, there) => {
    const wanted = wordsOf(down(form, sheet, column, there));
    const labels = wordsOf(down(asStored, "Site record", letters, rows));
    expect(labels).toHaveLength(wanted.length);
    // A label may be shorter than the form's.
    wanted.forEach((words, index) => {
      expect(words.startsWith(labels[index] ?? "?"), `${words}: ${labels[index]}`).toBe(true);
    });
  });

  it("has the conditions, the columns of the readings and their count of each run", () => {
    const conditions = wordsOf(down(form, "Depressurization", "B", [7, 12])).map((words) =>
      words
        .replace("Temperature", "Temp.")
        .replace(/^Relative h/, "H")
        .replace(" on site", ""),
    );
    const headsOf = (test: Typed, sheet: string, bottom: number, columns: readonly number[]) =>
      columns.map((column) => wordsOf(down(test, sheet, lettersOf(column), [bottom - 2, bottom])).join(" "));
    const heads = headsOf(form, "Depressurization", 23, [1, 2, 3, 4, 5]).map((words) =>
      words.replace(" reading", "").replace(/ Pa$/, ""),
    );
    expect(heads).toEqual(["no.", "use", "pressure", "opening", "fan pressure"]);
    const numbers = Array.from({ length: readings.count }, (_, index) => index + 1);
    for (const { first, sheet } of runs) {
      const letters = lettersOf(first);
      const columns = [0, 2, 3, 4, 5].map((offset) => first + offset);
      expect(down(asStored, "Site record", letters, [34, 39]), sheet).toEqual(conditions);
      expect(headsOf(asStored, "Site record", readings.heads, columns), sheet).toEqual(heads);
      expect(down(asStored, "Site record", letters, [readings.first, readings.first + 11])).toEqual(numbers);
      expect(down(form, sheet, "B", [24, 35])).toEqual(numbers);
    }
  });
});

describe("the site record on paper", () => {
  const record = testDay.sheets.find(({ name }) => name === "Site record");
  const { columns = [], rowDefs, cells, pageSetup } = record?.toLibrary("a4") ?? {};
  const areas = [
    { first: 1, last: 29 },
    { first: 30, last: 59 },
  ] as const;
  /** A4 across, between the margins, in points. */
  const { left = 0, right = 0, top = 0, bottom = 0 } = pageSetup?.margins ?? {};
  const paper = { width: (297 / 25.4 - left - right) * 72, height: (210 / 25.4 - top - bottom) * 72 };
  const heightOf = (row: number) => rowDefs?.get(row - 1)?.height ?? 0;

  it("is two pages across, neither shrunk", () => {
    expect(record?.print).toMatchObject({ orientation: "landscape", areas: ["B1:AB29", "B30:AB59"], pages: 2 });
    // The wider of the readings of a column's width: ten-point digits as drawn, 5.56 points each, not rounded to pixels.
    const width = columns.slice(1).reduce((sum, column) => sum + (column.width ?? 0) * 5.56, 0);
    expect(columns).toHaveLength(28);
    expect(width).toBeLessThanOrEqual(paper.width);
    for (const { first, last } of areas) {
      const rows = Array.from({ length: last - first + 1 }, (_, index) => heightOf(first + index));
      expect(Math.min(...rows)).toBeGreaterThan(0);
      expect(rows.reduce((sum, height) => sum + height, 0)).toBeLessThanOrEqual(paper.height);
    }
  });

  it("has boxes of 18 points and more to write in, and no letter below 8 points", () => {
    let boxes = 0;
    for (const [key, { style, value, formula }] of cells ?? []) {
      const row = Number(key.split(",")[0]) + 1;
      if (style?.border?.left && style.border.bottom) {
        boxes += 1;
        expect(heightOf(row), key).toBeGreaterThanOrEqual(18);
      }
      if (value !== null || formula !== undefined) expect(style?.font?.size, key).toBeGreaterThanOrEqual(8);
      expect(style?.alignment?.shrinkToFit, key).toBeFalsy();
    }
    expect(boxes).toBeGreaterThan(300);
  });

  it("has twenty boxes for the baseline of each run", () => {
    for (const { first } of runs)
      for (let row = 41; row <= 44; row++)
        for (let offset = 1; offset <= 5; offset++)
          expect(cells?.get(`${row - 1},${first + offset}`)?.style?.border?.left).toBeDefined();
  });
});

describe("what the site record knows beforehand", () => {
  it("is the house and the day of the sheet Day, and the openings of the sheet Preparation", () => {
    const test = typed({
      "Day!C6": "Curlew Cottage",
      "Day!G6": 46_400,
      "Preparation!E8": "open",
      "Day!C12": "method 3",
    });
    expect(onRecord(test, "E6")).toBe("Curlew Cottage");
    expect(onRecord(test, "Y30")).toBe("Curlew Cottage");
    expect([onRecord(test, "L6"), onRecord(test, "Z30")]).toEqual([46_400, 46_400]);
    expect(onRecord(test, "P6")).toBe(test.cell("Preparation!B8"));
    expect([onRecord(test, "X6"), onRecord(test, "X7")]).toEqual(["open", "specify"]);
    expect(onRecord(asStored, "X6")).toBe("sealed");
    expect(onRecord(asStored, "B3")).toMatch(/combustion appliances.*doors watched/);
  });

  it("is nothing on the blank form, without an error", () => {
    expect(errorsOf(blank)).toEqual([]);
    const filled = ["E6", "E7", "E9", "L6", "L7", "L10", "L14", "L16", "P6", "X6", "C47", "Q47", "Y30", "Z30"];
    expect(filled.map((place) => onRecord(blank, place))).toEqual(filled.map(() => ""));
    expect(onRecord(blank, "B31")).toBe("All pressures in Pa, indoors minus outdoors. To set: what the gauge shows.");
  });
});
