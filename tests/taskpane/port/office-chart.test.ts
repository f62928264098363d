import { OfficeMockObject } from "office-addin-mock";
import { describe, expect, it } from "vitest";
import { findAxisEnds } from "../../../src/taskpane/port/office-chart";
import { OfficePort } from "../../../src/taskpane/port/office-port";
import type { DrawnGraph } from "../../../src/taskpane/port/port";
import { stubOffice } from "./stub-office";

type Mock = OfficeMockObject & Record<string, unknown>;

interface Stage {
  readonly events: string[];
  /** The sheet's cells by address, as they were last assigned. */
  readonly cells: Map<string, Mock>;
  readonly chart: Mock;
  readonly drawn: Mock[];
  readonly shape: Mock;
  /** Whether charts are among the shapes. */
  listsCharts: boolean;
  /** The call of sync that fails, counted from 1; 0 for none. */
  failsAt: number;
  syncs: number;
}

let stage: Stage;

/** Excel with one new sheet; what was not loaded and synchronised reads as an error text. */
function createExcel(): object {
  const mocked: Mock[] = [];
  const mock = (data: object): Mock => {
    const made = new OfficeMockObject(data) as Mock;
    mocked.push(made);
    return made;
  };
  const format = () => ({ font: {}, line: {} });
  const axis = () => ({
    title: { format: format() },
    majorGridlines: { format: format() },
    minorGridlines: { format: format() },
  });
  const drawn: Mock[] = [];
  const cells = new Map<string, Mock>();
  const range = (address: string): Mock => {
    const known =
      cells.get(address) ?? mock({ address, format: format(), merge: () => stage.events.push(`merge ${address}`) });
    cells.set(address, known);
    return known;
  };
  const chart = mock({
    title: { format: format() },
    format: format(),
    legend: {},
    axes: { categoryAxis: axis(), valueAxis: axis() },
    series: {
      load(this: Mock) {
        this["items"] = [{ delete: () => stage.events.push("delete Excel's own series") }];
      },
      add: (name: string) => {
        const one = mock({ format: format(), dataLabels: { format: format() } });
        const keep = (key: string) => (cells: Mock) => {
          cells.load("address");
          one[key] = cells;
        };
        Object.assign(one, { name, setXAxisValues: keep("x"), setValues: keep("y") });
        drawn.push(one);
        return one;
      },
    },
    setPosition: (from: string, to: string) => stage.events.push(`chart at ${from}:${to}`),
  });
  const shape = mock({ name: "Air leakage graph" });
  const context = mock({
    async sync() {
      stage.syncs += 1;
      if (stage.syncs === stage.failsAt) throw new Error("the host refused");
      await Promise.all(mocked.filter((one) => one !== context).map((one) => one.sync()));
    },
  });
  const sheet = Object.assign(
    mock({
      activate: () => undefined,
      delete: () => stage.events.push("delete the sheet"),
      getRange: range,
      getRangeByIndexes: (...given: number[]) => range(given.join(" ")),
      charts: { add: (type: string) => (stage.events.push(`add ${type}`), chart) },
      shapes: {
        load(this: Mock) {
          shape.load("name");
          this["items"] = stage.listsCharts ? [shape] : [];
        },
      },
    }),
    { context },
  );
  const worksheets = {
    load(this: Mock) {
      this["items"] = [];
    },
    add: (name: string) => (stage.events.push(`add ${name}`), sheet),
    getItem: () => sheet,
  };
  Object.assign(context, { workbook: { worksheets } });
  stage = { events: [], cells, chart, drawn, shape, listsCharts: true, failsAt: 0, syncs: 0 };
  return { run: (...given: unknown[]) => (given.at(-1) as (context: Mock) => Promise<unknown>)(context) };
}

stubOffice(createExcel);

const [petrol, red] = ["#0E4A56", "#8E2A1C"];
const graph: DrawnGraph = {
  title: "Air leakage graph",
  description: "Two readings, a line and a limit.",
  png: new Uint8Array(),
  flowUnit: "m³/h",
  series: [
    {
      name: "depressurization",
      kind: "readings",
      colour: petrol,
      marker: "circle",
      points: [
        [20, 210],
        [61.5, 431.25],
      ],
    },
    {
      name: "depressurization, fitted line",
      kind: "line",
      colour: petrol,
      marker: "circle",
      points: [
        [20, 211],
        [61.5, 430],
      ],
    },
    { name: "depressurization, not used", kind: "unused", colour: petrol, marker: "circle", points: [[35, 500]] },
    {
      name: "limit 288 m³/h (n50 0.6 1/h)",
      kind: "limit",
      colour: red,
      marker: "flag",
      labelled: "Right",
      points: [[50, 288]],
    },
  ],
};

