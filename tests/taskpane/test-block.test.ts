import { describe, expect, it } from "vitest";
import {
  airDensity,
  baselinePressure,
  convertUnits,
  type Direction,
  fitLeakage,
  referenceCoefficient,
  referenceDensity,
} from "../../src/core/index";
import * as functions from "../../src/functions/index";
import metadata from "../../src/functions/functions.json";
import { findInTheWay } from "../../src/taskpane/form-parts";
import type { Units } from "../../src/taskpane/entries";
import type { Session } from "../../src/taskpane/session";
import { composeTestBlock, usualTerms } from "../../src/taskpane/test-block";
import {
  type CellValue,
  ErrorValue,
  evaluateBook,
  formatAreaAddress,
  openWorkbook,
  registerFunctions,
} from "../../src/workbook/index";
import { wholeTestSymbols } from "../../src/workbook/table-formats";
import { slow } from "../time-outs";
import { openSession, settingEntries } from "./file-in-memory";

const sheet = "Sheet1";
const [top, left] = [3, 1];
const place = { sheet, row: top, column: left, rows: 1, columns: 1 };

/** An invented house: SI values. Outdoors it has 0 °C: a reading, not a blank. */
const house = { volume: 480, height: 6, indoors: 21, outdoors: 0, wind: 1.5 };
const pressures = [62, 55, 50, 45, 40, 35, 30, 25, 20];
const invented = {
  depressurization: pressures.map((dp, row) => ({
    pressure: -dp - 1.3,
    flow: 30 * dp ** 0.65 * (1 + 0.004 * Math.sin(row)),
    before: -1.2 - 0.1 * (row % 3),
    after: -1.5 + 0.1 * (row % 4),
  })),
  pressurization: pressures.map((dp, row) => ({
    pressure: dp - 0.9,
    flow: 28 * dp ** 0.67 * (1 + 0.004 * Math.cos(row)),
    before: -0.9 + 0.1 * (row % 3),
    after: -0.8 - 0.1 * (row % 2),
  })),
};

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** n50 by ISO 9972, step by step, for flows of the device's calibration at 1.2041 kg/m³. */
function computeN50(direction: Direction): number {
  const readings = invented[direction];
  const zero = baselinePressure(
    readings.map(({ before }) => before),
    readings.map(({ after }) => after),
  ).pressure;
  const densityAt = (temperature: number) => airDensity({ temperature, pressure: 101_325, humidity: 0.5 });
  const [inside, outside] = [densityAt(house.indoors), densityAt(house.outdoors)];
  const [atFan, atLeaks] = direction === "depressurization" ? [inside, outside] : [outside, inside];
  const factor = (Math.sqrt(1.2041 / atFan) * atFan) / atLeaks;
  const points = readings.map(({ pressure, flow }, row) => ({
    pressure: Math.abs(pressure - zero),
    flow: flow * factor,
    row: row + 1,
  }));
  const { coefficient, exponent } = fitLeakage(points, "ordinary");
  const relative = atLeaks / referenceDensity;
  const atReference = referenceCoefficient(coefficient, exponent, { factor: relative, pressureFactor: 1 / relative });
  return (atReference * 50 ** exponent) / house.volume;
}

const type = (session: Session, row: number, column: number, cells: (number | string | null)[][]): Promise<void> =>
  session.port.write({
    sheet,
    row: top + row,
    column: left + column,
    cells,
    reach: { rows: cells.length, columns: 1 },
    replaces: true,
  });

async function writeBlock(units: Units, hasGraph = false): Promise<Session> {
  const session = openSession();
  const { cells, reach } = composeTestBlock(units, place, usualTerms, hasGraph);
  await session.port.write({ sheet, row: top, column: left, cells, reach });
  return session;
}

async function fillHouse(session: Session, units: Units, limit: number): Promise<void> {
  const inUnits = (value: number, si: string, ip: string): number =>
    units === "SI" ? value : convertUnits(value, si, ip);
  await type(session, 4, 1, [
    [inUnits(house.volume, "m³", "ft³")],
    [inUnits(house.height, "m", "ft")],
    [inUnits(house.indoors, "°C", "°F")],
    [inUnits(house.outdoors, "°C", "°F")],
    [null],
    [inUnits(house.wind, "m/s", "mph")],
    ["near the ground"],
    [1],
    [46_356],
    [46_500],
    [46_400],
  ]);
  for (const [direction, row] of [
    ["depressurization", 4],
    ["pressurization", 18],
  ] as const)
    await type(
      session,
      row,
      4,
      invented[direction].map(({ pressure, flow, before, after }) => [
        pressure,
        inUnits(flow, "m³/h", "cfm"),
        before,
        after,
      ]),
    );
  await type(session, 26, 1, [[limit]]);
}

