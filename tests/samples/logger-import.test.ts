import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { opening } from "../../sample-workbooks/logger-import/scenario";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { buildCellKey, evaluateBook, openWorkbook, type CellChange, type CellValue } from "../../src/workbook/index";
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
    Number(cells.get(buildCellKey(firstLogRow + first - 1 + index, column))?.value),
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

  it("gives no result by an assumed barometer or density, or over a station left out without a reason", () => {
    const settings = namedCell(book, "TestSettings");
    const verdict = (...set: CellChange[]) => evaluated(set).summary("Result against the limit");
    for (const row of [4, 7])
      expect(verdict(typed("Overview", settings.top + row, settings.left + 1, null))).toMatchObject({ code: "#N/A" });
    const out = typed("Stations", stations.top + 3, stations.left + 17, "no");
    expect(verdict(out)).toMatchObject({ code: "#N/A" });
    expect(verdict(out, typed("Stations", stations.top + 3, stations.left + 18, "a door was opened"))).toBe("pass");
  });

  it("says so where the log is empty", () => {
    const empty = Array.from({ length: 1500 }, (_, row) => row).flatMap((row) =>
      [1, 2, 3, 4].map((column) => typed("Log", firstLogRow + row, column, null)),
    );
    const blank = evaluated(empty);
    expect(blank.summary("Result against the limit")).toBe("open");
    expect(blank.summary("Air change rate n50, mean")).toBe("not tested yet");
  });

  it("shows the error where the log holds no station", () => {
    const kept = 30;
    const short = Array.from({ length: 1500 - kept }, (_, row) => row + kept).flatMap((row) =>
      [1, 2, 3, 4].map((column) => typed("Log", firstLogRow + row, column, null)),
    );
    const half = evaluated(short);
    expect(half.summary("Air change rate n50, mean")).toMatchObject({ code: "#N/A" });
    expect(half.summary("Result against the limit")).toMatchObject({ code: "#N/A" });
  });
});

describe("the uncertainty of the result", () => {
  const sheet = sheetCalled("Uncertainty");
  type Table = readonly (readonly CellValue[])[];
  /** A budget's rows: its title stands above it in column G. */
  function budget({ at }: ReturnType<typeof evaluated>, title: string): Table {
    const top = Array.from({ length: 200 }, (_, row) => row).find((row) => at(sheet, row, 6) === title);
    if (top === undefined) throw new Error(`no table ${title}`);
    return Array.from({ length: 83 }, (_, row) =>
      Array.from({ length: 11 }, (__, column) => at(sheet, top + 1 + row, 6 + column)),
    );
  }
  const rowOf = (table: Table, symbol: string) => table.find((row) => row[1] === symbol) ?? [];
  const titles = ["Budget of depressurization", "Budget of the mean of both directions"] as const;

  /** u and ν of the mean of two means, from the stations that they are made of (JCGM 100, G.4.1). */
  function baselineByHand(sets: readonly (readonly CellValue[][])[]) {
    const parts = sets.flatMap((rows) =>
      rows.map((row) => ({ u: Number(row[6]) / rows.length / sets.length, freedom: Number(row[7]) })),
    );
    const variance = parts.reduce((sum, { u }) => sum + u * u, 0);
    return {
      u: Math.sqrt(variance),
      freedom: variance ** 2 / parts.reduce((sum, { u, freedom }) => sum + u ** 4 / freedom, 0),
    };
  }

  it("takes the baselines as well known as their stations say", () => {
    const test = evaluated();
    const covered = test.stations.filter((row) => row[16] === "baseline");
    const { u, freedom } = baselineByHand([[covered[0]!], [covered[1]!]]);
    const [before, after] = ["B1_d", "B2_d"].map((symbol) => rowOf(budget(test, titles[0]), symbol)) as [
      Table[0],
      Table[0],
    ];
    expect(Math.hypot(Number(before[2]), Number(after[2])) / 2).toBeCloseToRelative(u);
    const quarters = [before, after].map((row) => (Number(row[2]) / 2) ** 4 / Number(row[7]));
    expect(u ** 4 / (quarters[0]! + quarters[1]!)).toBeCloseToRelative(freedom);
    expect(before[10]).toContain("as given");
  });

  it("combines the rows, and shows U beside the mean", () => {
    const test = evaluated();
    const [down, mean] = titles.map((title) => budget(test, title)) as [Table, Table];
    const variance = (table: Table) => table.slice(0, 46).reduce((sum, row) => sum + Number(row[5]) ** 2, 0);
    for (const table of [down, mean]) expect(rowOf(table, "u_rel")[2]).toBeCloseToRelative(Math.sqrt(variance(table)));
    const expanded = Number(rowOf(mean, "t")[2]) * Number(rowOf(mean, "u_c")[2]);
    expect(test.summary("Expanded uncertainty U, 95 %")).toBeCloseToRelative(expanded);
    expect(rowOf(mean, "quantity")[2]).toBe("n50");
    expect(rowOf(mean, "quantity").length).toBe(11);
    expect(rowOf(mean, "w_missing")[2]).not.toBe("warning");
  });

  it("is that of the air change rate or none: without a volume it is not that of a flow", () => {
    const settings = namedCell(book, "TestSettings");
    const test = evaluated([typed("Overview", settings.top, settings.left + 1, null)]);
    expect(test.summary("Expanded uncertainty U, 95 %")).toMatchObject({ code: "#N/A" });
  });

  it("weighs two covered stretches before a direction as the mean of both", () => {
    const shifted = Array.from({ length: 30 }, (_, row) =>
      typed("Log", firstLogRow + row, 2, logged(2, row + 1, row + 1)[0]! + 6),
    );
    const test = evaluated(shifted);
    const [one, two, , ...rest] = test.stations.filter((row) => row[16] === "baseline");
    expect(Number(one?.[4]) - Number(two?.[4])).toBeGreaterThan(5);
    expect(rest.length).toBe(1);
    const covered = test.stations.filter((row) => row[16] === "baseline");
    const [before, after] = [covered.slice(0, 2), covered.slice(2, 3)].map((set) => baselineByHand([set]));
    expect(test.at(sheet, 17, 2)).toBeCloseToRelative(before!.u);
    expect(test.at(sheet, 18, 2)).toBeCloseToRelative(before!.freedom);
    const table = budget(test, titles[0]);
    expect(rowOf(table, "B1_d")[2]).toBeCloseToRelative(before!.u);
    expect(rowOf(table, "B2_d")[2]).toBeCloseToRelative(after!.u);
  });
});

/** Ordinary line through the logarithms of the stations of one direction; conditions as they stand on the first sheet. */
function byHand(rows: readonly CellValue[][], direction: "depressurization" | "pressurization") {
  const settings = namedCell(book, "TestSettings");
  const given = (label: string) => {
    for (let row = settings.top; row <= settings.bottom; row++)
      if (book.sheets[settings.sheet]?.cells.get(buildCellKey(row, settings.left))?.value === label)
        return Number(book.sheets[settings.sheet]?.cells.get(buildCellKey(row, settings.left + 1))?.value);
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
