import {
  prepare,
  type Direction,
  type ModelReading,
  type Output,
  type PreparedTest,
  type ReadingNoise,
  type Technique,
} from "../../../../src/core";

export const outputs: Output[] = [
  { of: "flow", pressure: 50, perSize: true },
  { of: "flow", pressure: 4 },
  { of: "coefficient" },
  { of: "exponent" },
];

/** Made-up readings of one house, with a scatter that follows no law; or with none where `isExact`, so that there are no random errors. */
export function made(
  direction: Direction,
  change: {
    technique?: Technique;
    standard?: "ASTM E779";
    offset?: number;
    zeroFollowsTime?: boolean;
    noise?: Partial<ReadingNoise>;
    isExact?: boolean;
  } = {},
): PreparedTest {
  const {
    technique = "ordinary",
    standard = "ISO 9972",
    offset = 0,
    zeroFollowsTime = false,
    isExact = false,
  } = change;
  const side = direction === "pressurization" ? 1 : -1;
  const baseline = -1.2 + offset;
  const induced = [61, 52, 44, 33, 27, 19, 12];
  const scatter = [0.004, -0.011, 0.006, 0.009, -0.003, -0.014, 0.008];
  const readings = induced.map((pressure, index): ModelReading => {
    const opening = index < 4 ? 0 : 1;
    const fanPressure = 20 + 3 * pressure;
    return {
      row: index + 1,
      pressure: side * pressure + baseline,
      flow: 31 * pressure ** 0.63 * Math.exp(isExact ? 0 : scatter[index]!),
      fan: {
        opening,
        exponent: 0.49 + 0.02 * opening,
        pressure: fanPressure,
        logOverPivot: Math.log(fanPressure / 90),
      },
      time: (index + 0.5) / induced.length,
      pressureUncertainty: 0.4 + 0.1 * index,
      flowUncertainty: 2 + index,
    };
  });
  return prepare({
    direction,
    readings,
    baselineBefore: baseline - 0.4,
    baselineAfter: baseline + 0.4,
    air: {
      temperature: { indoor: 22, outdoor: -6 },
      humidity: { indoor: 0.4, outdoor: 0.7 },
      barometricPressure: 97000,
    },
    standard,
    technique,
    zeroFollowsTime,
    noise: { pressure: 0.5, flow: 0.005, stated: false, ...change.noise },
  });
}
