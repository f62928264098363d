import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { madeHouses, type Stations } from "../../sample-workbooks/programme-review/scenario";
import { houseColumns, houseRows } from "../../sample-workbooks/programme-review/layout";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { evaluateBook, openWorkbook, type CellChange, type CellValue } from "../../src/workbook/index";
import { density, mean } from "./by-hand";
import { cellAt, namedCell } from "./look-up";
import { placeOf } from "./package";
import { partsOf, sheetParts } from "./parts";
import { slow } from "../time-outs";

const file = new URL("../../sample-workbooks/programme-review.xlsx", import.meta.url);
const { book } = openWorkbook(new Uint8Array(readFileSync(file)));
const addIn = addInRegistry();
const sheet = book.sheets.findIndex(({ name }) => name === "Houses");
const houses = madeHouses();

type Column = keyof typeof houseColumns;

function evaluated(set: CellChange[] = []) {
  const evaluation = evaluateBook(book, { addIn, set });
  const at = (index: number, column: Column): CellValue =>
    cellAt(book, evaluation, sheet, houseRows.first - 1 + index, placeOf(`${houseColumns[column]}1`).column);
  const summary = (label: string): CellValue => {
    const area = namedCell(book, "Summary");
    for (let row = area.top; row <= area.bottom; row++)
      if (cellAt(book, evaluation, area.sheet, row, area.left) === label)
        return cellAt(book, evaluation, area.sheet, row, area.left + 1);
    throw new Error(`no line ${label}`);
  };
  return { at, summary };
}

const whole = evaluated();

/** n50 of one direction by the published formulas, from the readings alone; moist air at 101 325 Pa and 50 %. */
function n50ByHand({ pressures, flows }: Stations, celsius: number, volume: number): number {
  const points = pressures.map((pressure, index) => [Math.log(pressure), Math.log(flows[index] ?? NaN)] as const);
  const [x, y] = [mean(points.map(([one]) => one)), mean(points.map(([, one]) => one))];
  const products = points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0);
  const n = products / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  const coefficient = Math.exp(y - n * x) * (density(celsius, 101_325, 0.5) / 1.2041) ** (1 - n);
  return (coefficient * 50 ** n) / volume;
}

it("the table of houses filters though the sheet is protected, and offers no sorting, which Excel would refuse", () => {
  const houses = sheetParts(partsOf(new Uint8Array(readFileSync(file)))).find(({ name }) => name === "Houses");
  const protection = /<sheetProtection [^>]*>/.exec(houses?.xml ?? "")?.[0];
  expect(protection, "0 is allowed").toContain('autoFilter="0"');
  expect(protection).not.toContain('sort="0"');
});

describe("five hundred reports, recomputed", { timeout: slow }, () => {
  it("give the n50 of the published formulas, house by house", () => {
    expect(houses).toHaveLength(500);
    houses.forEach(({ depressurization, pressurization, indoor, outdoor, volume }, index) => {
      const rates = [n50ByHand(depressurization, outdoor, volume)];
      if (pressurization.flows.length > 0) rates.push(n50ByHand(pressurization, indoor, volume));
      expect(whole.at(index, "n50")).toBeCloseToRelative(mean(rates));
    });
  });

  it("are counted: verdicts and validity add up to the whole", () => {
    expect(whole.summary("Reports")).toBe(500);
    const [valid, notValid] = [Number(whole.summary("Valid")), Number(whole.summary("Not valid"))];
    expect(valid + notValid).toBe(500);
    expect(Number(whole.summary("Pass")) + Number(whole.summary("Fail"))).toBe(valid);
    expect(notValid).toBeGreaterThan(30);
  });
});

