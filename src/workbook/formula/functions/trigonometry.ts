import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, finite } from "../values/value";

const largestAngle = 2 ** 27;

const nearQuarter = "an angle so close to a quarter turn that rounding error decides";

/** Excel gives up on angles of 2^27 and more. */
const ofAngle = (compute: (angle: number) => number, zero?: "division") =>
  takes(["number"], ([angle]) => {
    if (Math.abs(angle) >= largestAngle) return errors.number;
    if (angle === 0) return zero ? errors.division : compute(angle);
    // Near a multiple of a quarter turn Excel's own value of π decides the digits: SIN(PI()) is not the same everywhere.
    const closest = Math.min(Math.abs(Math.sin(angle)), Math.abs(Math.cos(angle)));
    if (closest < 1e-8 * Math.abs(angle) && Math.abs(angle) > 0.5 && compute !== Math.cos && compute !== Math.sin)
      refuse(nearQuarter);
    const result = compute(angle);
    if (Math.abs(angle) > 0.5 && Math.abs(result) < 1e-8 * Math.abs(angle)) refuse(nearQuarter);
    return finite(result);
  });

const plain = (compute: (value: number) => number, allowed: (value: number) => boolean = () => true) =>
  takes(["number"], ([value]) => (allowed(value) ? finite(compute(value)) : errors.number));

const orDivision = (compute: (value: number) => number) =>
  takes(["number"], ([value]) => (value === 0 ? errors.division : finite(compute(value))));

/** Angles in radians, and hyperbolic functions. */
export const trigonometry: FunctionTable = {
  SIN: ofAngle(Math.sin),
  COS: ofAngle(Math.cos),
  TAN: ofAngle(Math.tan),
  SEC: ofAngle((angle) => 1 / Math.cos(angle)),
  CSC: ofAngle((angle) => 1 / Math.sin(angle), "division"),
  COT: ofAngle((angle) => 1 / Math.tan(angle), "division"),
  ASIN: plain(Math.asin, (value) => Math.abs(value) <= 1),
  ACOS: plain(Math.acos, (value) => Math.abs(value) <= 1),
  ATAN: plain(Math.atan),
  // Excel takes x before y.
  ATAN2: takes(["number", "number"], ([x, y]) => (x === 0 && y === 0 ? errors.division : Math.atan2(y, x))),
  ACOT: plain((value) => {
    if (Math.abs(value) <= 1) return Math.PI / 2 - Math.atan(value);
    return Math.atan(1 / value) + (value < 0 ? Math.PI : 0);
  }),
  SINH: plain(Math.sinh),
  COSH: plain(Math.cosh),
  TANH: plain(Math.tanh),
  SECH: plain((value) => 1 / Math.cosh(value)),
  CSCH: orDivision((value) => 1 / Math.sinh(value)),
  COTH: orDivision((value) => 1 / Math.tanh(value)),
  ASINH: plain(Math.asinh),
  ACOSH: plain(Math.acosh, (value) => value >= 1),
  ATANH: plain(Math.atanh, (value) => Math.abs(value) < 1),
  ACOTH: plain(
    (value) => Math.atanh(1 / value),
    (value) => Math.abs(value) > 1,
  ),
  RADIANS: plain((degrees) => (degrees / 180) * Math.PI),
  DEGREES: plain((radians) => (radians / Math.PI) * 180),
};
