import type { Exact } from "./decimal";
import { at, exact, sum } from "./decimal";

/** Area of a polygon from its corners x, y in order, by the shoelace rule; the unit is that of the corners, squared. */
export function polygonArea(corners: readonly (readonly [number, number])[]): Exact {
  const terms = corners.map((corner, index) => {
    const next = at(corners, (index + 1) % corners.length);
    return exact(corner[0]).times(exact(next[1])).minus(exact(next[0]).times(exact(corner[1])));
  });
  return sum(terms).dividedBy(2).abs();
}

/** Internal volume in m³: the sum of area times mean height; a negative area deducts. */
export function internalVolume(areas: readonly number[], heights: readonly number[]): Exact {
  return sum(areas.map((area, index) => exact(area).times(exact(at(heights, index)))));
}

/**
 * Standard uncertainty of a volume whose lengths are each known to a standard uncertainty u_L, by the law of propagation
 * (JCGM 100, 5.1.2), for one rectangular prism: the reference for the general case is a finite difference in the tests.
 */
export function prismVolumeUncertainty(length: number, width: number, height: number, lengthUncertainty: number): Exact {
  const [a, b, c] = [exact(length), exact(width), exact(height)];
  const squares = [b.times(c), a.times(c), a.times(b)].map((partial) => partial.times(exact(lengthUncertainty)).pow(2));
  return sum(squares).sqrt();
}
