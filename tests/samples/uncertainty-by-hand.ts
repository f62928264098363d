import { larchHouse } from "../../sample-workbooks/final-test/houses";
import type { Direction, DirectionReadings } from "../../sample-workbooks/final-test/scenario";
import { density, mean } from "./by-hand";

/** The budget of the sample house from its definition: the whole model is computed anew with each source moved a little, and nothing of the project's code is used. */

/** What is moved, every one 0 in the test as it stands. */
interface Moved {
  gain: number;
  zero: number;
  fanGain: number;
  fanZero: number;
  flow: number;
  exponent: number;
  inside: number;
  outside: number;
  barometer: number;
  insideHumidity: number;
  outsideHumidity: number;
  before: number;
  after: number;
  drift: number;
}

const still: Moved = {
  gain: 0,
  zero: 0,
  fanGain: 0,
  fanZero: 0,
  flow: 0,
  exponent: 0,
  inside: 0,
  outside: 0,
  barometer: 0,
  insideHumidity: 0,
  outsideHumidity: 0,
  before: 0,
  after: 0,
  drift: 0,
};

interface Point {
  readonly x: number;
  readonly y: number;
}

const reference = 1.2041;

function model(direction: Direction, given: DirectionReadings, moved: Moved) {
  const pressure = given.barometer + moved.barometer;
  const inside = density(
    mean(given.indoorTemperature) + moved.inside,
    pressure,
    given.indoorHumidity + moved.insideHumidity,
  );
  const outside = density(
    mean(given.outdoorTemperature) + moved.outside,
    pressure,
    given.outdoorHumidity + moved.outsideHumidity,
  );
  const [atFan, inLeaks] = direction === "depressurization" ? [inside, outside] : [outside, inside];
  const before = mean(given.baselineBefore) * (1 + moved.gain) + moved.before;
  const after = mean(given.baselineAfter) * (1 + moved.gain) + moved.after;
  const used = given.readings
    .map((reading, index) => ({ reading, time: (index + 0.5) / given.readings.length }))
    .filter(({ reading: [, , , leftOut] }) => leftOut === undefined);
  const points = used.map(({ reading: [read, opening, fan], time }): Point => {
    const [, , c = NaN, m = NaN, from = NaN, to = NaN] = larchHouse.openings.find(([name]) => name === opening) ?? [];
    const induced = read * (1 + moved.gain) + moved.zero + moved.drift * (time - 0.5) - (before + after) / 2;
    const fanPressure = fan * (1 + moved.fanGain) + moved.fanZero;
    // The exponent turns about the middle of the certified range.
    const turned = Math.exp(moved.exponent * (Math.log(fan) - Math.log(from * to) / 2));
    const flow = c * fanPressure ** m * turned * (1 + moved.flow);
    const through = flow * Math.sqrt(larchHouse.calibrationDensity / atFan) * (atFan / inLeaks);
    return { x: Math.log(Math.abs(induced)), y: Math.log(through) };
  });
  const [x, y] = [mean(points.map((one) => one.x)), mean(points.map((one) => one.y))];
  const sxx = points.reduce((sum, one) => sum + (one.x - x) ** 2, 0);
  const n = points.reduce((sum, one) => sum + (one.x - x) * (one.y - y), 0) / sxx;
  const shift = Math.log(inLeaks / reference);
  const at = Math.log(50) - shift;
  return { points, n, x, y, sxx, shift, at, inside, outside, logFlow: y + n * (at - x) + shift };
}

interface Contribution {
  readonly name: string;
  readonly value: number;
  readonly freedom: number;
  readonly own?: true;
}

