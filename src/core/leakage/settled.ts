import { ensure } from "../errors";

const tolerance = 1e-13;
const mostSteps = 200;

/**
 * Repeats a step on the slope until it moves by no more than 1e-13 of itself. Errors: not settled after 200 steps; then no line is given rather than a guess.
 */
export function settled<Line extends { readonly exponent: number }>(
  start: number,
  step: (exponent: number) => Line,
): Line {
  let exponent = start;
  for (let count = 0; count < mostSteps; count++) {
    const line = step(exponent);
    if (Math.abs(line.exponent - exponent) <= tolerance * Math.abs(line.exponent)) return line;
    exponent = line.exponent;
  }
  ensure(
    false,
    "technique",
    `its line does not settle in ${mostSteps} steps: the stated uncertainties do not suit these readings`,
  );
}
