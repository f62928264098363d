import type { Freedom } from "./error-law";

/** A standard uncertainty and its degrees of freedom. */
export interface Stated {
  readonly u: number;
  readonly dof: Freedom;
}

/** One direction as vectors.json writes it: pressures in Pa, signed; what is not given is null. */
export interface DirectionInputs {
  readonly direction: "depressurization" | "pressurization";
  readonly readings: readonly number[];
  readonly fan_pressures: readonly number[];
  /** One letter per reading. */
  readonly opening: readonly string[];
  readonly baseline_before: readonly number[];
  readonly baseline_after: readonly number[] | null;
  /** Stated for the means of the sets before and after. */
  readonly baseline_u: readonly [Stated, Stated] | null;
  /** Time of each reading and mean time of each set, in one unit. */
  readonly times: readonly number[] | null;
  readonly baseline_times: readonly [number, number] | null;
  /** Of each reading's pressure, in Pa, and of ln q. */
  readonly pressure_uncertainty: number | null;
  readonly flow_uncertainty: number | null;
}

interface Opening {
  readonly coefficient: number;
  readonly exponent: number;
  readonly pivot_Pa: number;
}

export type Technique =
  "ordinary" | "weighted" | "organic correlation" | "weighted organic correlation" | "errors in both";

/** A whole test of one direction or both, with the uncertainties that directions share. */
export interface BudgetInputs {
  readonly name: string;
  readonly standard: "ISO 9972" | "ASTM E779";
  readonly technique: Technique;
  readonly volume: number;
  readonly indoor_temperature: number;
  readonly outdoor_temperature: number;
  readonly barometer: number;
  readonly indoor_humidity: number;
  readonly outdoor_humidity: number;
  readonly calibration_density: number;
  readonly reference_density: number;
  /** m/s and m. */
  readonly wind_speed: number;
  readonly height: number;
  readonly openings: Readonly<Record<string, Opening>>;
  readonly baseline_shared: boolean;
  readonly directions: readonly DirectionInputs[];
  readonly shared_u: Readonly<Record<string, Stated>>;
}
