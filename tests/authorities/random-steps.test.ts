import { describe, expect, test } from "vitest";
import {
  airDensity,
  airViscosity,
  averagedResult,
  barometricPressure,
  baselinePressure,
  densityCorrection,
  directions,
  envelopeVolume,
  fanFlow,
  floorArea,
  inducedPressures,
  leakageArea,
  leakageFlow,
  referenceCoefficient,
  referenceConditions,
} from "../../src/core";
import * as air from "./high-precision/air";
import { planCase } from "./high-precision/cases";
import type { Exact } from "./high-precision/decimal";
import { at, exact } from "./high-precision/decimal";
import { internalVolume, polygonArea, volumeUncertainty } from "./high-precision/envelope";
import * as step from "./high-precision/readings";
import { Random, written } from "./high-precision/random";
import {
  leakageArea as exactArea,
  lnReferenceCoefficient,
  referenceConditions as exactConditions,
} from "./high-precision/results";
import { expectAgreement } from "./support/compare";

const FIFTY = "the reference has fifty digits and takes each double at the value it holds";

function expectExact(actual: number, expected: Exact, tolerance = 1e-13): void {
  expectAgreement(actual, expected.toNumber(), tolerance, FIFTY);
}

function eachSeed(count: number, check: (random: Random) => void): void {
  for (let seed = 1; seed <= count; seed += 1) check(new Random(seed));
}

describe("each step of the method against fifty digits, random inputs", () => {
  test("area of a plan, near the origin and far from it", () => {
    eachSeed(200, (random) => {
      const corners = planCase(random);
      const expected = polygonArea(corners);
      // Far from the origin the corners themselves are sums of doubles; their differences lose nothing that the area keeps.
      expectExact(floorArea(corners.map(([x, y]) => ({ x, y }))), expected, 1e-12);
    });
  });

  test("internal volume and its uncertainty, with deductions", () => {
    eachSeed(100, (random) => {
      const areas = [120, ...random.list(random.whole(1, 8), () => written(random.between(-8, 40), 2))];
      const heights = areas.map(() => written(random.between(2.2, 4), 2));
      const tolerance = random.between(0.001, 0.1);
      const spaces = areas.map((area, index) => ({ area, height: at(heights, index) }));
      const { volume, standardUncertainty } = envelopeVolume(spaces, tolerance);
      expectExact(volume, internalVolume(areas, heights));
      expectExact(standardUncertainty, volumeUncertainty(areas, heights, exact(tolerance).dividedBy(exact(3).sqrt())));
    });
  });

  test("density, viscosity, barometric pressure", () => {
    eachSeed(100, (random) => {
      const temperature = random.between(-30, 45);
      const pressure = random.between(60000, 108000);
      const humidity = random.pick([0, 1, random.unit()]);
      const altitude = random.between(-400, 4900);
      const expected = air.airDensity(exact(temperature), exact(pressure), exact(humidity));
      expectExact(airDensity({ temperature, pressure, humidity }), expected);
      expectExact(airViscosity(temperature), air.airViscosity(exact(temperature)));
      expectExact(barometricPressure(altitude), air.barometricPressure(exact(altitude)));
      expectExact(barometricPressure(altitude, pressure > 85000 ? pressure : 101325), seaLevel(altitude, pressure));
    });
  });

  function seaLevel(altitude: number, pressure: number): Exact {
    return air.barometricPressure(exact(altitude), exact(pressure > 85000 ? pressure : 101325));
  }

  test("baseline and induced pressures", () => {
    eachSeed(100, (random) => {
      const direction = random.pick(directions);
      const sign = direction === "depressurization" ? -1 : 1;
      const set = () => random.list(random.whole(1, 40), () => written(random.between(-3, 3), 1));
      const [before, after] = [set(), set()];
      const readings = random.list(10, () => written(sign * random.between(8, 70), 1));
      const expected = step.baselinePressure(before, after);
      const actual = baselinePressure(before, after);
      // A mean of signed readings may be any small number: what counts is its error in Pa.
      expect(Math.abs(actual.pressure - expected.test.toNumber())).toBeLessThan(1e-15);
      expect(Math.abs(actual.before - expected.before.toNumber())).toBeLessThan(1e-15);
      expect(Math.abs((actual.after ?? NaN) - expected.after.toNumber())).toBeLessThan(1e-15);
      const rows = readings.map((value, index) => ({ value, row: index + 1 }));
      const induced = inducedPressures(rows, actual.pressure, "indoors minus outdoors", direction);
      const exactly = step.inducedPressures(readings, expected.test);
      for (const [index, { value }] of induced.entries()) expectExact(value, at(exactly, index));
    });
  });

  test("flow of a device, its density factor, and the factor to the envelope", () => {
    eachSeed(100, (random) => {
      const direction = random.pick(directions);
      const [pressure, coefficient, exponent] = [
        random.between(10, 500),
        random.between(1, 60),
        random.between(0.4, 0.6),
      ];
      const [indoor, outdoor, calibration] = [random.between(1.1, 1.3), random.between(1.1, 1.5), 1.2041];
      const expected = step.deviceFlow(pressure, coefficient, exponent);
      const actual = fanFlow(pressure, { coefficient, exponent }, { calibration, actual: outdoor });
      expectExact(fanFlow(pressure, { coefficient, exponent }), expected);
      expectExact(actual, expected.times(step.deviceFactor(exact(calibration), exact(outdoor))));
      const factor = step.envelopeFactor(direction, exact(indoor), exact(outdoor));
      expectExact(densityCorrection(direction, { indoor, outdoor }), factor);
    });
  });

  test("reference conditions of both standards", () => {
    eachSeed(100, (random) => {
      const direction = random.pick(directions);
      const standard = random.pick(["ISO 9972", "ASTM E779"] as const);
      const n = random.between(0.5, 1);
      const density = { indoor: random.between(1.05, 1.3), outdoor: random.between(1, 1.5) };
      const temperature = { indoor: random.between(10, 30), outdoor: random.between(-25, 38) };
      const side = direction === "depressurization" ? "outdoor" : "indoor";
      const viscosity = air.airViscosity(exact(temperature[side]));
      const conditions = exactConditions(standard, exact(density[side]), viscosity);
      const expected = lnReferenceCoefficient(exact(1), exact(n), conditions).exp();
      const actual = referenceCoefficient(Math.E, n, referenceConditions(standard, direction, density, temperature));
      expectExact(actual, expected);
    });
  });

  test("flow at a pressure, leakage area, mean of the directions", () => {
    eachSeed(100, (random) => {
      const [C, n, pressure] = [random.magnitude(0.1, 1e5), random.between(0.5, 1), random.pick([4, 10, 50, 75])];
      const dischargeCoefficient = random.pick([1, 0.611, 0.6]);
      const flow = exact(C).times(exact(pressure).pow(exact(n)));
      expectExact(leakageFlow(C, n, pressure), flow);
      const area = exactArea(flow, exact(pressure), exact(dischargeCoefficient)).dividedBy(10000);
      expectExact(leakageArea(C, n, { pressure, dischargeCoefficient }), area);
      const [down, up] = [random.list(3, () => random.between(0.3, 2)), random.list(2, () => random.between(0.3, 2))];
      const mean = step.baselinePressure(down, up).test;
      expectExact(averagedResult({ depressurization: down, pressurization: up }), mean);
    });
  });
});
