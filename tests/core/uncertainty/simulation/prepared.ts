import { prepare, type Direction, type Output, type PreparedTest } from "../../../../src/core";

/** An invented test of seven readings through two openings. */
function made(direction: Direction, isExact = false): PreparedTest {
  const side = direction === "pressurization" ? 1 : -1;
  const scatter = [0.004, -0.011, 0.006, 0.009, -0.003, -0.014, 0.008];
  return prepare({
    direction,
    readings: [61, 52, 44, 33, 27, 19, 12].map((pressure, index) => ({
      row: index + 1,
      pressure: side * pressure - 1.2,
      flow: 31 * pressure ** 0.63 * Math.exp(isExact ? 0 : scatter[index]!),
      fan: { opening: index < 4 ? 0 : 1, exponent: 0.5, pressure: 80 + pressure, logOverPivot: 0.1 },
      time: (index + 0.5) / 7,
    })),
    baselineBefore: -1.4,
    baselineAfter: -1,
    air: {
      temperature: { indoor: 22, outdoor: -6 },
      humidity: { indoor: 0.4, outdoor: 0.7 },
      barometricPressure: 97_000,
    },
    standard: "ISO 9972",
    technique: "ordinary",
    noise: { pressure: 0.5, flow: 0.01, stated: false },
  });
}

export const flow: Output = { of: "flow", pressure: 50 };

export const n: Output = { of: "exponent" };

export const [down, up] = [made("depressurization"), made("pressurization")];

/** Readings on their curve, so that there are no random errors. */
export const exact = made("depressurization", true);
