import { densitiesIn, type Climate, type Direction } from "./physics/air";
import type { Draws } from "./physics/draws";
import { deviceFactor, fanExponent, fanPressureAt, indicatedFlow } from "./physics/flow-device";
import { gustsOf } from "./physics/gusts";
import { flowAtFan, type House } from "./physics/house";
import { drawVisitErrors, shown, type Instruments, type RigErrors, type VisitErrors } from "./physics/instruments";
import { climate, stackHalfWidth, windHalfWidth } from "./physics/weather";
import type { Scenario } from "./scenarios";
import { duration, typedSettings, type Sheet } from "./sheet";

/** The climate as the tester's instruments show it. */
function readClimate(errors: VisitErrors): Climate {
  const fraction = (humidity: number) => Math.min(1, Math.max(0, humidity));
  return {
    indoorTemperature: climate.indoorTemperature + errors.indoorTemperature,
    outdoorTemperature: climate.outdoorTemperature + errors.outdoorTemperature,
    indoorHumidity: fraction(climate.indoorHumidity + errors.indoorHumidity),
    outdoorHumidity: fraction(climate.outdoorHumidity + errors.outdoorHumidity),
    barometer: climate.barometer + errors.barometer,
  };
}

/** Pressure without the fan, Pa, over the seconds from the middle of the baseline before. */
type Course = (second: number) => number;

/** A pair of baselines as read, before and after. */
export interface Baselines {
  readonly course: Course;
  readonly before: number[];
  readonly after: number[];
}

/** What one visit has in common in both directions. */
export interface Visit {
  readonly scenario: Scenario;
  readonly instruments: Instruments;
  readonly house: House;
  readonly rig: RigErrors;
  readonly errors: VisitErrors;
  readonly stack: number;
  readonly draws: Draws;
}

/** Goes to a house: draws the errors of the visit. */
export function beginVisit(to: Pick<Visit, "scenario" | "instruments" | "house" | "rig" | "draws">): Visit {
  const { scenario, instruments, draws } = to;
  return {
    ...to,
    errors: drawVisitErrors(instruments, draws),
    stack: draws.rectangular(stackHalfWidth(scenario.height)),
  };
}

/** A random walk from the baseline before to the one after, where it has the standard deviation given; straight between its steps, still beyond them. */
function randomWalk(deviation: number, draws: Draws): Course {
  const steps = 48;
  const places = [0];
  for (let step = 0; step < steps; step++) places.push(places[step]! + draws.normal(deviation / Math.sqrt(steps)));
  return (second) => {
    const place = Math.min(steps, Math.max(0, (steps * second) / duration));
    const below = Math.min(steps - 1, Math.floor(place));
    return places[below]! + (place - below) * (places[below + 1]! - places[below]!);
  };
}

/** Reads the baselines of one direction, or of both. */
export function readBaselines({ scenario, instruments, rig, draws }: Visit): Baselines {
  const { rows, gusts, typed } = scenario.baseline;
  const [level, drift] = [-1 + draws.normal(0.7), draws.normal(scenario.drift)];
  const walk = scenario.wander === 0 ? () => 0 : randomWalk(scenario.wander, draws);
  const course: Course = (second) => level + (drift * second) / duration + walk(second);
  const set = (middle: number): number[] => {
    const read = gustsOf(gusts, rows, draws).map(
      (gust, row) => (1 + rig.gaugeGain) * (course(middle + row - (rows - 1) / 2) + gust),
    );
    const values = typed === "rows" ? read : [read.reduce((sum, value) => sum + value, 0) / rows];
    return values.map((value) => shown(value, instruments.resolution));
  };
  return { course, before: set(0), after: set(duration) };
}

/** When the readings are taken, s: evenly spaced, or the later ones further apart. */
function timesOf({ pressures, times }: Scenario): number[] {
  return pressures.map((_, index) => duration * ((index + 0.5) / pressures.length) ** (times ? 1.4 : 1));
}

/** What turns the flow by the certificate to what stands in the flow column, computed with the climate as read. */
function columnFactor({ flowBasis }: Scenario, read: Climate, direction: Direction): number {
  const { leaks, fan } = densitiesIn(read, direction);
  switch (flowBasis) {
    case "indicated at calibration density":
      return 1;
    case "actual at the fan":
      return deviceFactor(fan);
    case "through the envelope":
      return (deviceFactor(fan) * fan) / leaks;
  }
}

/** Reads one direction and types it. */
export function readDirection(visit: Visit, direction: Direction, { course, before, after }: Baselines): Sheet {
  const { scenario, instruments, house, rig, errors, stack, draws } = visit;
  const { resolution } = instruments;
  const { gusts, seconds, flowNoise } = scenario.reading;
  const side = direction === "pressurization" ? 1 : -1;
  const densities = densitiesIn(climate, direction);
  const offset = stack + draws.rectangular(windHalfWidth(scenario.wind));
  const times = timesOf(scenario);
  const read = readClimate(errors);
  const factor = columnFactor(scenario, read, direction);

  const rows = scenario.pressures.map((aim, index) => {
    const time = times[index]!;
    const opening = scenario.openings.charCodeAt(index) - 65;
    const pressure = aim * (1 + draws.rectangular(0.02));
    const gust = gustsOf(gusts, seconds, draws).reduce((sum, value) => sum + value, 0) / seconds;
    const atGauge = side * pressure + course(time) + offset + gust;
    const atFan =
      fanPressureAt(flowAtFan(house, pressure, densities), densities.fan, opening, rig) *
      Math.exp(draws.normal(flowNoise) / fanExponent);
    const fanPressure = shown((1 + rig.fanGain) * atFan + errors.fanZero, resolution);
    return {
      time,
      pressure: shown((1 + rig.gaugeGain) * atGauge + errors.zeroShift, resolution),
      fanPressure,
      flow: factor * indicatedFlow(fanPressure, opening),
    };
  });
  const lowest = rows.reduce((least, row) => (row.flow < least.flow ? row : least));
  const column = (values: readonly number[]) => values.map((value) => [value]);
  return {
    direction,
    pressures: rows.map(({ time, pressure }) => (scenario.times ? [time, pressure] : [pressure])),
    flows: column(rows.map(({ flow }) => flow)),
    before: column(before),
    after: column(after),
    settings: typedSettings(scenario, instruments, house.volume * (1 + rig.volume), read, lowest.fanPressure),
  };
}
