import type { WrittenTest } from "./chain";
import type { Random } from "./random";
import { written } from "./random";

export interface PointsCase {
  readonly family: string;
  readonly pressures: readonly number[];
  readonly flows: readonly number[];
}

type Make = (random: Random) => { pressures: number[]; flows: number[] };

function curve(random: Random, pressures: number[], coefficient: number, scatter: number): number[] {
  const n = random.between(0.5, 1);
  return pressures.map((pressure) => coefficient * pressure ** n * Math.exp(scatter * random.normal()));
}

/** Pressures as a tester steps through them, unsorted about even steps. */
function steps(random: Random, count: number, low: number, high: number): number[] {
  return Array.from({ length: count }, (_, index) =>
    written(low + ((high - low) * index) / (count - 1) + random.between(-0.4, 0.4), 1),
  );
}

const families: Record<string, Make> = {
  "as a tester writes it": (random) => {
    const pressures = steps(random, random.whole(5, 12), random.between(10, 20), random.between(50, 70));
    return { pressures, flows: curve(random, pressures, random.between(5, 300), 0.02).map((flow) => written(flow, 1)) };
  },
  "three readings": (random) => {
    const pressures = steps(random, 3, 10, 60);
    return { pressures, flows: curve(random, pressures, random.between(5, 300), 0.05) };
  },
  "two hundred readings": (random) => {
    const pressures = random.list(200, () => random.between(8, 80));
    return { pressures, flows: curve(random, pressures, 40, 0.03) };
  },
  "huge flows": (random) => {
    const pressures = steps(random, 8, 12, 60);
    return { pressures, flows: curve(random, pressures, random.magnitude(1e6, 1e9), 0.02) };
  },
  "tiny flows": (random) => {
    const pressures = steps(random, 8, 12, 60);
    return { pressures, flows: curve(random, pressures, random.magnitude(1e-9, 1e-4), 0.02) };
  },
  "wide range of pressures": (random) => {
    const pressures = random.list(9, () => random.magnitude(0.5, 500));
    return { pressures, flows: curve(random, pressures, 30, 0.1) };
  },
  "very noisy": (random) => {
    const pressures = steps(random, 7, 10, 60);
    return { pressures, flows: curve(random, pressures, 30, 0.5) };
  },
  "nearly equal pressures": (random) => {
    const centre = random.between(20, 60);
    const spread = random.magnitude(1e-6, 1e-2);
    const pressures = random.list(8, () => centre * (1 + spread * random.between(-1, 1)));
    return { pressures, flows: curve(random, pressures, 30, spread / 3) };
  },
  "one reading far away": (random) => {
    const centre = random.between(40, 60);
    const pressures = [...random.list(7, () => centre * (1 + 1e-4 * random.between(-1, 1))), 10];
    return { pressures, flows: curve(random, pressures, 30, 0.01) };
  },
  "almost without scatter": (random) => {
    const pressures = steps(random, 9, 10, 60);
    return { pressures, flows: curve(random, pressures, random.between(5, 300), 1e-7) };
  },
};

export const familyNames = Object.keys(families);

/** Readings of one family: positive induced pressures and flows. */
export function pointsCase(random: Random, family: string): PointsCase {
  const make = families[family];
  if (!make) throw new Error(`no family ${family}`);
  return { family, ...make(random) };
}

/** Corners of a plan in order: around a centre that may lie far from the origin, as on a site plan, in either sense. */
export function planCase(random: Random): [number, number][] {
  const count = random.whole(3, 14);
  const [centreX, centreY] = [random.pick([0, 0, 1000, -4321.5]), random.pick([0, 0, 2500.25])];
  const size = random.magnitude(1, 60);
  const corners = Array.from({ length: count }, (_, index): [number, number] => {
    const angle = (2 * Math.PI * (index + 0.8 * random.unit())) / count;
    const radius = size * random.between(0.5, 1);
    return [centreX + written(radius * Math.cos(angle), 3), centreY + written(radius * Math.sin(angle), 3)];
  });
  return random.unit() < 0.5 ? corners : corners.reverse();
}

/** A whole test of one direction as it stands on a sheet, with settings of every kind. */
export function testCase(random: Random): WrittenTest {
  const direction = random.pick(["depressurization", "pressurization"] as const);
  const sign = direction === "depressurization" ? -1 : 1;
  const count = random.pick([3, 5, 8, 10, 12, 40]);
  const baseline = random.between(-4, 4);
  const n = random.between(0.52, 0.9);
  const coefficient = random.magnitude(2, 2000);
  const induced = random.list(count, () => random.between(9, 70));
  const set = () => random.list(random.whole(1, 12), () => written(baseline + 0.5 * random.normal(), 1));
  return {
    direction,
    pressures: induced.map((pressure) => written(sign * pressure + baseline, 1)),
    flows: induced.map((pressure) => written(coefficient * pressure ** n * Math.exp(0.02 * random.normal()), 2)),
    baselineBefore: set(),
    baselineAfter: set(),
    basis: random.pick(["indicated at calibration density", "actual at the fan", "through the envelope"] as const),
    standard: random.pick(["ISO 9972", "ASTM E779"] as const),
    confidence: random.pick([0.9, 0.95, 0.99]),
    indoorTemperature: written(random.between(12, 28), 1),
    outdoorTemperature: written(random.between(-25, 38), 1),
    barometer: written(random.between(70000, 104000), 0),
    indoorHumidity: written(random.between(0, 1), 2),
    outdoorHumidity: written(random.between(0, 1), 2),
    calibrationDensity: random.pick([1.2041, 1.2, 1.1987, 1.225]),
    volume: written(random.magnitude(60, 60000), 1),
    envelopeArea: written(random.magnitude(100, 20000), 1),
    floorArea: written(random.magnitude(30, 20000), 1),
    referencePressure: random.pick([4, 10, 25, 50, 75, 100]),
  };
}
