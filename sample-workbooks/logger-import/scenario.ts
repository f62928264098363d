import { daySerial } from "../blocks/style";

/** House, people, instrument and log are invented; no such house stands anywhere. The firm is the one of the other workbooks. */

export const remark = "Invented house and log";
export const footer = "Stations from a logger’s rows; test by ISO 9972:2015";

export const house = {
  name: "Sorrel Barn",
  address: "2 Herring Causeway, Upper Ought",
  client: "Philippa Dewhurst-Onwuachi",
  tester: "Ines Corvane",
  file: "export_0417_sorrel.csv",
  day: daySerial(2026, 10, 29),
} as const;

/** What the test needs beside the log. */
export const conditions = {
  volume: 388.4,
  envelopeArea: 402.7,
  indoorTemperature: 20.2,
  outdoorTemperature: 8.1,
  barometer: 100_930,
  indoorHumidity: 0.48,
  outdoorHumidity: 0.84,
  calibrationDensity: 1.2041,
} as const;

/** q = c·p^m in m³/h with the fan pressure p in Pa, valid between two fan pressures. */
export const opening = { coefficient: 37.9, exponent: 0.505, lowest: 15, highest: 300 } as const;

/** A barn made into a house: the limit of a retrofit. */
export const limit = 1.0;

/** What the budget is told: certificates, the tape, the wind on the day. */
export const known = { height: 7.4, wind: 1.9, gaugeAccuracy: 0.01, flow: 0.015, volume: 0.02 } as const;
