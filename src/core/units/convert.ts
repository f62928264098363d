import { require } from "../errors";
import { unitNamed, unitNames, type Unit } from "./units";

function known(name: string, argument: string): Unit {
  const unit = unitNamed(name);
  require(unit !== undefined, argument, `unknown unit "${name}"; known are ${unitNames().join(", ")}`);
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
  require(source.quantity ===
    target.quantity, "to", `${from} is a unit of ${source.quantity}, ${to} of ${target.quantity}; choose one of ${unitNames(source.quantity).join(", ")}`);
  if (source === target) return value;
  const inSI = value * source.factor + (source.offset ?? 0);
  if (source.quantity === "temperature") require(inSI >= 0, "value", `below absolute zero (got ${value})`);
  return (inSI - (target.offset ?? 0)) / target.factor;
}
