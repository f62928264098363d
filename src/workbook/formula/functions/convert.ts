import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, finite } from "../values/value";
import { unitsOf, type Unit } from "./units";
import { sentence } from "../../file/problem";

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

function unitOf(name: string): Unit | undefined {
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
  CONVERT: takes(["number", "text", "text"], ([value, fromName, toName]) => {
    const from = unitOf(fromName);
    const to = unitOf(toName);
    if (!from || !to) return refuse(sentence`CONVERT from "${fromName}" to "${toName}"`);
    if (from.kind !== to.kind) return errors.notAvailable;
    if (from === to || fromName === toName) return value;
    const inBase = (value + (from.before ?? 0)) * from.factor + (from.after ?? 0);
    return finite((inBase - (to.after ?? 0)) / to.factor - (to.before ?? 0));
  }),
};