/** u and ν of the means of two baselines of as many rows, whose neighbours are alike by a φ that both sets tell. */
function baselineMeans(sets: readonly (readonly number[])[]): { uncertainty: number; freedom: number }[] {
  const deviations = sets.map((set) => set.map((value) => value - mean(set)));
  const squares = deviations.map((set) => set.reduce((sum, one) => sum + one ** 2, 0));
  const products = deviations.flatMap((set) => set.slice(1).map((one, index) => one * (set[index] ?? NaN)));
  const r1 = products.reduce((sum, one) => sum + one, 0) / squares.reduce((sum, one) => sum + one, 0);
  return deviations.map((set, index) => {
    const count = set.length;
    const alike = Math.max(0, r1 + (1 + 4 * r1) / count);
    const effective = Math.max(2, (count * (1 - alike)) / (1 + alike));
    const uncertainty = Math.sqrt((squares[index] ?? NaN) / (count - count / effective) / effective);
    return { uncertainty, freedom: effective - 1 };
  });
}

/** How well the means of the baselines are known, where a logger's stations say it. */
export interface StatedBaseline {
  readonly uncertainty: number;
  readonly freedom: number;
}

/** What the sheet states of one reading's random error: Pa, and a fraction of the flow. */
const stated = { pressure: 0.3, flow: 0.004 };

const none = { uncertainty: NaN, freedom: NaN };

/** The least weighted sum of squares that any line leaves. */
function leastSquares(points: readonly Point[], deviation: (one: Point) => number): number {
  const weighted = points.map((one) => ({ ...one, weight: deviation(one) ** -2 }));
  const sum = (of: (one: (typeof weighted)[number]) => number) =>
    weighted.reduce((total, one) => total + one.weight * of(one), 0);
  const [x, y] = [sum((one) => one.x) / sum(() => 1), sum((one) => one.y) / sum(() => 1)];
  const slope = sum((one) => (one.x - x) * (one.y - y)) / sum((one) => (one.x - x) ** 2);
  return sum((one) => (one.y - y - slope * (one.x - x)) ** 2);
}

/** Standard uncertainties of the sheet Uncertainty as the recipe writes them; half-widths are divided by √3. */
function contributions(direction: Direction, given: DirectionReadings, baseline?: StatedBaseline): Contribution[] {
  const centre = model(direction, given, still);
  const slope = (source: keyof Moved, step: number) => {
    const to = (sign: number) => model(direction, given, { ...still, [source]: sign * step }).logFlow;
    return (to(1) - to(-1)) / (2 * step);
  };
  const third = Math.sqrt(3);
  const [before = none, after = none] =
    baseline === undefined ? baselineMeans([given.baselineBefore, given.baselineAfter]) : [baseline, baseline];
  const movement = mean(given.baselineAfter) - mean(given.baselineBefore);
  const d = Math.sqrt(Math.max(0, movement ** 2 - before.uncertainty ** 2 - after.uncertainty ** 2));
  const stack = 0.1 * 9.80665 * larchHouse.houseHeight * Math.abs(centre.outside - centre.inside);
  const wind = 0.1 * 0.5 * centre.outside * given.wind ** 2;
  const { points, n, x, y, sxx, at } = centre;
  const shares = points.map((one) => 1 / points.length + ((at - x) * (one.x - x)) / sxx);
  const residuals = points.map((one) => one.y - y - n * (one.x - x));
  const noise = points.reduce((sum, one, index) => {
    const share = shares[index] ?? NaN;
    const ofPressure = -n * share + ((at - x) * (residuals[index] ?? NaN)) / sxx;
    return sum + ((ofPressure * stated.pressure) / Math.exp(one.x)) ** 2 + (share * stated.flow) ** 2;
  }, 0);
  const chiSquare = leastSquares(points, (one) => Math.hypot(stated.flow, (n * stated.pressure) / Math.exp(one.x)));
  const kappa = Math.sqrt(chiSquare / (points.length - 2));
  const many = Infinity;
  return [
    { name: "gain", value: (slope("gain", 1e-5) * 0.01) / third, freedom: many },
    { name: "zero", value: (slope("zero", 1e-4) * 0.1) / third, freedom: many },
    { name: "fan gain", value: (slope("fanGain", 1e-5) * 0.01) / third, freedom: many },
    { name: "fan zero", value: (slope("fanZero", 1e-4) * 0.1) / third, freedom: many },
    { name: "flow", value: slope("flow", 1e-5) * 0.012, freedom: many },
    { name: "opening", value: slope("flow", 1e-5) * 0.008, freedom: many },
    { name: "exponent", value: slope("exponent", 1e-5) * 0.003, freedom: many },
    { name: "inside", value: slope("inside", 1e-3) * 0.5, freedom: many },
    { name: "outside", value: slope("outside", 1e-3), freedom: many },
    { name: "barometer", value: slope("barometer", 1) * 100, freedom: many },
    { name: "inside humidity", value: (slope("insideHumidity", 1e-4) * 0.1) / third, freedom: many },
    { name: "outside humidity", value: (slope("outsideHumidity", 1e-4) * 0.1) / third, freedom: many },
    { name: "stack", value: (slope("zero", 1e-4) * stack) / third, freedom: many },
    { name: "volume", value: -0.015, freedom: 50 },
    { name: "before", value: slope("before", 1e-4) * before.uncertainty, freedom: before.freedom, own: true },
    { name: "after", value: slope("after", 1e-4) * after.uncertainty, freedom: after.freedom, own: true },
    { name: "path", value: (slope("zero", 1e-4) * d) / Math.sqrt(12), freedom: many, own: true },
    { name: "drift", value: slope("drift", 1e-4) * d, freedom: many, own: true },
    { name: "wind", value: (slope("zero", 1e-4) * wind) / third, freedom: many, own: true },
    // Both parts of the noise are stated: a smaller scatter is chance.
    { name: "random", value: Math.max(1, kappa) * Math.sqrt(noise), freedom: many, own: true },
  ];
}