/** Every cell of the workbook that has a value, evaluated with blank cells as Excel passes them in one version or another. */
async function evaluate(session: Session, blankAsZero: boolean): Promise<Map<string, CellValue>> {
  const content = await session.port.read();
  if (!("bytes" in content)) throw new Error("the port over a file gives bytes");
  const { book } = openWorkbook(content.bytes);
  const addIn = registerFunctions(functions, metadata);
  const { cells } = evaluateBook(book, { addIn, now: new Date(2026, 10, 30), blankAsZero });
  const values = new Map(
    [...book.sheets[0]!.cells.values()].map(({ row, column, value }) => [`${row} ${column}`, value]),
  );
  for (const { row, column, outcome } of cells)
    values.set(`${row} ${column}`, outcome.evaluated ? outcome.value : null);
  return values;
}

const at = (values: ReadonlyMap<string, CellValue>, row: number, column: number): CellValue | undefined =>
  values.get(`${top + row} ${left + column}`);

describe("the test block over an empty workbook", { timeout: slow }, () => {
  it.each([false, true])("is calm while nothing is typed, blank cells passed as zero: %s", async (blankAsZero) => {
    const values = await evaluate(await writeBlock("SI"), blankAsZero);
    expect([...values.values()].filter((value) => value instanceof ErrorValue)).toEqual([]);
    expect([22, 23, 24, 25].map((row) => at(values, row, 1))).toEqual(["", "", "", ""]);
    expect(at(values, 28, 1)).toBe("not tested yet");
  });

  it.each(["SI", "IP"] as const)(
    "gives the n50 of each direction, the mean and the verdict of a house in %s",
    async (units) => {
      const session = await writeBlock(units);
      await fillHouse(session, units, 0.9);
      const values = await evaluate(session, false);
      const expected = [computeN50("depressurization"), computeN50("pressurization")];
      const found = [22, 23, 24].map((row) => at(values, row, 1) as number);
      [...expected, mean(expected)].forEach((value, index) => expect(found[index]! / value).toBeCloseTo(1, 9));
      expect(at(values, 25, 1) as number).toBeGreaterThan(0.01);
      expect(mean(expected)).toBeLessThan(0.9);
      expect(at(values, 28, 1)).toBe("pass");
      await type(session, 26, 1, [[0.6]]);
      expect(mean(expected)).toBeGreaterThan(0.6);
      expect(at(await evaluate(session, false), 28, 1)).toBe("fail");
    },
  );

  it("gives the same where blank cells are passed as zero, rows left blank among them", async () => {
    const session = await writeBlock("SI");
    await fillHouse(session, "SI", 0.9);
    expect(Object.fromEntries(await evaluate(session, true))).toEqual(
      Object.fromEntries(await evaluate(session, false)),
    );
  });

  it("says in the cell of a result what its table lacks, and of the verdict what is still open", async () => {
    const session = await writeBlock("SI");
    await fillHouse(session, "SI", 0.9);
    await session.port.write({
      ...place,
      row: top + 26,
      column: left + 1,
      cells: [[""]],
      reach: place,
      replaces: true,
    });
    expect(at(await evaluate(session, false), 28, 1)).toBe("no limit given");
    await type(session, 15, 1, [["as shown"]]);
    expect(at(await evaluate(session, false), 22, 1)).toBeInstanceOf(ErrorValue);
  });

  it("fills nothing beyond the reach that was shown, and every table fits its part", async () => {
    const session = await writeBlock("SI");
    await fillHouse(session, "SI", 0.9);
    const values = await evaluate(session, false);
    const { reach, parts } = composeTestBlock("SI", place);
    for (const [key, value] of values) {
      const [row = 0, column = 0] = key.split(" ").map(Number);
      const isInside = row >= top && row < top + reach.rows && column >= left && column < left + reach.columns;
      if (value !== null) expect(isInside, key).toBe(true);
    }
    // The last row of each table names the method; the row below it is free.
    for (const [row, column] of [
      [42, 9],
      [89, 9],
      [36, 17],
      [83, 17],
    ] as const) {
      expect(at(values, row, column + 1)).toBe("method");
      expect(at(values, row + 1, column)).toBeUndefined();
    }
    expect(at(values, 94, 27)).toBeTypeOf("string");
    expect(at(values, 95, 27)).toBeUndefined();
    expect(parts.map(({ area }) => area)).toEqual([
      "B8:C22",
      "F8:I17",
      "F22:I31",
      "K5:Q46",
      "K52:Q93",
      "S5:AA40",
      "S52:AA87",
      "AC5:AM98",
      "C30:C31",
      "B26:D32",
    ]);
  });

  it("names the first cell in the way, also where only a table would reach", async () => {
    const { cells, reach } = composeTestBlock("SI", place);
    const session = openSession();
    const tools = { session, say: () => undefined };
    expect(await findInTheWay(tools, place, reach)).toBeUndefined();
    await type(session, 90, 30, [["mine"]]);
    expect(await findInTheWay(tools, place, reach)).toBe("Sheet1!AF94");
    await type(session, 4, 0, [["mine"]]);
    await expect(session.port.write({ sheet, row: top, column: left, cells, reach })).rejects.toThrow("Sheet1!B8");
  });

  it("has only labels that the settings know, and no cell outside its rectangle", () => {
    const { cells, reach } = composeTestBlock("IP", { row: 0, column: 0 });
    const labels = new Set(settingEntries.map(({ label }) => label));
    const written = cells.slice(3, 20).map(([label]) => label);
    expect(written.filter((label) => !labels.has(String(label)))).toEqual([]);
    expect(cells.length).toBeLessThanOrEqual(reach.rows);
    expect(new Set(cells.map((row) => row.length))).toEqual(new Set([28]));
  });

  it("has looks only for its own cells, and input looks for exactly what a person types", () => {
    const { cells, reach, looks, parts } = composeTestBlock("SI", place, usualTerms, true);
    for (const { row, column, rows, columns, look } of looks.areas) {
      const isInside = row + rows <= reach.rows && column + columns <= reach.columns;
      expect(isInside, `${look} at ${row}, ${column}`).toBe(true);
    }
    const inputs = looks.areas.filter(({ look }) => look === "input");
    const name = ({ row, column, rows, columns }: (typeof inputs)[number]) =>
      formatAreaAddress({
        ...{ top: top + row, left: left + column },
        ...{ bottom: top + row + rows - 1, right: left + column + columns - 1 },
      });
    const typed = parts.filter(({ filledBy }) => filledBy === "you").map(({ area }) => area);
    // The labels of the settings are part of what the functions take, but not typed.
    expect(inputs.map(name).sort()).toEqual(typed.map((area) => (area === "B8:C22" ? "C8:C22" : area)).sort());
    // Formats go with the symbols of the rows, which are the method's to name.
    expect(looks.widths.map(({ column }) => column)).toEqual(Array.from({ length: reach.columns }, (_, at) => at));
    expect(cells.length).toBeLessThanOrEqual(reach.rows);
  });

  it("formats each row of a result by its own symbol", async () => {
    const session = await writeBlock("SI");
    await fillHouse(session, "SI", 0.9);
    const values = await evaluate(session, false);
    const symbols = wholeTestSymbols.map((_, index) => at(values, 2 + index, 10));
    expect(symbols).toEqual(wholeTestSymbols);
  });
});

