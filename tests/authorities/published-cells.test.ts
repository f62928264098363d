import { describe, expect, test } from "vitest";
import {
  airChangeRate,
  airDensity,
  averagedResult,
  leakageArea,
  leakageFit,
  leakageFlow,
  passFail,
} from "../../src/functions";
import examples from "./ashrae-leakage-areas/examples.json";
import recorded from "./cipm-2007/densities.json";
import dm4bem from "./dm4bem/readings.json";
import rounding from "./e29-rounding/vectors.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import { column, limitsOf, numberOf, single, valueOf } from "./support/sheet";
import { compute, type SheetTest } from "./support/sheet-test";
import arithmetic from "./trade-practice/arithmetic.json";
import trap from "./trade-practice/unsigned_readings.json";
import vectors from "./uncertainty-vectors/vectors.json";

// What a person gets in a cell, against the same published figures as the core.

type Table = readonly (readonly unknown[])[];

test("dm4bem A06: LEAKAGEFIT, LEAKAGEFLOW and LEAKAGEAREA", () => {
  const { published } = dm4bem;
  const table = leakageFit(column(dm4bem.pressures_Pa), column(dm4bem.flows_m3_per_h)) as Table;
  const [C, n] = [valueOf(table, "C"), valueOf(table, "n")];
  expectPrinted(n, published.n, 4);
  expectPrinted(C, published.K_m3_per_h_Pa_n, 4);
  expectPrinted(valueOf(table, "r2"), published.r2, 4);
  expectPrinted(valueOf(table, "s_n"), published.standard_error_n, 4);
  expectPrinted(C * valueOf(table, "s_lnC"), published.standard_error_K, 4);
  expectPrinted(single(leakageFlow([[C]], [[n]], [[10]])), published.V10_m3_per_h, 1);
  const area = single(leakageArea([[C]], [[n]], "ISO 9972 10 Pa"));
  expectPrinted(area * Math.sqrt(dm4bem.density_of_the_published_area_kg_per_m3 / 1.2041), published.ELA10_cm2, 1);
});

test.each(vectors.fits)("LEAKAGEFIT of '$name' with its limits", ({ pressures, flows, expected: { ordinary } }) => {
  const table = leakageFit(column(pressures), column(flows)) as Table;
  const t = valueOf(table, "t");
  expectAgreement(valueOf(table, "q50"), ordinary.q50, 1e-12, "15 digits");
  expectAgreement(limitsOf(table, "q50").lower, ordinary.q50 * Math.exp(-t * ordinary.u_lnq50), 1e-12, "15 digits");
  expectAgreement(limitsOf(table, "C").upper, ordinary.C * Math.exp(t * ordinary.u_lnC), 1e-12, "15 digits");
  expectAgreement(limitsOf(table, "n").upper, ordinary.n + t * ordinary.u_n, 1e-12, "15 digits");
});

test("ASHRAE: LEAKAGEAREA of a column of curves in one call", () => {
  const { examples: rows } = examples;
  const C = column(rows.map(({ c_m3_per_s_Pa_n }) => c_m3_per_s_Pa_n * 3600));
  const areas = leakageArea(C, column(rows.map(({ n }) => n)), "effective 4 Pa");
  for (const [index, { recomputed_cm2 }] of rows.entries()) {
    const atSourceDensity = numberOf(areas[index]?.[0]) * Math.sqrt(examples.density_kg_per_m3 / 1.2041);
    expectPrinted(atSourceDensity, recomputed_cm2, recomputed_cm2 === 500 ? 1 : 0);
  }
});

test("CIPM-2007: AIRDENSITY of a column of humidities, within 0.05 %", () => {
  const densities = airDensity([[20]], [[101325]], column(recorded.map(({ humidity }) => humidity)));
  for (const [index, { density_kg_per_m3 }] of recorded.entries()) {
    expectAgreement(numberOf(densities[index]?.[0]), density_kg_per_m3, 5e-4, "an ideal gas, see the source");
  }
});

