import { ensure } from "../errors";
import { unitNamed, unitNames, type Unit } from "./units";

function known(name: string, argument: string): Unit {
  const unit = unitNamed(name);
  ensure(unit !== undefined, argument, () => `unknown unit "${name.slice(0, 80)}"`);
  return unit;
}

/**
 * Converts a value from one unit to another of the same quantity.
 * Errors: an unknown unit, units of different quantities, a temperature below absolute zero.
 * Source: NIST SP 811 (2008), appendix B; the foot, inch, pound, mile and nautical mile are exact, the inch of mercury is conventional.
 */
export function convertUnits(value: number, from: string, to: string): number {
  const source = known(from, "from");
  const target = known(to, "to");
  ensure(source.quantity === target.quantity, "to", () => {
    const fitting = unitNames(source.quantity).join(", ");
    // A name is known with any number of blanks or dots in it.
    const [given, wanted] = [from, to].map((name) => name.replace(/\s+/g, " ").slice(0, 40));
    return `${given} is a unit of ${source.quantity}, ${wanted} of ${target.quantity}; choose one of ${fitting}`;
  });
  const base = (value - (source.zero ?? 0)) * source.factor;
  if (source.quantity === "temperature") ensure(base >= -273.15, "value", () => `below absolute zero (got ${value})`);
  return source === target ? value : base / target.factor + (target.zero ?? 0);
}
