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
    if (!from || !to) return refuse(sentence`CONVERT from "${fromName}" to "${toName}"`);
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

// Exact by definition: the international yard (1959), BIPM SI brochure, NIST SP 811 appendix B. Pounds, atmospheres and what is
// made of them are left out: spreadsheet programs have used rounded values for them, and which Excel uses is not documented.
const definitions: readonly Definition[] = [
  ["m", "length", 1, 1],
  ["mi", "length", mile],
  ["Nmi", "length", 1852],
  ["in", "length", inch],
  ["ft", "length", foot],
  ["yd", "length", yard],
  ["g", "mass", 1e-3, 1],
  ["sec s", "time", 1, 1],
  ["mn min", "time", 60],
  ["hr", "time", 3600],
  ["day d", "time", 86_400],
  ["Pa p", "pressure", 1, 1],
  ["N", "force", 1, 1],
  ["dyn dy", "force", 1e-5, 1],
  ["J", "energy", 1, 1],
  ["Wh wh", "energy", 3600, 1],
  ["W w", "power", 1, 1],
  ["l L lt", "volume", 1e-3, 1],
  ["m3 m^3", "volume", 1, 3],
  ["ft3 ft^3", "volume", foot ** 3],
  ["in3 in^3", "volume", inch ** 3],
  ["yd3 yd^3", "volume", yard ** 3],
  ["gal", "volume", gallon],
  ["qt", "volume", gallon / 4],
  ["pt us_pt", "volume", gallon / 8],
  ["cup", "volume", gallon / 16],
  ["m2 m^2", "area", 1, 2],
  ["ft2 ft^2", "area", foot ** 2],
  ["in2 in^2", "area", inch ** 2],
  ["yd2 yd^2", "area", yard ** 2],
  ["mi2 mi^2", "area", mile ** 2],
  ["ha", "area", 1e4],
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
