import { describe, expect, test } from "vitest";
import { fitResiduals, flowExponent, leakageCoefficient, leakageFit, testResult } from "../../src/functions";
import { familyNames, pointsCase, testCase } from "./high-precision/cases";
import type { WrittenTest } from "./high-precision/chain";
import { computeTest } from "./high-precision/chain";
import type { Exact } from "./high-precision/decimal";
import { at, exact } from "./high-precision/decimal";
import { diagnoseReadings } from "./high-precision/diagnosis";
import type { Interval } from "./high-precision/leakage";
import { fitLeakage, flowAt, limitsOfC, limitsOfN } from "./high-precision/leakage";
import { Random } from "./high-precision/random";
import { expectAgreement } from "./support/compare";
import { block, column, limitsOf, numberOf, valueOf } from "./support/sheet";

const FIFTY = "the reference has fifty digits and takes each double at the value it holds";
type Table = readonly (readonly unknown[])[];

function expectExact(actual: unknown, expected: Exact, tolerance = 1e-12): void {
  expectAgreement(numberOf(actual), expected.toNumber(), tolerance, FIFTY);
}

function expectRow(table: Table, symbol: string, expected: Exact, tolerance?: number): void {
  expectExact(valueOf(table, symbol), expected, tolerance);
}

// Limits carry the relative error of the scatter, which three readings near a line know to 1e-11 only.
function expectLimits(table: Table, symbol: string, { lower, upper }: Interval, tolerance = 1e-11): void {
  const limits = limitsOf(table, symbol);
  expectExact(limits.lower, lower, tolerance);
  expectExact(limits.upper, upper, tolerance);
}

const families = familyNames.filter((name) => name !== "almost without scatter");

describe.each(families)("LEAKAGEFIT on random readings: %s", (family) => {
  test("every row of the table", () => {
    for (let seed = 1; seed <= (family === "two hundred readings" ? 2 : 12); seed += 1) {
      const random = new Random(9000 + seed);
      const { pressures, flows } = pointsCase(random, family);
      const confidence = random.pick([0.9, 0.95, 0.99]);
      const sign = random.pick([1, -1]);
      const cells = [column(pressures.map((pressure) => sign * pressure)), column(flows)] as const;
      const table = leakageFit(...cells, null, [[confidence]]) as Table;
      const reference = fitLeakage(pressures.map(exact), flows.map(exact), exact(confidence));
      expectRow(table, "C", reference.C);
      expectRow(table, "n", reference.n);
      expectRow(table, "r2", reference.r2);
      expectRow(table, "count", exact(pressures.length));
      expectRow(table, "dof", exact(pressures.length - 2));
      expectRow(table, "t", reference.t);
      expectRow(table, "s_n", reference.standardErrorN, 1e-10);
      expectRow(table, "s_lnC", reference.standardErrorLnC, 1e-10);
      expectRow(table, "q50", flowAt(reference, exact(50)).value);
      expectLimits(table, "C", limitsOfC(reference), 1e-10);
      expectLimits(table, "n", limitsOfN(reference), 1e-10);
      expectLimits(table, "q50", flowAt(reference, exact(50)), 1e-10);
      expectExact(leakageCoefficient(...cells), reference.C);
      expectExact(flowExponent(...cells), reference.n);
    }
  });
});

test("FITRESIDUALS beside readings as a tester writes them, with blank rows between", () => {
  for (let seed = 1; seed <= 15; seed += 1) {
    const { pressures, flows } = pointsCase(new Random(9500 + seed), "as a tester writes it");
    const [blankAt, count] = [seed % pressures.length, pressures.length];
    const spaced = <T>(values: readonly T[]) => [...values.slice(0, blankAt), null, ...values.slice(blankAt)];
    const table = fitResiduals(column(spaced(pressures)), column(spaced(flows))) as Table;
    const expected = diagnoseReadings(pressures.map(exact), flows.map(exact), exact(0.95));
    const largest = Math.max(...expected.map(({ cook }) => cook.toNumber()));
    expect(table).toHaveLength(count + 1);
    expect(at(table, blankAt)).toEqual(["", "", "", "", "", ""]);
    for (const [index, row] of expected.entries()) {
      const cells = at(table, index < blankAt ? index : index + 1);
      expectExact(cells[0], row.fitted);
      const percent = "a residual in % is known to 1e-14 of the flow's 100 %";
      expectAgreement(100 + numberOf(cells[1]), 100 + row.residualPercent.toNumber(), 1e-12, percent);
      expectExact(cells[2], row.leverage);
      expectExact(cells[3], row.cook, Math.max(1e-11, (1e-12 * largest) / row.cook.toNumber()));
      expectExact(cells[4], row.nWithout ?? exact(0));
      expectExact(cells[5], row.q50Without ?? exact(0));
    }
  }
});

