/** A number of the fingerprint and how many of its digits count. */
export interface Counted {
  readonly value: number;
  readonly digits: number;
}

/** So many places within a step are tried as its edge. */
export const edges = 200;

/**
 * A number cut down to `digits` significant ones, in steps whose edges lie at one of 200 places. Programs that save a workbook keep 15 digits and
 * round a 5 behind them up or down; where no number lies near an edge, all of them come to the same step.
 */
export function stepped(value: number, digits: number, edge: number): string {
  const { steps, power } = inSteps(value, digits);
  const text = `${value < 0 ? "-" : ""}${Math.floor(steps + shift(edge))}e${power}`;
  return String(Number(text) || 0);
}

/** The edge that all the numbers keep furthest away from. */
export function bestEdge(numbers: readonly Counted[]): number {
  const fractions = Float64Array.from(new Set(numbers.map(({ value, digits }) => inSteps(value, digits).steps % 1)));
  let [best, furthest] = [0, -1];
  for (let edge = 0; edge < edges; edge += 1) {
    let nearest = 1;
    for (const fraction of fractions) {
      const place = (fraction + shift(edge)) % 1;
      nearest = Math.min(nearest, place, 1 - place);
    }
    if (nearest > furthest) [best, furthest] = [edge, nearest];
  }
  return best;
}

const shift = (edge: number): number => (edge + 0.5) / edges;

function inSteps(value: number, digits: number): { readonly steps: number; readonly power: number } {
  const [mantissa = "0", exponent = "0"] = Math.abs(value).toExponential(14).split("e");
  return { steps: Number(mantissa) * Number(`1e${digits - 1}`), power: Number(exponent) - digits + 1 };
}
