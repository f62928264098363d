import { sentence } from "../../file/problem";
import { type FunctionTable, takes } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { isError } from "../values/coerce";
import { errors, requireFinite } from "../values/value";
import { readPlainNumbers } from "./rounding";

/** The prefixes that Excel allows before metric units. */
const prefixes: readonly (readonly [string, number])[] = [
  ["da", 1e1],
  ["Y", 1e24],
  ["Z", 1e21],
  ["E", 1e18],
  ["P", 1e15],
  ["T", 1e12],
  ["G", 1e9],
  ["M", 1e6],
  ["k", 1e3],
  ["h", 1e2],
  ["d", 1e-1],
  ["c", 1e-2],
  ["m", 1e-3],
  ["u", 1e-6],
  ["n", 1e-9],
  ["p", 1e-12],
  ["f", 1e-15],
];

function findUnit(name: string): Unit | undefined {
  const plain = unitsOf.get(name);
  if (plain) return plain;
  for (const [prefix, factor] of prefixes) {
    const unit = name.startsWith(prefix) ? unitsOf.get(name.slice(prefix.length)) : undefined;
    if (unit?.metric !== undefined) return { ...unit, factor: unit.factor * factor ** unit.metric };
  }
  return undefined;
}

/** Conversion between units of measure. */
export const conversion: FunctionTable = {
  CONVERT: takes(["scalar", "text", "text"], ([given, fromName, toName]) => {
    const numbers = readPlainNumbers([given]);
    if (isError(numbers)) return numbers;
    const [value = 0] = numbers;
    const from = findUnit(fromName);
    const to = findUnit(toName);
    if (!from || !to)
      return refuse(
        sentence`CONVERT from "${fromName}" to "${toName}"`,
        "CONVERT from or to a unit that is not known here",
      );
    if (from.kind !== to.kind) return errors.notAvailable;
    if (from === to || fromName === toName) return value;
    const inBase = (value + (from.before ?? 0)) * from.factor + (from.after ?? 0);
    return requireFinite((inBase - (to.after ?? 0)) / to.factor - (to.before ?? 0));
  }),
};

/** A unit of CONVERT: value in the base unit = (value + before) × factor + after. */
interface Unit {
  readonly kind: string;
  readonly factor: number;
  /** The power in which a metric prefix counts (2 for m²); absent where Excel allows none. */
  readonly metric?: number;
  readonly before?: number;
  readonly after?: number;
}

const foot = 0.3048;
const inch = 0.0254;
const yard = 0.9144;
const mile = 1609.344;
const gallon = 231 * inch ** 3;

type Definition = readonly [names: string, kind: string, factor: number, metric?: number];

const pound = 0.45359237;
const poundForce = pound * 9.80665;
const footPound = poundForce * foot;
const ukPint = 0.56826125e-3;