function onSheet(written: WrittenTest): Table {
  const settings = block({
    volume: written.volume,
    "envelope area": written.envelopeArea,
    "floor area": written.floorArea,
    "indoor temperature": written.indoorTemperature,
    "outdoor temperature": written.outdoorTemperature,
    "barometric pressure": written.barometer,
    "indoor humidity": written.indoorHumidity,
    "outdoor humidity": written.outdoorHumidity,
    "flow basis": written.basis,
    "calibration density": written.calibrationDensity,
    standard: written.standard,
    confidence: written.confidence,
    "reference pressure": written.referencePressure,
  });
  const [pressures, flows] = [column(written.pressures), column(written.flows)];
  const baselines = [column(written.baselineBefore), column(written.baselineAfter)] as const;
  return testResult(written.direction, pressures, flows, ...baselines, settings) as Table;
}

describe("TESTRESULT on random tests", () => {
  const cases = Array.from({ length: 60 }, (_, index) => {
    const written = testCase(new Random(20000 + index));
    return { written, table: onSheet(written), expected: computeTest(written) };
  });

  test("41 rows, and those that are words", () => {
    for (const { written, table } of cases) {
      expect(table).toHaveLength(41);
      const words = table.filter((row) => ["direction", "basis", "standard"].includes(String(row[1])));
      expect(words.map((row) => row[2])).toEqual([written.direction, written.basis, written.standard]);
    }
  });

  test("readings, baseline and air", () => {
    for (const { written, table, expected } of cases) {
      const magnitudes = expected.induced.map((pressure) => pressure.abs().toNumber());
      const flows = expected.flows.map((flow) => flow.toNumber());
      expectRow(table, "count", exact(written.pressures.length));
      for (const [symbol, pressure] of [
        ["dp01", expected.baseline.before],
        ["dp02", expected.baseline.after],
        ["dp0", expected.baseline.test],
      ] as const) {
        // A mean of signed readings may be any small number: what counts is its error in Pa.
        expect(Math.abs(valueOf(table, symbol) - pressure.toNumber())).toBeLessThan(1e-14);
      }
      expectRow(table, "dp_min", exact(Math.min(...magnitudes)));
      expectRow(table, "dp_max", exact(Math.max(...magnitudes)));
      expectRow(table, "rho_i", expected.indoorDensity);
      expectRow(table, "rho_e", expected.outdoorDensity);
      expectRow(table, "p_bar", exact(written.barometer));
      expectRow(table, "k_q", expected.flowFactor);
      expectRow(table, "q_min", exact(Math.min(...flows)));
      expectRow(table, "q_max", exact(Math.max(...flows)));
      expectRow(table, "rho_leak", expected.leakDensity);
    }
  });

  test("curve with its limits", () => {
    for (const { written, table, expected } of cases) {
      expectRow(table, "dof", exact(written.pressures.length - 2));
      expectRow(table, "t", expected.fit.t);
      expectRow(table, "n", expected.n.value);
      expectRow(table, "C", expected.C.value);
      expectRow(table, "r2", expected.fit.r2);
      expectRow(table, "C_L", expected.referenceCoefficient);
      expectRow(table, "s_n", expected.fit.standardErrorN, 1e-11);
      expectRow(table, "s_lnC", expected.fit.standardErrorLnC, 1e-11);
      expectLimits(table, "n", expected.n);
      expectLimits(table, "C", expected.C);
    }
  });

  test("results", () => {
    for (const { written, table, expected } of cases) {
      const { q50, flowAtReference: q } = expected;
      expectRow(table, "q50", q50.value);
      expectRow(table, "n50", q50.value.dividedBy(written.volume));
      expectRow(table, "qE50", q50.value.dividedBy(written.envelopeArea));
      expectRow(table, "qF50", q50.value.dividedBy(written.floorArea));
      expectRow(table, "p_r", exact(written.referencePressure));
      expectRow(table, "q_pr", q.value);
      expectRow(table, "n_pr", q.value.dividedBy(written.volume));
      expectRow(table, "qE_pr", q.value.dividedBy(written.envelopeArea));
      expectRow(table, "qF_pr", q.value.dividedBy(written.floorArea));
      expectRow(table, "ELA4", expected.areas.effective4);
      expectRow(table, "AL10", expected.areas.iso10);
      expectRow(table, "EqLA10", expected.areas.equivalent10);
    }
  });

  test("limits of the results, whose reference coefficient depends on n", () => {
    for (const { table, expected } of cases) {
      expectLimits(table, "q50", expected.q50);
      expectLimits(table, "q_pr", expected.flowAtReference);
      expectLimits(table, "C_L", expected.referenceLimits);
    }
  });
});
