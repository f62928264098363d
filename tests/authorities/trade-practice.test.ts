import { describe, expect, test } from "vitest";
import {
  airChangeRate,
  averagedResult,
  leakageArea,
  leakageAreaDefinitions,
  leakageAreaTerms,
  leakageFlow,
  MethodError,
  testResult,
  verdict,
} from "../../src/core";
import { expectPrinted } from "./support/compare";
import { ordinaryFit, readings } from "./support/leakage";
import { depressurization, plainTerms } from "./support/tests";
import arithmetic from "./trade-practice/arithmetic.json";
import trap from "./trade-practice/unsigned_readings.json";

describe("mean of both directions (common practice, no source)", () => {
  test.each(arithmetic.mean_of_directions)(
    "$depressurization and $pressurization average to $mean: $verdict at $limit",
    ({ depressurization: down, pressurization: up, mean, limit, verdict: expected }) => {
      const average = averagedResult({ depressurization: [down], pressurization: [up] });
      expectPrinted(average, mean, 12);
      expect(verdict(average, limit, { rule: "plain" })).toBe(expected);
    },
  );

  test("the tie of 0.56 and 0.64 is above 0.6 in binary numbers, which is why a plain comparison would fail it", () => {
    expect((0.56 + 0.64) / 2 > 0.6).toBe(true);
  });
});

describe("the volume belongs to the criterion (common practice, no source)", () => {
  test.each(arithmetic.volume_convention)(
    "$q50_m3_per_h m³/h over $volume_m3 m³",
    ({ q50_m3_per_h, volume_m3, n50 }) => {
      expectPrinted(airChangeRate(q50_m3_per_h, volume_m3), n50, 3);
    },
  );
});

test("0.25 cfm/ft² at 75 Pa is 0.192 at 50 Pa with n = 0.65 (arithmetic on a limit of the US Army Corps)", () => {
  const { limit_cfm_per_ft2, at_Pa, n, equivalent_at_50_Pa } = arithmetic.limit_at_another_pressure;
  expectPrinted(leakageFlow(limit_cfm_per_ft2 / at_Pa ** n, n, 50), equivalent_at_50_Pa, 3);
});

describe("one leak, three leakage areas (common practice, no source)", () => {
  const { q50_m3_per_h, n, ...printed } = arithmetic.leakage_areas;
  const byDefinition = {
    "effective 4 Pa": printed.effective_4_Pa_cm2,
    "ISO 9972 10 Pa": printed.iso_10_Pa_cm2,
    "equivalent 10 Pa": printed.equivalent_10_Pa_cm2,
  };

  test.each(leakageAreaDefinitions)("%s", (definition) => {
    const area = 1e4 * leakageArea(q50_m3_per_h / 50 ** n, n, leakageAreaTerms[definition]);
    expectPrinted(area, byDefinition[definition], 0);
  });
});

describe("depressurization readings typed without their sign (worked here from invented readings)", () => {
  const { volume_m3, baseline_Pa, signed_readings_Pa, flows_m3_per_h } = trap;
  const unsigned = signed_readings_Pa.map(Math.abs);
  const n50 = (result: ReturnType<typeof depressurization>) => result.at50.airChangeRate?.value ?? NaN;

  test("signed, they give the true 0.640, which fails 0.6", () => {
    const result = depressurization(signed_readings_Pa, flows_m3_per_h, [baseline_Pa], volume_m3);
    expectPrinted(n50(result), trap.true.n50, 3);
    expect(verdict(n50(result), trap.limit, { rule: "plain" })).toBe("fail");
    expectPrinted(result.exponent.value, trap.n_of_the_house, 3);
  });

  test("less the signed baseline they would give a passing 0.596 with r² 0.9985: the trap is real", () => {
    const wrong = unsigned.map((reading) => reading - baseline_Pa);
    const fit = ordinaryFit(wrong, flows_m3_per_h);
    const wrongN50 = airChangeRate(leakageFlow(fit.coefficient, fit.exponent, 50), volume_m3);
    expectPrinted(wrongN50, trap.unsigned.n50, 3);
    expectPrinted(fit.determination, trap.unsigned.r2, 4);
    expect(verdict(wrongN50, trap.limit, { rule: "plain" })).toBe("pass");
  });

  test("the core refuses them, naming the row", () => {
    const typed = () => depressurization(unsigned, flows_m3_per_h, [baseline_Pa], volume_m3);
    expect(typed).toThrow(MethodError);
    expect(typed).toThrow(expect.objectContaining({ kind: "invalid", term: "pressures", place: { row: 1 } }));
  });

  test("declared as magnitudes they give the true 0.640 again", () => {
    const result = depressurization(unsigned, flows_m3_per_h, [baseline_Pa], volume_m3, { pressureSign: "magnitude" });
    expectPrinted(n50(result), trap.true.n50, 3);
  });

  test("a gauge connected the other way, outdoors minus indoors, gives it too", () => {
    const turned = { pressureSign: "outdoors minus indoors" as const };
    const result = depressurization(unsigned, flows_m3_per_h, [-baseline_Pa], volume_m3, turned);
    expectPrinted(n50(result), trap.true.n50, 3);
  });
});

test("at −10 °C an omitted device correction is +5.5 %, a double one −5 % (recomputed; pressurization)", () => {
  const { indoor_C, outdoor_C, omitted_percent, double_percent } = arithmetic.device_correction;
  const air = {
    temperature: { indoor: indoor_C, outdoor: outdoor_C },
    humidity: { indoor: 0, outdoor: 0 },
    barometricPressure: 101325,
  };
  const pressures = [60, 50, 40, 30, 20];
  const flows = pressures.map((pressure) => 20 * pressure ** 0.65);
  const q50 = (basis: "actual at the fan" | "indicated at calibration density", scale: number) =>
    testResult(
      {
        direction: "pressurization",
        readings: readings(
          pressures,
          flows.map((flow) => flow * scale),
        ),
        baselineBefore: [0],
      },
      air,
      { ...plainTerms, flowBasis: basis },
      {},
    ).at50.flow.value;
  const right = q50("indicated at calibration density", 1);
  expectPrinted(100 * (q50("actual at the fan", 1) / right - 1), omitted_percent, 1);
  // Corrected once by the instrument and once more by the sheet: the flow is already actual, but declared as indicated.
  const correction = right / q50("actual at the fan", 1);
  expectPrinted(100 * (q50("indicated at calibration density", correction) / right - 1), double_percent, 0);
});