const insert = () => new OfficePort(() => undefined).insertChart(graph);
const seriesNamed = (name: string): Mock => stage.drawn.find((one) => one["name"] === name)!;
const lookOf = ({ format, markerStyle, markerSize }: Record<string, unknown>) => ({
  mark: markerStyle,
  ...(typeof markerSize === "number" && { size: markerSize }),
  line: (format as { line: Record<string, unknown> }).line["lineStyle"],
});

describe("the chart that Excel draws", () => {
  it("has the readings as marks, the fitted line without marks, and the limit with its name", async () => {
    await insert();
    expect(stage.drawn.map((one) => one["name"] as unknown)).toEqual(graph.series.map(({ name }) => name));
    expect(stage.drawn.map((one) => lookOf(one))).toEqual([
      { mark: "Circle", size: 8, line: "None" },
      { mark: "None", line: "Continuous" },
      { mark: "X", size: 8, line: "None" },
      { mark: "Dash", size: 20, line: "None" },
    ]);
    const labels = seriesNamed("limit 288 m³/h (n50 0.6 1/h)")["dataLabels"] as Record<string, unknown>;
    expect([labels["showSeriesName"], labels["showValue"], labels["position"]]).toEqual([true, false, "Right"]);
    expect(seriesNamed("depressurization")["hasDataLabels"]).toBeUndefined();
  });

  it("takes every series from its own rows of the sheet", async () => {
    await insert();
    // Row, column, rows, columns: the points follow one another below the heads.
    expect(stage.drawn.map(({ x, y }) => [x, y].map((cells) => (cells as Mock)["address"] as unknown))).toEqual([
      ["1 1 2 1", "1 2 2 1"],
      ["3 1 2 1", "3 2 2 1"],
      ["5 1 1 1", "5 2 1 1"],
      ["6 1 1 1", "6 2 1 1"],
    ]);
    const values = stage.cells.get("0 0 7 3")?.["values"] as unknown[][];
    expect(values[0]).toEqual(["series", "Δp, Pa", "q, m³/h"]);
    expect(values.slice(1).map(([, ...point]) => point)).toEqual(graph.series.flatMap(({ points }) => points));
    expect(stage.cells.get("1 1 6 2")?.["numberFormat"]).toEqual(Array(6).fill(["0.00", "0.0"]));
  });

  it("has logarithmic axes over a decade, with their quantities and units", async () => {
    await insert();
    const { categoryAxis, valueAxis } = stage.chart["axes"] as Record<string, Record<string, unknown>>;
    const read = (axis: Record<string, unknown> | undefined) => [
      axis?.["scaleType"],
      axis?.["minimum"],
      axis?.["maximum"],
      (axis?.["title"] as { text: string }).text,
    ];
    expect(read(categoryAxis)).toEqual(["Logarithmic", 10, 100, "Induced pressure difference, Pa"]);
    expect(read(valueAxis)).toEqual(["Logarithmic", 100, 1000, "Air flow through the envelope, m³/h"]);
    expect(stage.events).toEqual([
      ...["add Graph", "merge E1:P1", "add XYScatter", "delete Excel's own series", "chart at E2:P30"],
    ]);
  });

  it.each([
    [[210, 430], 100, 1000],
    [[74, 220], 40, 400],
    [[100, 100], 30, 300],
    [[10, 100], 10, 100],
    [[0.02, 0.3], 0.01, 1],
    [[8, 4000], 1, 10_000],
  ])("of %j reaches from %d to %d", (values, minimum, maximum) => {
    const ends = findAxisEnds(values);
    expect(ends.minimum / minimum).toBeCloseTo(1, 12);
    expect(ends.maximum / maximum).toBeCloseTo(1, 12);
  });

  it("keeps whole powers of ten for pressures", () => {
    expect(findAxisEnds([21, 66], [1])).toEqual({ minimum: 10, maximum: 100 });
  });

  it("is described in the sheet, and as alternative text where Excel has charts among its shapes", async () => {
    await insert();
    expect(stage.cells.get("E1")?.["values"]).toEqual([[graph.description]]);
    expect(stage.shape["altTextDescription"]).toBe(graph.description);
  });

  it("is described in the sheet alone where Excel has none", async () => {
    stage.listsCharts = false;
    await expect(insert()).resolves.toBeUndefined();
    expect(stage.shape["altTextDescription"]).toBeUndefined();
    expect(stage.cells.get("E1")?.["values"]).toEqual([[graph.description]]);
  });

  it.each([2, 3])("refused at step %i leaves no half of a sheet", async (step) => {
    stage.failsAt = step;
    await expect(insert()).rejects.toThrow("No sheet was added: the host refused");
    expect(stage.events.at(-1)).toBe("delete the sheet");
    expect(stage.shape["altTextDescription"]).toBeUndefined();
  });

  it.each([4, 5])("stays where only its alternative text is refused, at step %i", async (step) => {
    stage.failsAt = step;
    await expect(insert()).resolves.toBeUndefined();
    expect(stage.events).not.toContain("delete the sheet");
  });
});