// Exact by definition: the international yard and pound (1959), BIPM SI brochure, NIST SP 811 appendix B. Excel's values for pounds,
// BTU (international table), horsepower, psi and atmospheres are these since 2013; older versions rounded some of them. mmHg and Torr
// (two values are in use), slugs, survey measures, electronvolts and light years are left out.
const definitions: readonly Definition[] = [
  ["m", "length", 1, 1],
  ["mi", "length", mile],
  ["Nmi", "length", 1852],
  ["in", "length", inch],
  ["ft", "length", foot],
  ["yd", "length", yard],
  ["ang", "length", 1e-10, 1],
  ["ell", "length", 45 * inch],
  ["Pica Picapt", "length", inch / 72],
  ["pica", "length", inch / 6],
  ["g", "mass", 1e-3, 1],
  ["lbm", "mass", pound],
  ["ozm", "mass", pound / 16],
  ["grain", "mass", pound / 7000],
  ["stone", "mass", pound * 14],
  ["cwt shweight", "mass", pound * 100],
  ["uk_cwt lcwt hweight", "mass", pound * 112],
  ["ton", "mass", pound * 2000],
  ["uk_ton LTON brton", "mass", pound * 2240],
  ["sec s", "time", 1, 1],
  ["mn min", "time", 60],
  ["hr", "time", 3600],
  ["day d", "time", 86_400],
  ["yr", "time", 365.25 * 86_400],
  ["Pa p", "pressure", 1, 1],
  ["atm at", "pressure", 101_325, 1],
  ["psi", "pressure", poundForce / inch ** 2],
  ["N", "force", 1, 1],
  ["lbf", "force", poundForce],
  ["pond", "force", 9.80665e-3, 1],
  ["dyn dy", "force", 1e-5, 1],
  ["J", "energy", 1, 1],
  ["Wh wh", "energy", 3600, 1],
  ["e", "energy", 1e-7, 1],
  ["c", "energy", 4.184, 1],
  ["cal", "energy", 4.1868, 1],
  ["BTU btu", "energy", 1055.05585262],
  ["flb", "energy", footPound],
  ["HPh hh", "energy", 550 * footPound * 3600],
  ["W w", "power", 1, 1],
  ["HP h", "power", 550 * footPound],
  ["PS", "power", 75 * 9.80665],
  ["T", "magnetism", 1, 1],
  ["ga", "magnetism", 1e-4, 1],
  ["bit", "information", 1, 1],
  ["byte", "information", 8, 1],
  ["l L lt", "volume", 1e-3, 1],
  ["m3 m^3", "volume", 1, 3],
  ["ft3 ft^3", "volume", foot ** 3],
  ["in3 in^3", "volume", inch ** 3],
  ["yd3 yd^3", "volume", yard ** 3],
  ["gal", "volume", gallon],
  ["qt", "volume", gallon / 4],
  ["pt us_pt", "volume", gallon / 8],
  ["cup", "volume", gallon / 16],
  ["oz", "volume", gallon / 128],
  ["tbs", "volume", gallon / 256],
  ["tsp", "volume", gallon / 768],
  ["tspm", "volume", 5e-6],
  ["uk_pt", "volume", ukPint],
  ["uk_qt", "volume", ukPint * 2],
  ["uk_gal", "volume", ukPint * 8],
  ["barrel", "volume", gallon * 42],
  ["GRT regton", "volume", 100 * foot ** 3],
  ["MTON", "volume", 40 * foot ** 3],
  ["m2 m^2", "area", 1, 2],
  ["ft2 ft^2", "area", foot ** 2],
  ["in2 in^2", "area", inch ** 2],
  ["yd2 yd^2", "area", yard ** 2],
  ["mi2 mi^2", "area", mile ** 2],
  ["ha", "area", 1e4],
  ["ar", "area", 100],
  ["uk_acre", "area", 4840 * yard ** 2],
  ["Morgen", "area", 2500],
  ["m/s m/sec", "speed", 1, 1],
  ["m/h m/hr", "speed", 1 / 3600, 1],
  ["mph", "speed", mile / 3600],
  ["kn", "speed", 1852 / 3600],
  ["K kel", "temperature", 1, 1],
  ["Rank", "temperature", 5 / 9],
];

const temperatures: readonly (readonly [string, Unit])[] = [
  ["C", { kind: "temperature", factor: 1, after: 273.15 }],
  ["cel", { kind: "temperature", factor: 1, after: 273.15 }],
  ["F", { kind: "temperature", factor: 5 / 9, before: -32, after: 273.15 }],
  ["fah", { kind: "temperature", factor: 5 / 9, before: -32, after: 273.15 }],
  ["Reau", { kind: "temperature", factor: 5 / 4, after: 273.15 }],
];

/** Units by name, in the letter case that Excel wants. */
const unitsOf: ReadonlyMap<string, Unit> = new Map<string, Unit>([
  ...definitions.flatMap(([names, kind, factor, metric]) =>
    names
      .split(" ")
      .map((name): readonly [string, Unit] => [
        name,
        metric === undefined ? { kind, factor } : { kind, factor, metric },
      ]),
  ),
  ...temperatures,
]);
