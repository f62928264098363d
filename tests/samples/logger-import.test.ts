import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { opening } from "../../sample-workbooks/logger-import/scenario";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { cellKey, evaluateBook, openWorkbook, type CellChange, type CellValue } from "../../src/workbook/index";
import { density, mean } from "./by-hand";
import { cellAt, namedCell } from "./look-up";

const { book } = openWorkbook(
  new Uint8Array(readFileSync(new URL("../../sample-workbooks/logger-import.xlsx", import.meta.url))),
);
const addIn = addInRegistry();
const sheetCalled = (name: string) => book.sheets.findIndex((sheet) => sheet.name === name);
const log = sheetCalled("Log");
const stations = namedCell(book, "Stations");
const firstLogRow = 5;

function evaluated(set: CellChange[] = []) {
  const evaluation = evaluateBook(book, { addIn, set });
  const at = (sheet: number, row: number, column: number) => cellAt(book, evaluation, sheet, row, column);
  return {
    at,
    stations: Array.from({ length: 24 }, (_, index) =>
      Array.from({ length: 19 }, (__, column) => at(stations.sheet, stations.top + index, stations.left + column)),
    ).filter(([start]) => typeof start === "number"),
    summary: (label: string): CellValue => {
      const area = namedCell(book, "Summary");
      for (let row = area.top; row <= area.bottom; row++)
        if (at(area.sheet, row, area.left) === label) return at(area.sheet, row, area.left + 1);
      throw new Error(`no line ${label}`);
    },
  };
}

/** A column of the log between two of its rows, counted from 1. */
function logged(column: number, first: number, last: number): number[] {
  const cells = book.sheets[log]!.cells;
  return Array.from({ length: last - first + 1 }, (_, index) =>
    Number(cells.get(cellKey(firstLogRow + first - 1 + index, column))?.value),
  );
}

const typed = (sheet: string, row: number, column: number, value: CellValue): CellChange => ({
  sheet,
  row,
  column,
  value,
});

describe("stations of the log", () => {
  const found = evaluated().stations;

  it("are three covered stretches and eight levels in each direction, in the order of time", () => {
    const roles = found.map((row) => row[16]);
    const eight = (word: string) => Array<string>(8).fill(word);
    expect(roles).toEqual([
      "baseline",
      ...eight("depressurization"),
      "baseline",
      ...eight("pressurization"),
      "baseline",
    ]);
  });

  it("carry the mean and the standard deviation of their own rows, and the flow of the certificate's c·p^m", () => {
    for (const row of found) {
      const [first, last] = [Number(row[14]), Number(row[15])];
      const pressures = logged(2, first, last);
      const centre = mean(pressures);
      expect(row[4]).toBeCloseToRelative(centre);
      expect(row[3]).toBe(pressures.length);
      const deviation = Math.sqrt(pressures.reduce((sum, p) => sum + (p - centre) ** 2, 0) / (pressures.length - 1));
      expect(row[5]).toBeCloseToRelative(deviation);
      const flows = logged(3, first, last).map((p) => opening.coefficient * p ** opening.exponent);
      if (row[12] === "fan running") expect(row[9]).toBeCloseToRelative(mean(flows));
      else expect(row[9]).toBe(0);
    }
  });

  it("have standard errors above that of independent rows, since gusts last", () => {
    const larger = found.filter((row) => Number(row[6]) > Number(row[5]) / Math.sqrt(Number(row[3])));
    expect(larger.length).toBeGreaterThan(15);
  });
});

describe("the test from the stations", () => {
  it("gives n and n50 as the published formulas do, computed by hand from the stations' means", () => {
    const test = evaluated();
    for (const direction of ["depressurization", "pressurization"] as const) {
      const { n, n50 } = byHand(test.stations, direction);
      expect(test.summary(`Flow exponent n, ${direction}`)).toBeCloseToRelative(n);
      expect(test.summary(`Air change rate n50, ${direction}`)).toBeCloseToRelative(n50);
    }
    expect(test.summary("Result against the limit")).toBe("pass");
  });

  it("leaves out a station that is set to no, and uses the rest", () => {
    const out = evaluated([typed("Stations", stations.top + 3, stations.left + 17, "no")]);
    const without = out.stations.filter((_, index) => index !== 3);
    expect(out.summary("Flow exponent n, depressurization")).toBeCloseToRelative(byHand(without, "depressurization").n);
    expect(out.summary("Stations, depressurization")).toBe(8);
  });

  it("fails under a limit below the result, and stays open without a volume", () => {
    const limit = namedCell(book, "Summary");
    expect(evaluated([typed("Overview", limit.bottom - 1, 6, 0.9)]).summary("Result against the limit")).toBe("fail");
    const settings = namedCell(book, "TestSettings");
    const open = evaluated([typed("Overview", settings.top, settings.left + 1, null)]);
    expect(open.summary("Result against the limit")).toMatchObject({ code: "#N/A" });
  });

  it("says so where the log is empty", () => {
    const empty = Array.from({ length: 1500 }, (_, row) => row).flatMap((row) =>
      [1, 2, 3, 4].map((column) => typed("Log", firstLogRow + row, column, null)),
    );
    expect(evaluated(empty).summary("Result against the limit")).toMatchObject({ code: "#N/A" });
  });
});

/** Ordinary line through the logarithms of the stations of one direction; conditions as they stand on the first sheet. */
function byHand(rows: readonly CellValue[][], direction: "depressurization" | "pressurization") {
  const settings = namedCell(book, "TestSettings");
  const given = (label: string) => {
    for (let row = settings.top; row <= settings.bottom; row++)
      if (book.sheets[settings.sheet]?.cells.get(cellKey(row, settings.left))?.value === label)
        return Number(book.sheets[settings.sheet]?.cells.get(cellKey(row, settings.left + 1))?.value);
    throw new Error(`no setting ${label}`);
  };
  const barometer = given("barometric pressure");
  const inside = density(given("indoor temperature"), barometer, given("indoor humidity"));
  const outside = density(given("outdoor temperature"), barometer, given("outdoor humidity"));
  const [atFan, inLeaks] = direction === "depressurization" ? [inside, outside] : [outside, inside];
  const covered = rows.filter((row) => row[16] === "baseline").map((row) => Number(row[4]));
  const around = direction === "depressurization" ? covered.slice(0, 2) : covered.slice(1, 3);
  const points = rows
    .filter((row) => row[16] === direction)
    .map((row) => {
      const flow = Number(row[9]) * Math.sqrt(given("calibration density") / atFan) * (atFan / inLeaks);
      return [Math.log(Math.abs(Number(row[4]) - mean(around))), Math.log(flow)] as const;
    });
  const [x, y] = [mean(points.map(([one]) => one)), mean(points.map(([, one]) => one))];
  const products = points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0);
  const n = products / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  const q50 = Math.exp(y - n * x) * (inLeaks / 1.2041) ** (1 - n) * 50 ** n;
  return { n, n50: q50 / given("volume") };
}
