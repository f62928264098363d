import type { Units } from "../blocks/units";

/** Stands on every sheet until a user deletes it on the cover. */
export const remark = "Invented firm, house and readings";

type Corners = readonly (readonly [x: number, y: number])[];

/** Everything that is typed into one workbook, in its own units. */
export interface Scenario {
  readonly file: string;
  readonly units: Units;
  readonly firm: { readonly name: string; readonly trade: string; readonly address: string; readonly contact: string };
  readonly house: {
    readonly name: string;
    readonly address: string;
    readonly client: string;
    readonly construction: string;
    readonly purpose: string;
    readonly kind: string;
    readonly preparation: string;
    readonly report: string;
    readonly tester: string;
    readonly reviewer: string;
  };
  /** The name of a row of the table of limits. */
  readonly criterion: string;
  readonly convention: "room by room" | "whole internal";
  readonly testDate: number;
  /** Length and width of each part of a room by tape or laser; the mean clear height; a length below zero deducts. */
  readonly rooms: readonly (readonly [room: string, storey: string, length: number, width: number, height: number])[];
  /** How far a measured length may be off. */
  readonly tolerance: number;
  /** Inner outlines of the storeys, corner after corner. */
  readonly outlines: Readonly<Record<"ground" | "upper" | "top", Corners>>;
  /** Floor to floor on the ground floor, floor to ceiling on the upper one. */
  readonly storeyHeights: { readonly ground: number; readonly upper: number; readonly top: number | null };
  /** Ground to the ceiling of the upper floor. */
  readonly houseHeight: number;
  readonly instruments: readonly (readonly [
    name: string,
    type: string,
    serialNumber: string,
    accuracy: string,
    certificate: string,
    calibrated: number,
    validUntil: number,
  ])[];
  /** q = c · p^m with p in Pa, valid between two fan pressures; the standard uncertainty that an opening has by itself is a fraction. */
  readonly openings: readonly (readonly [
    name: string,
    what: string,
    c: number,
    m: number,
    lowest: number,
    highest: number,
    uncertainty: number,
  ])[];
  readonly calibrationDensity: number;
  /** Two runs of each direction; a run that was not made holds nothing. */
  readonly runs: Readonly<Record<Direction, readonly [DirectionReadings, DirectionReadings | undefined]>>;
}

export type Direction = "depressurization" | "pressurization";

/** What is read in one run of one direction. */
export interface DirectionReadings {
  /** Indoors, before and after, in the units of the form. */
  readonly indoorTemperature: readonly [number, number];
  readonly outdoorTemperature: readonly [number, number];
  /** Fractions. */
  readonly indoorHumidity: number;
  readonly outdoorHumidity: number;
  /** Read at the house. */
  readonly barometer: number;
  /** Where it is read is chosen on the sheet Preparation. */
  readonly wind: number;
  /** Ten means over 10 s each, flow device covered, Pa. */
  readonly baselineBefore: readonly number[];
  readonly baselineAfter: readonly number[];
  /** Pressure indoors minus outdoors and fan pressure, both in Pa, with the opening in use, and why a reading is left out. */
  readonly readings: readonly (readonly [pressure: number, opening: string, fanPressure: number, leftOut?: string])[];
}
