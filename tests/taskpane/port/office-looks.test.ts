import { OfficeMockObject } from "office-addin-mock";
import { describe, expect, it } from "vitest";
import { OfficePort } from "../../../src/taskpane/port/office-port";
import type { Block } from "../../../src/taskpane/port/port";
import { stubOffice } from "./stub-office";

type Mock = OfficeMockObject & Record<string, unknown>;

/** The firm's sheet, and what happened to it. */
interface Sheet {
  /** Ranges by "row column rows columns". */
  readonly ranges: Map<string, Mock>;
  readonly borders: string[];
  readonly columns: Map<number, Mock>;
  readonly drawn: Record<string, unknown>[];
  readonly shape: Mock;
  /** Columns in which the firm has something. */
  taken: readonly number[];
  charts: readonly object[];
  failsAt: number;
  syncs: number;
}

let sheet: Sheet;

function createExcel(): object {
  const mocked: Mock[] = [];
  const mock = (data: object, known: object = {}): Mock => {
    const made = Object.assign(new OfficeMockObject(data as never) as Mock, known);
    mocked.push(made);
    return made;
  };
  const font = () => ({ font: {}, line: {} });
  const axis = () => ({
    title: { format: font() },
    majorGridlines: { format: font() },
    minorGridlines: { format: font() },
  });
  const context = mock({
    async sync() {
      sheet.syncs += 1;
      if (sheet.syncs === sheet.failsAt) throw new Error("the host refused");
      await Promise.all(mocked.filter((one) => one !== context).map((one) => one.sync()));
    },
  });
  const column = (at: number): Mock => {
    const known =
      sheet.columns.get(at) ??
      mock({
        format: { columnWidth: at === 3 ? 300 : 48 },
        getUsedRangeOrNullObject: () => mock({ address: "any" }, { isNullObject: !sheet.taken.includes(at) }),
      });
    sheet.columns.set(at, known);
    return known;
  };
  const range = (row: number, at: number, rows: number, columns: number): Mock => {
    const key = [row, at, rows, columns].join(" ");
    const known =
      sheet.ranges.get(key) ??
      mock({
        // Twenty points a row, fifty a column.
        ...{ left: 50 * at, top: 20 * row, width: 50 * columns, height: 20 * rows },
        formulas: Array.from({ length: rows }, () => Array<string>(columns).fill("")),
        format: {
          protection: { locked: false },
          ...{ font: {}, fill: {} },
          borders: {
            getItem: (side: string) =>
              Object.defineProperty({}, "color", { set: (colour) => sheet.borders.push(`${key}: ${side} ${colour}`) }),
          },
        },
        getEntireColumn: () => column(at),
      });
    Object.assign(known, { key });
    sheet.ranges.set(key, known);
    return known;
  };
  const shape = mock({ name: "Chart 4" });
  const listOf = (items: () => readonly object[]) => ({
    load(this: Mock) {
      this["items"] = items().map((one) => {
        const made = mock(one);
        made.load(Object.keys(one));
        return made;
      });
    },
  });
  const firm = mock(
    {
      protection: { protected: false },
      getRangeByIndexes: range,
      getCell: (row: number, at: number) => range(row, at, 1, 1),
      charts: {
        ...listOf(() => sheet.charts),
        add: () => {
          const series = { load: () => undefined, items: [], add: (name: string) => addSeries(name) };
          const axes = { categoryAxis: axis(), valueAxis: axis() };
          const chart = mock({ name: "Chart 4", title: { format: font() }, format: font(), legend: {}, axes });
          const setPosition = (from: Mock, to: Mock) => sheet.drawn.push({ from: from["key"], to: to["key"] });
          return Object.assign(chart, { series, setPosition });
        },
      },
      shapes: {
        load(this: Mock) {
          shape.load("name");
          // Before the chart is drawn the firm has no shapes.
          this["items"] = sheet.drawn.length > 0 ? [shape] : [];
        },
      },
    },
    { context, isNullObject: false },
  );
  const addSeries = (name: string): object => {
    const one: Record<string, unknown> = { name, format: font(), dataLabels: { format: font() } };
    sheet.drawn.push(one);
    one["setXAxisValues"] = (cells: Mock) => (one["x"] = cells["key"] as unknown);
    one["setValues"] = (cells: Mock) => (one["y"] = cells["key"] as unknown);
    return one;
  };
  Object.assign(context, { workbook: { worksheets: { getItemOrNullObject: () => firm, getItem: () => firm } } });
  sheet = {
    ...{ ranges: new Map(), borders: [], columns: new Map(), drawn: [], shape },
    ...{ taken: [], charts: [], failsAt: 0, syncs: 0 },
  };
  return { run: (...given: unknown[]) => (given.at(-1) as (context: Mock) => Promise<unknown>)(context) };
}

stubOffice(createExcel);