describe("the risks of the rule over the round", { timeout: slow }, () => {
  /** Φ by its series about the middle; beyond 8 nothing is left that counts here. */
  const below = (z: number) => {
    if (Math.abs(z) > 8) return z > 0 ? 1 : 0;
    let [term, sum] = [z, 0];
    for (let odd = 3; Math.abs(term) > 1e-17; odd += 2) [sum, term] = [sum + term, (term * z * z) / odd];
    return 0.5 + (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * sum;
  };
  const results = houses.map((_, index) => whole.at(index, "n50")).filter((value) => typeof value === "number");
  const centre = mean(results);
  const spread = Math.sqrt(results.reduce((sum, one) => sum + (one - centre) ** 2, 0) / (results.length - 1));
  const relative = 0.06 / 1.959963984540054;
  const logVariance = Math.log(1 + (spread / centre) ** 2 - relative ** 2);
  const h = (Math.log(0.6 / centre) + logVariance / 2) / Math.sqrt(logVariance);

  /** Share of houses above the limit that pass, by Simpson's rule over the houses; guard as a factor of the relative U. */
  function wrongPass(guard: number): number {
    const [steps, width] = [4000, 8 - h];
    const at = (z: number) => {
      const passes = below(((h - z) * Math.sqrt(logVariance) + guard * 0.06) / relative);
      return (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * passes;
    };
    let sum = at(h) + at(8);
    for (let step = 1; step < steps; step++) sum += (step % 2 === 0 ? 2 : 4) * at(h + (width * step) / steps);
    return (sum * width) / steps / 3;
  }

  const rule = namedCell(book, "AcceptanceRule");
  const risks = (word: string) => {
    const { summary } =
      word === "plain" ? whole : evaluated([{ sheet: "Rules", row: rule.top, column: rule.left, value: word }]);
    return ["Above the limit, and passes", "Within the limit, no pass"].map((label) => Number(summary(label)));
  };

  it.each([
    ["plain", 0],
    ["guarded acceptance", -1],
    ["guarded rejection", 1],
  ])("%s: houses above the limit that pass, and those within it that do not", (word, guard) => {
    const [consumer, producer] = risks(word) as [number, number];
    expect(Math.abs(consumer / wrongPass(guard) - 1)).toBeLessThan(1e-6);
    // All that pass are those within the limit, more those above it, less those within it that do not.
    const passing = below((h * Math.sqrt(logVariance) + guard * 0.06) / Math.hypot(Math.sqrt(logVariance), relative));
    expect(consumer - producer).toBeCloseTo(passing - below(h), 9);
  });
});

describe("what was planted in the reports", { timeout: slow }, () => {
  const where = (holds: (index: number) => boolean) => houses.map((_, index) => index).filter(holds);

  it.each([
    ["one direction only", where((index) => houses[index]?.pressurization.flows.length === 0)],
    ["highest Δp", where((index) => Math.max(...(houses[index]?.depressurization.pressures ?? [])) < 50)],
    ["baseline", where((index) => (houses[index]?.baseline ?? 0) > 5)],
    ["certificate out of date", where((index) => (houses[index]?.certificateUntil ?? 0) < (houses[index]?.day ?? 0))],
  ])("is found and makes the report not valid: %s", (words, planted) => {
    expect(planted.length).toBeGreaterThan(3);
    for (const index of planted) {
      expect(whole.at(index, "notMet")).toContain(words);
      expect(whole.at(index, "verdict")).toBe("not valid");
    }
    const found = where((index) => (whole.at(index, "notMet") as string).includes(words));
    expect(found).toEqual(planted);
  });

  it("flows in another unit give themselves away by their factor", () => {
    const differences = where((index) => Number(whole.at(index, "difference")) > 50).map(
      (index) => 1 + Number(whole.at(index, "difference")) / 100,
    );
    expect(differences.length).toBe(4);
    for (const factor of differences) expect(Math.abs(factor / 1.699 - 1)).toBeLessThan(0.05);
  });
});

describe("the order in which to look", { timeout: slow }, () => {
  it("puts most points first, and each listed house says why", () => {
    const area = namedCell(book, "Summary");
    const evaluation = evaluateBook(book, { addIn });
    const list = Array.from({ length: 36 }, (_, index) =>
      [0, 1, 5].map((column) => cellAt(book, evaluation, area.sheet, 62 + index, area.left + column)),
    );
    const points = list.map(([, score]) => Number(score));
    expect(points).toEqual([...points].sort((a, b) => b - a));
    expect(points[0]).toBeGreaterThanOrEqual(9);
    for (const [house, , why] of list) {
      expect(house).toMatch(/^H-\d{3} /);
      expect(why).not.toBe("");
    }
  });

  it("follows the rules: a tighter limit fails more, a looser one fewer", () => {
    const limit = namedCell(book, "Limit");
    const fails = (value: number) =>
      Number(evaluated([{ sheet: "Rules", row: limit.top, column: limit.left, value }]).summary("Fail"));
    expect(fails(0.5)).toBeGreaterThan(Number(whole.summary("Fail")));
    expect(fails(0.8)).toBeLessThan(Number(whole.summary("Fail")));
  });

  it.each<[string, Column, string]>([
    ["a pressure", "firstPressureDown", "61,9"],
    ["a volume", "volume", "349.9 m³"],
    ["a temperature", "indoor", "20 °C"],
  ])("%s as text puts its report first, as not recomputed, and disturbs no other", (_, column, value) => {
    const [place, index] = [placeOf(`${houseColumns[column]}1`).column, 3];
    const set = [{ sheet: "Houses", row: houseRows.first - 1 + index, column: place, value }];
    const { at, summary } = evaluated(set);
    expect(["n50", "verdict", "validity", "why", "notMet"].map((one) => at(index, one as Column))).toEqual([
      "",
      "",
      "not valid",
      "not recomputed",
      "text where a number is due",
    ]);
    expect(at(index, "score")).toBeGreaterThan(Number(whole.at(index, "score")));
    expect([summary("Reports"), summary("Recomputed")]).toEqual([500, 499]);
    expect(typeof summary("Reports to look at")).toBe("number");
    expect(at(4, "n50")).toBe(whole.at(4, "n50"));
  });

  it("a reported value as text is pointed out", () => {
    const row = { sheet: "Houses", row: houseRows.first + 2, column: placeOf(`${houseColumns.reported}1`).column };
    const { at } = evaluated([{ ...row, value: "0.55 1/h" }]);
    expect(at(3, "why")).toContain("the reported n50 is no number");
    expect(at(3, "n50")).toBe(whole.at(3, "n50"));
  });

  it("a report without readings stays calm and is not counted as recomputed", () => {
    const blank = Array.from({ length: 24 }, (_, index): CellChange => {
      const first = placeOf(`${houseColumns.firstPressureDown}1`).column;
      return { sheet: "Houses", row: houseRows.first - 1, column: first + index, value: null };
    });
    const without = evaluated(blank);
    expect(["n50", "verdict", "why", "notMet"].map((column) => without.at(0, column as Column))).toEqual([
      "",
      "",
      "",
      "",
    ]);
    expect(without.at(0, "validity")).toBe("open");
    expect(without.summary("Recomputed")).toBe(499);
  });
});

describe("testers", { timeout: slow }, () => {
  it("are told apart by their names as they stand, never as a number, a comparison or a pattern", () => {
    const testerColumn = placeOf(`${houseColumns.tester}1`).column;
    const overview = (row: number, column: number, value: CellValue): CellChange => ({
      sheet: "Overview",
      row,
      column,
      value,
    });
    ["2A", "<5", "a*"].forEach((name, index) => {
      const set = [
        overview(13, 6, name),
        { sheet: "Houses", row: houseRows.first - 1 + index, column: testerColumn, value: name },
      ];
      const evaluation = evaluateBook(book, { addIn, set });
      const at = (column: number) => cellAt(book, evaluation, 0, 13, column);
      expect([at(7), at(9)], name).toEqual([1, whole.at(index, "n50")]);
    });
  });
});
