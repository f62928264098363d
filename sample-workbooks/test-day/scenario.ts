import type { DeviceOpening } from "../blocks/fan";
import { daySerial } from "../blocks/style";

/** House, place, people, weather and dates are invented; no such house stands anywhere. */

export const remark = "Invented firm, house and weather";

export const job = {
  house: "Sandpiper House",
  address: "14 The Ropewalk, Tern’s End, Isle of Ought",
  client: "Cosmo and Delphine Quill",
  tester: "Lorcan Abbey",
  day: daySerial(2026, 11, 24),
  standard: "ISO 9972",
  method: "method 2",
  hour: "08 to 10",
  gaugeUntil: daySerial(2028, 3, 4),
  deviceUntil: daySerial(2029, 5, 20),
} as const;

export const house = {
  height: 8.4,
  indoors: 20,
  gaugeHeight: 1,
  volume: 486,
  envelopeArea: 402,
  floorArea: 188,
} as const;

/** Outdoor temperature, °C; wind and gusts at the weather station, km/h. */
export const forecast: readonly (readonly [when: string, outdoors: number, wind: number, gusts: number])[] = [
  ["08 to 10", 3, 11, 18],
  ["10 to 12", 4.5, 16, 26],
  ["12 to 14", 6, 24, 41],
  ["14 to 16", 6, 30, 52],
  ["16 to 18", 4, 19, 33],
];

export const air = { windUnit: "km/h", place: "weather station", nearGround: 0.5, felt: 0.3 } as const;

export const expected = {
  quantity: "air change rate",
  leakage: 1.4,
  pressure: 50,
  exponent: 0.65,
  highest: 60,
  count: 10,
  density: 1.2041,
} as const;

/** The firm's smaller flow device, q = c · p^m in m³/h. */
export const openings: readonly DeviceOpening[] = [
  ["A", 112.6, 0.502, 15, 300],
  ["B", 37.9, 0.505, 15, 300],
  ["C", 12.84, 0.511, 20, 300],
];
