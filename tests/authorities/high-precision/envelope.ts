import type { Exact } from "./decimal";
import { at, exact, sum } from "./decimal";

/** Area of a polygon from its corners x, y in order, by the shoelace rule; the unit is that of the corners, squared. */
export function polygonArea(corners: readonly (readonly [number, number])[]): Exact {
  const terms = corners.map((corner, index) => {
    const next = at(corners, (index + 1) % corners.length);
    return exact(corner[0])
      .times(exact(next[1]))
      .minus(exact(next[0]).times(exact(corner[1])));
  });
  return sum(terms).dividedBy(2).abs();
}

/** Internal volume in m³: the sum of area times mean height; a negative area deducts. */
export function internalVolume(areas: readonly number[], heights: readonly number[]): Exact {
  return sum(areas.map((area, index) => exact(area).times(exact(at(heights, index)))));
}

/**
 * Standard uncertainty of a sum of boxes with square plans whose two sides and height are each known to u, all independent, by the law
 * of propagation (JCGM 100, 5.1.2): every length enters by its partial derivative, side·height twice and the area once.
 */
export function volumeUncertainty(
  areas: readonly number[],
  heights: readonly number[],
  lengthUncertainty: Exact,
): Exact {
  const squares = areas.map((area, index) => {
    const side = exact(area).abs().sqrt();
    const bySide = side.times(exact(at(heights, index)));
    return bySide.pow(2).times(2).plus(exact(area).pow(2));
  });
  return sum(squares).sqrt().times(lengthUncertainty);
}