describe("the trade's own arithmetic (common practice, no source)", () => {
  test.each(arithmetic.mean_of_directions)("$depressurization and $pressurization against $limit", (row) => {
    const mean = averagedResult([[row.depressurization]], [[row.pressurization]]);
    expectPrinted(mean, row.mean, 12);
    expect(passFail([[mean]], [[row.limit]])).toEqual([[row.verdict]]);
  });

  test("300 m³/h over two volumes in one call, and what a limit of 0.6 says to each", () => {
    const volumes = arithmetic.volume_convention.map(({ volume_m3 }) => volume_m3);
    const rates = airChangeRate([[300]], column(volumes));
    for (const [index, { n50 }] of arithmetic.volume_convention.entries()) {
      expectPrinted(numberOf(rates[index]?.[0]), n50, 3);
    }
    expect(passFail(rates, [[0.6]])).toEqual([["pass"], ["fail"]]);
  });

  test("a blank row stays blank, not 0", () => {
    expect(airChangeRate(column([300, null, "", 0]), [[512]]).slice(1)).toEqual([[""], [""], [""]]);
  });
});

describe("unsigned readings", () => {
  const sheet: SheetTest = {
    direction: "depressurization",
    pressures: trap.signed_readings_Pa,
    flows: trap.flows_m3_per_h,
    before: [trap.baseline_Pa],
    after: [trap.baseline_Pa],
    settings: {
      volume: trap.volume_m3,
      "indoor temperature": 20,
      "outdoor temperature": 20,
      "indoor humidity": 0,
      "outdoor humidity": 0,
      "flow basis": "through the envelope",
    },
  };

  test("signed: 0.640, fail", () => {
    const n50 = valueOf(compute(sheet), "n50");
    expectPrinted(n50, trap.true.n50, 3);
    expect(passFail([[n50]], [[trap.limit]])).toEqual([["fail"]]);
  });

  test("unsigned against the signed baseline: an error in the cell, never the passing 0.596", () => {
    const typed = { ...sheet, pressures: trap.signed_readings_Pa.map(Math.abs) };
    expect(() => compute(typed)).toThrow(expect.objectContaining({ code: "#VALUE!" }));
  });

  test("unsigned, and declared as magnitudes: 0.640 again", () => {
    const declared = {
      ...sheet,
      pressures: trap.signed_readings_Pa.map(Math.abs),
      settings: { ...sheet.settings, "pressure sign": "magnitude" },
    };
    expectPrinted(valueOf(compute(declared), "n50"), trap.true.n50, 3);
  });
});

describe("PASSFAIL", () => {
  test.each(rounding.at_the_limit)("$written_as against $target", ({ result, target, plain }) => {
    expect(passFail([[result]], [[target]])).toEqual([[plain]]);
  });

  test.each(rounding.rounding.filter(({ value }) => value > 0))(
    "$value with $decimals decimals",
    ({ value, decimals, e29 }) => {
      expect(passFail([[value]], [[e29]], null!, null, [[String(decimals)]])).toEqual([["pass"]]);
      expect(passFail([[value]], [[e29 - 10 ** -decimals / 2]], null!, null, [[String(decimals)]])).toEqual([["fail"]]);
    },
  );

  test("0.604 against 0.6 depends on the programme's rounding", () => {
    expect(passFail([[0.604]], [[0.6]])).toEqual([["fail"]]);
    expect(passFail([[0.604]], [[0.6]], null!, null, [[1]])).toEqual([["pass"]]);
  });

  test.each(vectors.conformity)("$result ± $U against $target", (row) => {
    const decide = (rule: string) => passFail([[row.result]], [[row.target]], [[row.U]], rule);
    expect(decide("plain")).toEqual([[row.plain]]);
    expect(decide("guarded acceptance")).toEqual([[row.guarded_acceptance]]);
    expect(decide("guarded rejection")).toEqual([[row.guarded_rejection]]);
  });
});
