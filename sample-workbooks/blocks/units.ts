/** The units of one form: the words on the sheets, and how many SI units one of them is. */
export interface Units {
  /** The word of the setting "units". */
  readonly system: "SI" | "IP";
  readonly flow: string;
  readonly length: string;
  readonly area: string;
  readonly volume: string;
  readonly temperature: string;
  /** A difference of temperatures. */
  readonly difference: string;
  readonly barometer: string;
  readonly density: string;
  readonly speed: string;
  readonly leakageArea: string;
  readonly perArea: string;
  readonly leakagePerArea: string;
  /** Of C, marked for superscripts. */
  readonly coefficient: string;
  /** m³/h, m, m², m³, Pa, kg/m³, m/s, cm² and m³/(h·m²) in one of the units above. */
  readonly in: {
    readonly flow: number;
    readonly length: number;
    readonly area: number;
    readonly volume: number;
    readonly barometer: number;
    readonly density: number;
    readonly speed: number;
    readonly leakageArea: number;
    readonly perArea: number;
    /** cm²/m² in one unit of leakage area per area. */
    readonly leakagePerArea: number;
  };
  /** Leakage areas are stated for so many units of area at a time. */
  readonly areasOfLeakage: number;
  /** Decimals of what is typed. */
  readonly digits: { readonly barometer: number; readonly density: number };
  /** A temperature in °C, from the unit above and back to it. */
  readonly toCelsius: (value: number) => number;
  readonly fromCelsius: (celsius: number) => number;
  /** A formula for the temperature in K. */
  readonly kelvin: (cell: string) => string;
}

export const metric: Units = {
  system: "SI",
  flow: "m³/h",
  length: "m",
  area: "m²",
  volume: "m³",
  temperature: "°C",
  difference: "K",
  barometer: "Pa",
  density: "kg/m³",
  speed: "m/s",
  leakageArea: "cm²",
  perArea: "m³/(h·m²)",
  leakagePerArea: "cm²/m²",
  coefficient: "m³/(h·Pa^{n})",
  in: {
    flow: 1,
    length: 1,
    area: 1,
    volume: 1,
    barometer: 1,
    density: 1,
    speed: 1,
    leakageArea: 1,
    perArea: 1,
    leakagePerArea: 1,
  },
  areasOfLeakage: 1,
  digits: { barometer: 0, density: 4 },
  toCelsius: (value) => value,
  fromCelsius: (celsius) => celsius,
  kelvin: (cell) => `(${cell}+273.15)`,
};

/** Exact by definition: 0.3048 m a foot, 0.45359237 kg a pound; 3386.389 Pa an inch of mercury by convention (NIST SP 811). */
const foot = 0.3048;

export const inchPound: Units = {
  system: "IP",
  flow: "cfm",
  length: "ft",
  area: "ft²",
  volume: "ft³",
  temperature: "°F",
  difference: "°F",
  barometer: "inHg",
  density: "lb/ft³",
  speed: "mph",
  leakageArea: "in²",
  perArea: "cfm/ft²",
  leakagePerArea: "in²/100 ft²",
  coefficient: "cfm/Pa^{n}",
  in: {
    flow: foot ** 3 * 60,
    length: foot,
    area: foot ** 2,
    volume: foot ** 3,
    barometer: 3386.389,
    density: 0.45359237 / foot ** 3,
    speed: 0.44704,
    leakageArea: 6.4516,
    perArea: foot * 60,
    leakagePerArea: 6.4516 / (100 * foot ** 2),
  },
  areasOfLeakage: 100,
  digits: { barometer: 2, density: 5 },
  toCelsius: (value) => (value - 32) / 1.8,
  fromCelsius: (celsius) => celsius * 1.8 + 32,
  kelvin: (cell) => `((${cell}+459.67)/1.8)`,
};

/** A number in SI as it is typed in other units, rounded to a few decimals. */
export function inUnit(value: number, unit: number, decimals: number): number {
  return Number((value / unit).toFixed(decimals));
}
