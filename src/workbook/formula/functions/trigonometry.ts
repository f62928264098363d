import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, requireFinite } from "../values/value";

const largestAngle = 2 ** 27;

const nearQuarter = "an angle so close to a quarter turn that rounding error decides";

/** Excel does not compute angles of 2^27 and more. */
const defineOnAngle = (compute: (angle: number) => number, zero?: "division") =>
  takes(["number"], ([angle]) => {
    if (Math.abs(angle) >= largestAngle) return errors.number;
    if (angle === 0) return zero ? errors.division : compute(angle);
    // Near a multiple of a quarter turn Excel's own value of π decides the digits: SIN(PI()) is not the same everywhere.
    const closest = Math.min(Math.abs(Math.sin(angle)), Math.abs(Math.cos(angle)));
    if (closest < 1e-8 * Math.abs(angle) && Math.abs(angle) > 0.5 && compute !== Math.cos && compute !== Math.sin)
      refuse(nearQuarter);
    const result = compute(angle);
    if (Math.abs(angle) > 0.5 && Math.abs(result) < 1e-8 * Math.abs(angle)) refuse(nearQuarter);
    return requireFinite(result);
  });

const defineOnNumber = (compute: (value: number) => number, allowed: (value: number) => boolean = () => true) =>
  takes(["number"], ([value]) => (allowed(value) ? requireFinite(compute(value)) : errors.number));

const defineUnlessZero = (compute: (value: number) => number) =>
  takes(["number"], ([value]) => (value === 0 ? errors.division : requireFinite(compute(value))));

/** Angles in radians, and hyperbolic functions. */
export const trigonometry: FunctionTable = {
  SIN: defineOnAngle(Math.sin),
  COS: defineOnAngle(Math.cos),
  TAN: defineOnAngle(Math.tan),
  SEC: defineOnAngle((angle) => 1 / Math.cos(angle)),
  CSC: defineOnAngle((angle) => 1 / Math.sin(angle), "division"),
  COT: defineOnAngle((angle) => 1 / Math.tan(angle), "division"),
  ASIN: defineOnNumber(Math.asin, (value) => Math.abs(value) <= 1),
  ACOS: defineOnNumber(Math.acos, (value) => Math.abs(value) <= 1),
  ATAN: defineOnNumber(Math.atan),
  // Excel takes x before y.
  ATAN2: takes(["number", "number"], ([x, y]) => (x === 0 && y === 0 ? errors.division : Math.atan2(y, x))),
  ACOT: defineOnNumber((value) => {
    if (Math.abs(value) <= 1) return Math.PI / 2 - Math.atan(value);
    return Math.atan(1 / value) + (value < 0 ? Math.PI : 0);
  }),
  SINH: defineOnNumber(Math.sinh),
  COSH: defineOnNumber(Math.cosh),
  TANH: defineOnNumber(Math.tanh),
  SECH: defineOnNumber((value) => 1 / Math.cosh(value)),
  CSCH: defineUnlessZero((value) => 1 / Math.sinh(value)),
  COTH: defineUnlessZero((value) => 1 / Math.tanh(value)),
  ASINH: defineOnNumber(Math.asinh),
  ACOSH: defineOnNumber(Math.acosh, (value) => value >= 1),
  ATANH: defineOnNumber(Math.atanh, (value) => Math.abs(value) < 1),
  ACOTH: defineOnNumber(
    (value) => Math.atanh(1 / value),
    (value) => Math.abs(value) > 1,
  ),
  RADIANS: defineOnNumber((degrees) => (degrees / 180) * Math.PI),
  DEGREES: defineOnNumber((radians) => (radians / Math.PI) * 180),
};
