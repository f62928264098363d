import type { Draws } from "./draws";

/** What a budget assumes of the instruments and the house where the sheet says nothing, by the label of the setting; the law of each is in drawErrors. */
const assumedSizes = {
  "gauge accuracy": 0.01,
  "gauge zero": 0.1,
  "fan gauge accuracy": 0.01,
  "fan gauge zero": 0.1,
  "flow calibration uncertainty": 0.015,
  "opening calibration uncertainty": 0.01,
  "fan exponent uncertainty": 0.003,
  "indoor temperature uncertainty": 0.5,
  "outdoor temperature uncertainty": 1,
  "barometer uncertainty": 100,
  "humidity accuracy": 0.1,
  "volume uncertainty": 0.02,
};

type Sizes = Readonly<Record<keyof typeof assumedSizes, number>>;

export interface Instruments {
  readonly name: string;
  readonly sizes: Sizes;
  /** Both gauges show multiples of it, Pa; 0 shows every digit. */
  readonly resolution: number;
  /** What the tester types of them; nothing where the function assumes it. */
  readonly settings: readonly (readonly [label: string, value: number])[];
}

function instruments(name: string, factor: number, resolution = 0.1): Instruments {
  const scaled = Object.entries(assumedSizes).map(([label, size]) => [label, size * factor] as const);
  const settings = factor === 1 ? [] : scaled;
  return { name, sizes: Object.fromEntries(scaled) as Sizes, resolution, settings };
}

/** As the function assumes them, so that nothing is typed. */
export const usual = instruments("usual", 1);

/** Ten times better, so that the readings decide. */
export const precise = instruments("precise", 0.1);

/** Without any error: for the checks of the simulation itself. */
export const perfect: Instruments = { ...instruments("perfect", 0, 0), settings: [] };

/** How many openings a flow device has here. */
const openings = 2;

/** Errors that belong to the instruments and to the house's measured size: the same in every test with them. All are relative, the exponents' absolute. */
export interface RigErrors {
  readonly gaugeGain: number;
  readonly fanGain: number;
  readonly flowGain: number;
  readonly openingGain: readonly number[];
  readonly openingExponent: readonly number[];
  readonly volume: number;
}

/** "Accuracy" is the half-width of a rectangular law, "uncertainty" the standard deviation of a normal one. */
export function drawRigErrors({ sizes }: Instruments, draws: Draws): RigErrors {
  const each = (label: keyof Sizes) => Array.from({ length: openings }, () => draws.normal(sizes[label]));
  return {
    gaugeGain: draws.rectangular(sizes["gauge accuracy"]),
    fanGain: draws.rectangular(sizes["fan gauge accuracy"]),
    flowGain: draws.normal(sizes["flow calibration uncertainty"]),
    openingGain: each("opening calibration uncertainty"),
    openingExponent: each("fan exponent uncertainty"),
    volume: draws.normal(sizes["volume uncertainty"]),
  };
}

/** Errors of one visit, the same in both directions: Pa, K, Pa, fractions of humidity. */
export interface VisitErrors {
  /** Of the pressure gauge's zero, after the baseline was read. */
  readonly zeroShift: number;
  readonly fanZero: number;
  readonly indoorTemperature: number;
  readonly outdoorTemperature: number;
  readonly barometer: number;
  readonly indoorHumidity: number;
  readonly outdoorHumidity: number;
}

/** "Zero" and "accuracy" are half-widths of rectangular laws, "uncertainty" the standard deviation of a normal one. */
export function drawVisitErrors({ sizes }: Instruments, draws: Draws): VisitErrors {
  return {
    zeroShift: draws.rectangular(sizes["gauge zero"]),
    fanZero: draws.rectangular(sizes["fan gauge zero"]),
    indoorTemperature: draws.normal(sizes["indoor temperature uncertainty"]),
    outdoorTemperature: draws.normal(sizes["outdoor temperature uncertainty"]),
    barometer: draws.normal(sizes["barometer uncertainty"]),
    indoorHumidity: draws.rectangular(sizes["humidity accuracy"]),
    outdoorHumidity: draws.rectangular(sizes["humidity accuracy"]),
  };
}

/** A value as a display shows it. */
export function shown(value: number, resolution: number): number {
  // Divided by the steps per Pa, not multiplied by the step: 0.3 instead of 0.30000000000000004.
  return resolution === 0 ? value : Math.round(value / resolution) / Math.round(1 / resolution);
}
