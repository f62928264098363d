import type { Direction, DirectionReadings } from "./readings";
import type { Units } from "./units";

/** Firm, house, place, people, instruments and readings are invented; no such house stands anywhere. */

export const firm = "Quince & Plover";
export const trade = "Building physics";
/** Stands on every sheet until a user deletes it on the cover. */
export const remark = "Invented firm, house and readings";
/** Neutral: a footer cannot follow a cell. */
export const footer = "Airtightness test by fan pressurization";

type Corners = readonly (readonly [x: number, y: number])[];

/** Everything that is typed into one workbook, in its own units. */
export interface Scenario {
  readonly file: string;
  readonly units: Units;
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
  /** q = c · p^m with p in Pa, valid between two fan pressures. */
  readonly openings: readonly (readonly [
    name: string,
    what: string,
    c: number,
    m: number,
    lowest: number,
    highest: number,
  ])[];
  readonly calibrationDensity: number;
  /** Two runs of each direction; a run that was not made holds nothing. */
  readonly runs: Readonly<Record<Direction, readonly [DirectionReadings, DirectionReadings | undefined]>>;
}

/** A calendar day as Excel counts days. */
export function serial(year: number, month: number, dayOfMonth: number): number {
  return Date.UTC(year, month - 1, dayOfMonth) / 86_400_000 + 25_569;
}
