import { describe, test } from "vitest";
import { convertUnits } from "../../src/core";
import { expectAgreement, relativeDifference } from "./support/compare";
import factors from "./unit-conversions/factors.json";
import points from "./unit-conversions/points.json";

const TWO_ROUNDINGS = "a factor and its use cost a rounding or two of 1.1e-16 each";

describe.each(factors)("$quantity: 1 $from in $to, $because", ({ from, to, factor }) => {
  test("there, by the exact definition", () => {
    expectAgreement(convertUnits(1, from, to), factor, 1e-15, TWO_ROUNDINGS);
    expectAgreement(convertUnits(-12.5, from, to), -12.5 * factor, 1e-15, TWO_ROUNDINGS);
  });

  test("and back", () => {
    expectAgreement(convertUnits(factor, to, from), 1, 1e-15, TWO_ROUNDINGS);
  });
});

const printedFactors = factors.flatMap(({ nist_sp_811, ...row }) =>
  nist_sp_811 ? [{ ...row, printed: nist_sp_811 }] : [],
);

test.each(printedFactors)("NIST SP 811 prints $printed for 1 $from in $to", ({ from, to, printed }) => {
  expectAgreement(convertUnits(1, from, to), printed, 5.1e-7, "seven digits printed: half a unit is at most 5e-7");
});

describe("temperature", () => {
  test.each(points.temperature)("$C °C is $F °F", ({ C, F }) => {
    const because = "the detour by kelvin costs 5.7e-14 of the 300 K; relative to 1 degree at the ice point";
    expectAgreement(convertUnits(C, "°C", "°F"), F, 1e-14, because);
    expectAgreement(convertUnits(F, "°F", "°C"), C, 1e-14, because);
    expectAgreement(convertUnits(C, "°C", "K"), C + 273.15, 1e-15, because);
  });

  test("near the ice point a difference from 32 °F keeps its digits", () => {
    const because = "value less 32 is exact in doubles; by way of 273.15 K ten digits would be lost";
    for (const F of [32.00001, 31.9999, 33])
      expectAgreement(convertUnits(F, "°F", "°C"), (F - 32) / 1.8, 1e-14, because);
  });
});

describe("inch of water, by the temperature of the water", () => {
  test.each(points.inch_of_water_Pa)("$water: $Pa Pa", ({ unit, Pa }) => {
    expectAgreement(convertUnits(1, unit, "Pa"), Pa, 1e-15, "the printed value itself");
  });

  test("the three differ: a name without the temperature would not do", () => {
    const values = points.inch_of_water_Pa.map(({ Pa }) => Pa);
    for (const [index, value] of values.entries()) {
      for (const other of values.slice(index + 1)) {
        if (relativeDifference(value, other) < 1e-5) throw new Error(`${value} and ${other} are the same`);
      }
    }
  });
});