const look = { colour: "#0E4A56", marker: "circle" } as const;
const cellsOf = (row: number, column: number, rows: number) => ({ row, column, rows, columns: 1 });
/** A small block from B3 on: two readings to type, a result, and a chart below. */
const block: Block = {
  sheet: "Notes",
  ...{ row: 2, column: 1 },
  cells: [
    ["Readings", "flow"],
    [null, null],
    [null, "=B4*2"],
  ],
  reach: { rows: 20, columns: 3 },
  looks: {
    areas: [
      { look: "heading", row: 0, column: 0, rows: 1, columns: 2 },
      { look: "input", row: 1, column: 0, rows: 2, columns: 1, format: ["0.0", "General"] },
    ],
    widths: [
      { column: 0, points: 170, shrinks: false },
      { column: 1, points: 90, shrinks: true },
      { column: 2, points: 90, shrinks: true },
    ],
    chart: {
      ...{ title: "Air leakage graph", description: "Readings and a line.", flowUnit: "m³/h" },
      area: { row: 4, column: 0, rows: 10, columns: 3 },
      series: [
        { name: "readings", kind: "readings", ...look, pressures: cellsOf(1, 0, 2), flows: cellsOf(1, 1, 2) },
        { name: "line", kind: "line", ...look, pressures: cellsOf(15, 0, 2), flows: cellsOf(15, 1, 2) },
      ],
    },
  },
};

const write = () => new OfficePort(() => undefined).write(block);
const formatOf = (key: string) => sheet.ranges.get(key)?.["format"] as Record<string, Record<string, unknown>>;
const isWritten = () => JSON.stringify(sheet.ranges.get("2 1 3 2")?.["formulas"]) === JSON.stringify(block.cells);

describe("the looks of a block", () => {
  it("are those of the workbooks, in the block's own cells", async () => {
    await write();
    expect(isWritten()).toBe(true);
    expect(formatOf("2 1 1 2")["font"]).toMatchObject({ bold: true, color: "#0E4A56" });
    const typed = sheet.ranges.get("3 1 2 1")!;
    expect((typed["format"] as { fill: object }).fill).toMatchObject({ color: "#FDF4EB" });
    expect(typed["numberFormat"]).toEqual([["0.0"], ["General"]]);
    // A line between rows only where there are several, which Excel insists on.
    const edge = "#E2B999";
    expect(sheet.borders).toEqual([
      "2 1 1 2: EdgeBottom #0E4A56",
      ...["InsideHorizontal", "EdgeBottom", "EdgeTop", "EdgeLeft", "EdgeRight"].map(
        (side) => `3 1 2 1: ${side} ${edge}`,
      ),
    ]);
  });

  it("widen a column only where the sheet has nothing else in it, and it is narrower", async () => {
    sheet.taken = [2];
    await write();
    const width = (at: number) => (sheet.columns.get(at)?.["format"] as Record<string, unknown>)["columnWidth"];
    expect([1, 2, 3].map(width)).toEqual([170, 48, 300]);
    // In a column that stays narrow words would become too small to read.
    const shrunk = [...sheet.ranges].filter(([, { format }]) => (format as Record<string, unknown>)["shrinkToFit"]);
    expect(shrunk).toEqual([]);
    sheet.taken = [];
    sheet.columns.clear();
    await write();
    expect(width(2)).toBe(90);
    expect(formatOf("2 2 20 1")["shrinkToFit"]).toBe(true);
  });

  it("have a chart over the block's cells, described where Excel has charts among its shapes", async () => {
    await write();
    expect(sheet.drawn.map(({ name, x, y, from, to }) => (name ? [name, x, y] : [from, to]))).toEqual([
      ["readings", "3 1 2 1", "3 2 2 1"],
      ["line", "17 1 2 1", "17 2 2 1"],
      ["6 1 1 1", "15 3 1 1"],
    ]);
    expect(sheet.shape["altTextDescription"]).toBe("Readings and a line.");
  });

  it("cover no chart of the firm's: nothing is written then", async () => {
    sheet.charts = [{ name: "Sales", left: 190, top: 250, width: 100, height: 100 }];
    await expect(write()).rejects.toThrow("The graph would cover “Sales”; nothing was written. Pick another place.");
    expect(isWritten()).toBe(false);
    sheet.charts = [{ name: "Sales", left: 200, top: 250, width: 100, height: 100 }];
    await expect(write()).resolves.toBeUndefined();
    expect(isWritten()).toBe(true);
  });

  it.each([1, 2, 3])("refused at step %i write nothing", async (step) => {
    sheet.failsAt = step;
    await expect(write()).rejects.toThrow("Nothing was written: the host refused");
    expect(sheet.drawn).toEqual([]);
  });

  it.each([4, 5])("refused at step %i leave the cells whole, and it is said", async (step) => {
    sheet.failsAt = step;
    await expect(write()).rejects.toThrow(
      "The cells were written, but not all of their formatting or the graph: the host refused",
    );
    expect(isWritten()).toBe(true);
  });

  it.each([6, 7])("are there even where the chart gets no alternative text, refused at step %i", async (step) => {
    sheet.failsAt = step;
    await expect(write()).resolves.toBeUndefined();
  });
});
