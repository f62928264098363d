import fc from "fast-check";
import { describe, test } from "vitest";
import {
  airChangeRate,
  airDensity,
  airViscosity,
  barometricPressure,
  convertUnits,
  densityCorrection,
  leakageArea,
  referenceCoefficient,
  specificLeakage,
} from "../../src/functions";
import { expectAgreement } from "./support/compare";
import type { Cell } from "./support/sheet";
import { block, limitsOf, single, valueOf } from "./support/sheet";
import { compute, sheetTests } from "./support/sheet-test";

// The same physics in other units must be the same result. The factors are written out here from their definitions, not taken from the code.

const FIXED = { seed: 20261124, numRuns: 60 };
const TWICE =
  "converted there and back: a few roundings of 1e-16, amplified where a temperature is near 0 °F or a scatter is small";
const foot = 0.3048;
const cfm = (foot ** 3 / 60) * 3600;
const fahrenheit = (celsius: number) => celsius * 1.8 + 32;

interface System {
  readonly name: string;
  /** m³/h in one unit of flow, and so on. */
  readonly flow: number;
  readonly length: number;
  readonly barometer: number;
  readonly density: number;
  readonly leakageArea: number;
  readonly viscosity: number;
  readonly temperature: (celsius: number) => number;
}

const metric = {
  length: 1,
  barometer: 1,
  density: 1,
  leakageArea: 1,
  viscosity: 1,
  temperature: (celsius: number) => celsius,
};
const systems: System[] = [
  { name: "SI L/s", flow: 3.6, ...metric },
  {
    name: "IP",
    flow: cfm,
    length: foot,
    barometer: 3386.389,
    density: 0.45359237 / foot ** 3,
    leakageArea: 2.54 ** 2,
    viscosity: 0.45359237 / foot,
    temperature: fahrenheit,
  },
];

