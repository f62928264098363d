import { convertUnits } from "../../core/index";
import { choice } from "./cells";

/** The units of one system, by what they measure. Pressure differences are in Pa in every system. */
export interface UnitSystem {
  readonly flow: string;
  readonly volume: string;
  readonly area: string;
  readonly length: string;
  readonly temperature: string;
  readonly barometer: string;
  readonly density: string;
  readonly viscosity: string;
  readonly leakageArea: string;
  readonly permeability: string;
  readonly leakageAreaPerArea: string;
  /** Diameter of a hole. */
  readonly diameter: string;
  readonly speed: string;
  readonly power: string;
  readonly energy: string;
}

const si: UnitSystem = {
  flow: "m³/h",
  volume: "m³",
  area: "m²",
  length: "m",
  temperature: "°C",
  barometer: "Pa",
  density: "kg/m³",
  viscosity: "Pa·s",
  leakageArea: "cm²",
  permeability: "m³/(h·m²)",
  leakageAreaPerArea: "cm²/m²",
  diameter: "mm",
  speed: "m/s",
  power: "W",
  energy: "kWh",
};

const systems = {
  SI: si,
  "SI L/s": { ...si, flow: "L/s", permeability: "L/(s·m²)" },
  IP: {
    flow: "cfm",
    volume: "ft³",
    area: "ft²",
    length: "ft",
    temperature: "°F",
    barometer: "inHg",
    density: "lb/ft³",
    viscosity: "lb/(ft·s)",
    leakageArea: "in²",
    permeability: "cfm/ft²",
    leakageAreaPerArea: "in²/100ft²",
    diameter: "in",
    speed: "mph",
    power: "Btu/h",
    energy: "kBtu",
  },
} satisfies Record<string, UnitSystem>;

/** Names of the unit systems. */
export const unitSystems = ["SI", "SI L/s", "IP"] as const;

/** The units that the method calculates in. */
const method: UnitSystem = { ...si, leakageArea: "m²", diameter: "m" };

/** The unit system that an argument names, SI where none is given. */
export function unitSystem(argument: unknown): UnitSystem {
  return systems[choice(argument, unitSystems, "units", "SI")];
}

/** From the user's units to the method's; what is not given stays so. */
export function toMethod(value: number, measures: keyof UnitSystem, system: UnitSystem): number;
export function toMethod(value: number | undefined, measures: keyof UnitSystem, system: UnitSystem): number | undefined;
export function toMethod(
  value: number | undefined,
  measures: keyof UnitSystem,
  system: UnitSystem,
): number | undefined {
  if (value === undefined) return undefined;
  // The method has its own range for temperatures and names the argument; the conversion would only know "value".
  if (measures === "temperature") return system.temperature === "°F" ? (value - 32) * (5 / 9) : value;
  return convertUnits(value, system[measures], method[measures]);
}

/** From the method's units to the user's; what is not known stays so. */
export function fromMethod(value: number, measures: keyof UnitSystem, system: UnitSystem): number;
export function fromMethod(
  value: number | undefined,
  measures: keyof UnitSystem,
  system: UnitSystem,
): number | undefined;
export function fromMethod(
  value: number | undefined,
  measures: keyof UnitSystem,
  system: UnitSystem,
): number | undefined {
  return value === undefined ? undefined : convertUnits(value, method[measures], system[measures]);
}

/** A temperature difference in the user's degrees from K. */
export function differenceFromMethod(kelvin: number, { temperature }: UnitSystem): number {
  return temperature === "°F" ? kelvin * 1.8 : kelvin;
}

/** A temperature difference in K from the user's degrees, whose zero does not matter. */
export function differenceToMethod(degrees: number, { temperature }: UnitSystem): number {
  return temperature === "°F" ? degrees / 1.8 : degrees;
}

/** Unit of C: "m³/h" gives "m³/(h·Pa^n)", "cfm" gives "cfm/Pa^n". */
export function perPressure(flowUnit: string): string {
  const [amount, time] = flowUnit.split("/");
  return time === undefined ? `${amount}/Pa^n` : `${amount}/(${time}·Pa^n)`;
}
