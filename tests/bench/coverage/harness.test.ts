import { buildSync } from "esbuild";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from "vitest";
import * as cellFunctions from "../../../src/functions";
import { listening } from "../../cli/listening";
import type { CellFunction } from "../shipped";
import { cases, settingsOf } from "./cases";
import { coverageCommand } from "./command";
import type { CellFunctions, Outcome } from "./evaluate";
import { outcomesOf } from "./outcomes";
import { tally } from "./tally";
import { runOnThreads } from "./threads";
import { slow } from "../../time-outs";

const functions: CellFunctions = new Map(
  Object.entries(cellFunctions).map(([name, call]) => [name.toUpperCase(), call as CellFunction]),
);

function indexOf(scenario: string, instruments: string, technique: string): number {
  const index = cases.findIndex(
    (one) => one.scenario.name === scenario && one.instruments.name === instruments && one.technique.name === technique,
  );
  expect(index).toBeGreaterThanOrEqual(0);
  return index;
}

const seed = 1;

describe("a small run", { timeout: slow }, () => {
  const index = indexOf("few", "precise", "ordinary, noise stated");
  const run = (calls: CellFunctions, to = 30) => tally(outcomesOf({ index, seed, from: 0, to }, calls));

  test("finds intervals that cover, and errors as large as stated", () => {
    const { tests, refused, intervals, scatterOnly, significant } = run(functions, 200);
    expect([tests, refused]).toEqual([200, 0]);
    for (const figures of Object.values(intervals)) {
      // Wide: the standard error of 95 % is 1.5 % here.
      expect(figures.covered).toBeGreaterThan(0.88);
      expect(figures.covered + figures.below + figures.above).toBeCloseTo(1, 12);
      expect(figures.errorOverStated).toBeGreaterThan(0.5);
      expect(figures.errorOverStated).toBeLessThan(1.3);
      expect(figures.halfWidth).toBeGreaterThan(0.001);
    }
    expect(scatterOnly.covered).toBeGreaterThan(0.5);
    expect(significant).toBeLessThan(0.12);
  });

  /** The budget with every limit shifted: above the value and far from it. */
  const shifted = (...given: unknown[]): unknown =>
    (functions.get("UNCERTAINTYBUDGET")!(...given) as unknown[][]).map((row) => {
      const away = (column: number) => (typeof row[column] === "number" ? row[column] + 1000 : row[column]);
      if (row[1] === "lower" || row[1] === "upper") return row.with(2, away(2));
      return row.with(8, away(8)).with(9, away(9));
    });

  test("finds no coverage where the intervals are wrong, and on which side the true value lies", () => {
    const { intervals } = run(new Map([...functions, ["UNCERTAINTYBUDGET", shifted]]));
    for (const figures of Object.values(intervals)) {
      expect([figures.covered, figures.below, figures.above]).toEqual([0, 1, 0]);
    }
  });

  test("finds an interval of no width too narrow", () => {
    const narrow = (...given: unknown[]): unknown =>
      (functions.get("UNCERTAINTYBUDGET")!(...given) as unknown[][]).map((row) =>
        row[1] === "n" ? row.with(8, row[2]).with(9, row[2]) : row,
      );
    const { intervals } = run(new Map([...functions, ["UNCERTAINTYBUDGET", narrow]]));
    expect(intervals.n.covered).toBe(0);
    expect(intervals.n50.covered).toBeGreaterThan(0.88);
  });

  test("counts what a function refuses, with its message", () => {
    const refuse = () => {
      throw new Error("no such test");
    };
    const { refused, firstRefusal } = run(new Map([...functions, ["UNCERTAINTYBUDGET", refuse]]));
    expect([refused, firstRefusal]).toEqual([30, "no such test"]);
  });

  test("counts unchanged houses whose change is called significant", () => {
    const always = () => [[0, 0, 0, 0, 0, 0, "significant"]];
    expect(run(new Map([...functions, ["LEAKAGEDIFFERENCE", always]])).significant).toBe(1);
  });
});

test(
  "coverage counts a limit as inside, tails apart, errors and half-widths on the logarithm",
  { timeout: slow },
  () => {
    const interval = (lower: number, upper: number) => ({
      value: 2,
      lower,
      upper,
      degrees: Infinity,
      truth: 2 * Math.E,
    });
    const outcome = (lower: number, upper: number): Outcome => {
      const one = interval(lower, upper);
      return {
        intervals: { mean: one, n50: one, q50: one, n: one, ELA4: one },
        scatterOnly: one,
        isSignificant: false,
      };
    };
    const { intervals, significant } = tally([
      outcome(1, 2 * Math.E),
      outcome(1, 2 * Math.E),
      outcome(1, 3),
      outcome(6, 8),
    ]);
    expect(intervals.q50).toMatchObject({ covered: 0.5, above: 0.25, below: 0.25 });
    expect(intervals.n.halfWidth).toBeCloseTo((1 + (2 * Math.E - 1) / 2) / 2, 12);
    const halfWidths = [Math.log(2 * Math.E), Math.log(2 * Math.E), Math.log(3), Math.log(8 / 6)].map((w) => w / 2);
    const stated = Math.sqrt(halfWidths.reduce((sum, width) => sum + (width / 1.959963984540054) ** 2, 0) / 4);
    expect(intervals.q50.errorOverStated).toBeCloseTo(1 / stated, 10);
    expect(significant).toBe(0);
  },
);

test("the extrapolation allowance is switched off, and the noise stated", () => {
  expect(settingsOf(cases[indexOf("calm", "usual", "ordinary, noise stated")]!)).toEqual([
    ["technique", "ordinary"],
    ["pressure uncertainty", expect.any(Number)],
    ["flow uncertainty", expect.any(Number)],
    ["extrapolation allowance", "none"],
  ]);
});

describe("with a bundle of the functions", { timeout: slow }, () => {
  const folder = mkdtempSync(join(tmpdir(), "coverage-"));
  const bundle = join(folder, "functions.js");
  beforeAll(() =>
    buildSync({ entryPoints: ["src/functions/associate.ts"], bundle: true, outfile: bundle, logLevel: "error" }),
  );
  afterAll(() => rmSync(folder, { recursive: true }));

  test("on one thread or three the outcomes are those of this thread", async () => {
    const indices = [indexOf("flow", "usual", "organic correlation"), indexOf("calm", "usual", "weighted")];
    const run = (threads: number) => runOnThreads({ indices, seed, tests: 70, bundle, threads }, () => undefined);
    const here = indices.map((index) => outcomesOf({ index, seed, from: 0, to: 70 }, functions));
    expect(await run(1)).toEqual(here);
    expect(await run(3)).toEqual(here);
  });

  test("the command prints a table for each set of instruments, or one JSON document", async () => {
    // The command loads the bundle into this world, as the bench does into its own.
    onTestFinished(() => void Reflect.deleteProperty(globalThis, "CustomFunctions"));
    const given = ["--coverage", "--scenario", "flow", "--technique", "organic correlation", "--tests", "10"];
    const [table, json] = [listening(), listening()];
    expect(await coverageCommand(given, bundle, table.output)).toBe(0);
    expect(table.heard().out.match(/^flow, (usual|precise) instruments: .*$/gm)).toHaveLength(2);
    expect(await coverageCommand([...given, "--json"], bundle, json.output)).toBe(0);
    const { rows } = JSON.parse(json.heard().out) as { rows: { instruments: string; tests: number }[] };
    expect(rows.map(({ instruments, tests }) => [instruments, tests])).toEqual([
      ["usual", 10],
      ["precise", 10],
    ]);
  });
});