describe.each(systems)("units $name against SI", (system) => {
  const units = system.name;

  test("TESTRESULT: every result, converted", () => {
    fc.assert(
      fc.property(sheetTests, (one) => {
        const of = (name: string) => Number(one.settings[name]);
        const settings: Record<string, Cell> = {
          ...one.settings,
          volume: of("volume") / system.length ** 3,
          "envelope area": of("envelope area") / system.length ** 2,
          "floor area": of("floor area") / system.length ** 2,
          "indoor temperature": system.temperature(of("indoor temperature")),
          "outdoor temperature": system.temperature(of("outdoor temperature")),
          "barometric pressure": of("barometric pressure") / system.barometer,
          units,
        };
        const table = compute({ ...one, flows: one.flows.map((flow) => Number(flow) / system.flow), settings });
        const si = compute(one);
        const perArea = system.flow / system.length ** 2;
        const factors: Record<string, number> = {
          ...Object.fromEntries(["q_min", "q_max", "C", "C_L", "q50", "q_pr"].map((symbol) => [symbol, system.flow])),
          ...Object.fromEntries(["qE50", "qF50", "qE_pr", "qF_pr"].map((symbol) => [symbol, perArea])),
          ...Object.fromEntries(["ELA4", "AL10", "EqLA10"].map((symbol) => [symbol, system.leakageArea])),
          ...Object.fromEntries(["rho_i", "rho_e", "rho_leak"].map((symbol) => [symbol, system.density])),
          ...Object.fromEntries(
            ["n", "r2", "n50", "n_pr", "k_q", "count", "dof", "t", "p_r", "dp_min"].map((symbol) => [symbol, 1]),
          ),
          p_bar: system.barometer,
        };
        for (const [symbol, factor] of Object.entries(factors)) {
          expectAgreement(valueOf(table, symbol) * factor, valueOf(si, symbol), 1e-11, `${symbol}: ${TWICE}`);
        }
        for (const symbol of ["C", "C_L", "q50", "n50", "qE50", "ELA4"]) {
          const [converted, plain] = [limitsOf(table, symbol), limitsOf(si, symbol)];
          expectAgreement(converted.upper * (factors[symbol] ?? NaN), plain.upper, 1e-7, `${symbol}: ${TWICE}`);
          expectAgreement(converted.lower * (factors[symbol] ?? NaN), plain.lower, 1e-7, `${symbol}: ${TWICE}`);
        }
      }),
      FIXED,
    );
  });

  test("air", () => {
    for (const [celsius, pascal, humidity] of [
      [20, 101325, 0.5],
      [-15, 97000, 0.9],
      [33, 84000, 0],
    ] as const) {
      const [T, p] = [[[system.temperature(celsius)]], [[pascal / system.barometer]]];
      const density = single(airDensity(T, p, [[humidity]], units)) * system.density;
      expectAgreement(density, single(airDensity([[celsius]], [[pascal]], [[humidity]])), 1e-14, TWICE);
      expectAgreement(
        single(airViscosity(T, units)) * system.viscosity,
        single(airViscosity([[celsius]])),
        1e-14,
        TWICE,
      );
      const correction = single(
        densityCorrection("pressurization", T, [[system.temperature(21)]], p, null!, null!, units),
      );
      expectAgreement(
        correction,
        single(densityCorrection("pressurization", [[celsius]], [[21]], [[pascal]])),
        1e-14,
        TWICE,
      );
    }
    const altitude = single(barometricPressure([[1000 / system.length]], null!, units)) * system.barometer;
    expectAgreement(altitude, single(barometricPressure([[1000]])), 1e-14, TWICE);
  });

  test("results", () => {
    const [q, V, A] = [500, 412, 730];
    const flow = [[q / system.flow]];
    expectAgreement(single(airChangeRate(flow, [[V / system.length ** 3]], units)), q / V, 1e-14, TWICE);
    const specific =
      single(specificLeakage(flow, [[A / system.length ** 2]], units)) * (system.flow / system.length ** 2);
    expectAgreement(specific, q / A, 1e-14, TWICE);
    for (const definition of ["effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa"]) {
      const area =
        single(leakageArea([[40 / system.flow]], [[0.66]], definition, null!, null!, units)) * system.leakageArea;
      expectAgreement(area, single(leakageArea([[40]], [[0.66]], definition)), 1e-14, TWICE);
    }
    const settings = (own: Record<string, Cell>) => block({ standard: "ASTM E779", ...own });
    const converted = referenceCoefficient(
      [[40]],
      [[0.66]],
      "depressurization",
      [[system.temperature(21)]],
      [[system.temperature(-8)]],
      settings({ "barometric pressure": 98000 / system.barometer, units }),
    );
    const si = referenceCoefficient(
      [[40]],
      [[0.66]],
      "depressurization",
      [[21]],
      [[-8]],
      settings({ "barometric pressure": 98000 }),
    );
    expectAgreement(single(converted), single(si), 1e-14, TWICE);
  });
});

describe("CONVERTUNITS", () => {
  const families = [
    ["m³/h", "m³/s", "L/s", "cfm"],
    ["m³", "L", "ft³"],
    ["m²", "cm²", "ft²", "in²"],
    ["m", "cm", "mm", "ft", "in"],
    ["Pa", "hPa", "kPa", "mbar", "inHg", "mmHg", "psi"],
    ["m/s", "km/h", "mph", "kn"],
    ["kg/m³", "lb/ft³"],
    ["m³/(h·m²)", "L/(s·m²)", "cfm/ft²"],
    ["cm²/m²", "in²/100ft²"],
  ];

  test.each(families)("%s …: there and back, and by way of a third unit", (...names) => {
    for (const from of names) {
      for (const to of names) {
        const there = convertUnits([[123.456]], from, to);
        expectAgreement(single(convertUnits(there, to, from)), 123.456, 1e-15, "two roundings");
        for (const third of names) {
          const detour = single(convertUnits(convertUnits([[123.456]], from, third), third, to));
          expectAgreement(detour, single(there), 1e-15, "four roundings, of 1.1e-16 each");
        }
      }
    }
  });
});