/** Combined standard uncertainty, as a fraction, and truncated degrees of freedom. */
export interface HandBudget {
  readonly standard: number;
  readonly freedom: number;
}

function combined(list: readonly Contribution[]): HandBudget {
  const total = list.reduce((sum, { value }) => sum + value ** 2, 0);
  const denominator = list.reduce((sum, { value, freedom }) => sum + value ** 4 / freedom, 0);
  return { standard: Math.sqrt(total), freedom: Math.floor(total ** 2 / denominator) };
}

export function budgetByHand(direction: Direction, given: DirectionReadings, baseline?: StatedBaseline): HandBudget {
  return combined(contributions(direction, given, baseline));
}

/** What both directions share is added with its sign before squaring; the weights are the flows. */
export function meanBudgetByHand(depressurized: DirectionReadings, pressurized: DirectionReadings): HandBudget {
  const parts = [
    ["depressurization", depressurized],
    ["pressurization", pressurized],
  ] as const;
  const flows = parts.map(([direction, given]) => Math.exp(model(direction, given, still).logFlow));
  const sum = flows.reduce((total, flow) => total + flow, 0);
  const weighted = parts.map(([direction, given], index) =>
    contributions(direction, given).map((one) => ({ ...one, value: (one.value * (flows[index] ?? NaN)) / sum })),
  );
  const [first = [], second = []] = weighted;
  const shared = first
    .filter(({ own }) => !own)
    .map((one) => ({ ...one, value: one.value + (second.find(({ name }) => name === one.name)?.value ?? NaN) }));
  return combined([...shared, ...first.filter(({ own }) => own), ...second.filter(({ own }) => own)]);
}

/**
 * A budget and the runs of one direction together: s/√2 of two runs is half their difference (JCGM 100, 4.2.3), with one degree of freedom; of a mean of both
 * directions it counts by half. Degrees of freedom by G.4.1, rounded down.
 */
export function withScatter(
  budget: HandBudget,
  pairs: readonly (readonly [number, number])[],
  result: number,
  directions: 1 | 2,
): HandBudget {
  const ofRuns = pairs.map(([one, other]) => Math.abs(one - other) / 2 / directions / result);
  const standard = Math.hypot(budget.standard, ...ofRuns);
  const sum = [...ofRuns.map((u) => u ** 4), budget.standard ** 4 / budget.freedom].reduce((a, b) => a + b, 0);
  return { standard, freedom: Math.max(1, Math.floor(standard ** 4 / sum)) };
}