describe("the graph of the test block", { timeout: slow }, () => {
  const { looks } = composeTestBlock("SI", place, usualTerms, true);
  const { series } = looks.chart!;
  const readSeries = (values: ReadonlyMap<string, CellValue>, name: string) => {
    const { pressures, flows } = series.find((one) => one.name === name)!;
    return Array.from({ length: pressures.rows }, (_, row) => [
      at(values, pressures.row + row, pressures.column),
      at(values, flows.row + row, flows.column),
    ]);
  };
  const isPoint = (point: readonly unknown[]): boolean => point.every((value) => typeof value === "number");

  it.each(["SI", "IP"] as const)("follows readings, lines and limit in %s", async (units) => {
    const session = await writeBlock(units, true);
    await fillHouse(session, units, 0.9);
    const values = await evaluate(session, false);
    for (const direction of ["depressurization", "pressurization"] as const) {
      const points = readSeries(values, direction).filter(isPoint) as number[][];
      expect(points).toHaveLength(invented[direction].length);
      const ends = readSeries(values, `${direction}, fitted line`) as number[][];
      const inOrder = points.map(([pressure]) => pressure!).sort((one, other) => one - other);
      expect(ends.map(([pressure]) => pressure)).toEqual([
        expect.closeTo(inOrder[0]!, 9) as number,
        expect.closeTo(inOrder.at(-1)!, 9) as number,
      ]);
      // The line is the least-squares line of these very points.
      const fitted = fitLeakage(
        points.map(([pressure = 0, flow = 0], row) => ({ pressure, flow, row: row + 1 })),
        "ordinary",
      );
      for (const [pressure = 0, flow = 0] of ends)
        expect(flow / (fitted.coefficient * pressure ** fitted.exponent)).toBeCloseTo(1, 9);
    }
    const [[pressure, flow] = []] = readSeries(values, "limit of n50");
    expect(pressure).toBe(50);
    const volume = units === "SI" ? house.volume : convertUnits(house.volume, "m³", "ft³") / 60;
    expect((flow as number) / (0.9 * volume)).toBeCloseTo(1, 9);
  });

  it.each([false, true])(
    "draws nothing while nothing is typed, blank cells passed as zero: %s",
    async (blankAsZero) => {
      const values = await evaluate(await writeBlock("SI", true), blankAsZero);
      for (const { name } of series) expect(readSeries(values, name).filter(isPoint), name).toEqual([]);
      // #N/A is only where the chart reads it.
      const drawn = series.flatMap(({ pressures, flows }) => [pressures, flows]);
      for (const [key, value] of values) {
        if (!(value instanceof ErrorValue)) continue;
        const [row = 0, column = 0] = key.split(" ").map(Number);
        const isDrawn = drawn.some(
          (area) => column - left === area.column && row - top >= area.row && row - top < area.row + area.rows,
        );
        expect([value.code, isDrawn], key).toEqual(["#N/A", true]);
      }
    },
  );

  it("lies where the block has no other cells", () => {
    const { cells } = composeTestBlock("SI", place, usualTerms, true);
    const { row, column, rows, columns } = looks.chart!.area;
    const below = cells.slice(row, row + rows).map((inRow) => inRow.slice(column, column + columns));
    expect(below.flat().filter((entry) => entry !== null)).toEqual([]);
  });
});
