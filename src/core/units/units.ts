import { ensure, type Term } from "../errors";

/** Exact by definition: NIST SP 811 (2008), appendix B. */
const foot = 0.3048;
const inch = foot / 12;
const pound = 0.45359237;
const hour = 3600;
const mile = 1609.344;
const nauticalMile = 1852;
/** Inch of mercury, Pa, conventional. NIST SP 811 (2008), appendix B.8: 3.386389e3. */
const inchOfMercury = 3386.389;
/** British thermal unit of the International Table, J. NIST SP 811 (2008), appendix B.8. */
const btu = 1055.05585262;
const cfm = foot ** 3 / 60;

/** A unit: (value − zero) × factor is the quantity in its base unit; `zero` is what a thermometer of this unit shows at 0 °C. */
interface Unit {
  readonly quantity: string;
  readonly factor: number;
  readonly zero?: number;
}

/** The units of each quantity, by the names that a tester writes. Inches of water come with the water's temperature, since they differ by 0.1 %: NIST SP 811 (2008), appendix B.8. */
const unitsByQuantity: Record<string, Record<string, number>> = {
  flow: { "m³/h": 1 / hour, "m³/s": 1, "L/s": 1e-3, "L/min": 1e-3 / 60, cfm },
  volume: { "m³": 1, L: 1e-3, "ft³": foot ** 3 },
  area: { "m²": 1, "cm²": 1e-4, "ft²": foot ** 2, "in²": inch ** 2 },
  length: { m: 1, cm: 1e-2, mm: 1e-3, ft: foot, in: inch },
  pressure: {
    Pa: 1,
    hPa: 100,
    kPa: 1000,
    mbar: 100,
    bar: 1e5,
    psi: (pound * 9.80665) / inch ** 2,
    inHg: inchOfMercury,
    mmHg: 133.3224,
    "inH2O 4 °C": 249.082,
    "inH2O 39.2 °F": 249.082,
    "inH2O 60 °F": 248.84,
    "inH2O conventional": 249.0889,
  },
  speed: { "m/s": 1, "km/h": 1000 / hour, mph: mile / hour, kn: nauticalMile / hour },
  power: { W: 1, kW: 1000, "Btu/h": btu / hour },
  energy: { Wh: hour, kWh: 1000 * hour, MJ: 1e6, Btu: btu, kBtu: 1000 * btu },
  viscosity: { "Pa·s": 1, "lb/(ft·s)": pound / foot },
  density: { "kg/m³": 1, "lb/ft³": pound / foot ** 3 },
  permeability: { "m³/(h·m²)": 1 / hour, "L/(s·m²)": 1e-3, "cfm/ft²": cfm / foot ** 2 },
  "leakage area per area": { "cm²/m²": 1e-4, "in²/100ft²": inch ** 2 / (100 * foot ** 2) },
};

const temperatures: Record<string, Unit> = {
  "°C": { quantity: "temperature", factor: 1 },
  K: { quantity: "temperature", factor: 1, zero: 273.15 },
  "°F": { quantity: "temperature", factor: 5 / 9, zero: 32 },
};

const superscripts: Record<string, string> = { "²": "2", "³": "3" };

/** Spelling by which a unit is found: any letter case, "m3/h" for "m³/h", blanks, degree signs, dots and brackets do not matter. */
function spelling(name: string): string {
  return name
    .toLowerCase()
    .replace(/[²³]/g, (digit) => superscripts[digit]!)
    .replace(/[\s°^·*()]/g, "");
}

const table = new Map<string, Unit>();
/** The names as listed above, so that a column of conversions does not spell the same name again for each cell. */
const exactNames = new Map<string, Unit>();
function add(name: string, unit: Unit): void {
  table.set(spelling(name), unit);
  exactNames.set(name, unit);
}
for (const [quantity, units] of Object.entries(unitsByQuantity)) {
  for (const [name, factor] of Object.entries(units)) add(name, { quantity, factor });
}
for (const [name, unit] of Object.entries(temperatures)) add(name, unit);

/** Finds a unit by its name, undefined where it is not known. */
export function unitNamed(name: string): Unit | undefined {
  // Letter case is free, except where it would turn mega into milli.
  return exactNames.get(name) ?? (/^M(m|bar)/.test(name) ? undefined : table.get(spelling(name)));
}

/**
 * Names of the units of one quantity, or of all.
 * Example: unitNames("flow") → ["m³/h", "m³/s", "L/s", "L/min", "cfm"]
 */
export function unitNames(quantity?: string): string[] {
  const names = Object.entries({ ...unitsByQuantity, temperature: temperatures });
  return names.filter(([of]) => quantity === undefined || of === quantity).flatMap(([, units]) => Object.keys(units));
}

function known(name: string, term: Term): Unit {
  const unit = unitNamed(name);
  ensure(unit !== undefined, term, "unknownUnit", { unit: name });
  return unit;
}

/**
 * Converts a value from one unit to another of the same quantity.
 * Errors: an unknown unit, units of different quantities, a temperature below absolute zero.
 * Source: NIST SP 811 (2008), appendix B; the foot, inch, pound, mile and nautical mile are exact, the inch of mercury is conventional.
 * Example: convertUnits(1, "cfm", "m³/h") → 1.69901
 */
export function convertUnits(value: number, from: string, to: string): number {
  const source = known(from, "from");
  const target = known(to, "to");
  ensure(source.quantity === target.quantity, "to", "otherQuantity", {
    from,
    to,
    is: source.quantity,
    wanted: target.quantity,
  });
  const base = (value - (source.zero ?? 0)) * source.factor;
  if (source.quantity === "temperature") ensure(base >= -273.15, "value", "belowAbsoluteZero", { got: value });
  return source === target ? value : base / target.factor + (target.zero ?? 0);
}
