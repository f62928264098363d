import { ensure, missing } from "../errors";

export interface Corner {
  readonly x: number;
  readonly y: number;
}

/** Twice the signed area of a triangle: above 0 where c lies left of the way from a to b. */
function turn(a: Corner, b: Corner, c: Corner): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/** True where p, on the line through a and b, lies between them. */
function isBetween(p: Corner, a: Corner, b: Corner): boolean {
  const within = (value: number, one: number, other: number) =>
    Math.min(one, other) <= value && value <= Math.max(one, other);
  return within(p.x, a.x, b.x) && within(p.y, a.y, b.y);
}

/** True where two walls share a point. */
function meet(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  const [toC, toD, toA, toB] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)];
  if (toC * toD < 0 && toA * toB < 0) return true;
  return (
    (toC === 0 && isBetween(c, a, b)) ||
    (toD === 0 && isBetween(d, a, b)) ||
    (toA === 0 && isBetween(a, c, d)) ||
    (toB === 0 && isBetween(b, c, d))
  );
}

const same = (a: Corner, b: Corner): boolean => a.x === b.x && a.y === b.y;

/**
 * Walls that cross or touch, and corners that appear twice, mean that the corners are not in order around one plan: the formula would silently give a wrong
 * area.
 */
function requireOutline(corners: readonly Corner[]): void {
  const count = corners.length;
  const corner = (index: number) => corners[index % count]!;
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      ensure(!same(corner(i), corner(j)), "corners", "sameCorner", { corner: j + 1, other: i + 1 });
    }
  }
  for (let i = 0; i < count; i++) {
    for (let j = i + 2; j < count; j++) {
      if (i === 0 && j === count - 1) continue;
      ensure(!meet(corner(i), corner(i + 1), corner(j), corner(j + 1)), "corners", "wallsMeet", {
        wall: i + 1,
        other: j + 1,
      });
    }
    const [before, here, after] = [corner(i), corner(i + 1), corner(i + 2)];
    const turnsBack = turn(before, here, after) === 0 && !isBetween(here, before, after);
    ensure(!turnsBack, "corners", "wallTurnsBack", { corner: ((i + 1) % count) + 1 });
  }
}

/**
 * Area of a plan from its corners in order around it, in the square of their unit (shoelace formula), in either sense of rotation.
 * Errors: fewer than three corners (missing), walls that cross or touch, a corner that appears twice, no area.
 * Source: Gauss's area formula.
 * Example: floorArea([{ x: 0, y: 0 }, { x: 8, y: 0 }, { x: 8, y: 3 }, { x: 5, y: 3 }, { x: 5, y: 9 }, { x: 0, y: 9 }]) → 54.0
 */
export function floorArea(corners: readonly Corner[]): number {
  // An outline may be closed by its first corner again.
  const isClosing = (corner: Corner, index: number) => index >= 3 && same(corner, corners[0]!);
  const last = corners.findLastIndex((corner, index) => !isClosing(corner, index));
  const outline = corners.slice(0, last + 1);
  if (outline.length < 3) {
    throw missing("corners", "tooFew", { least: 3, of: "corners", count: outline.length });
  }
  requireOutline(outline);
  const origin = outline[0]!;
  let doubled = 0;
  for (let i = 1; i + 1 < outline.length; i++) doubled += turn(origin, outline[i]!, outline[i + 1]!);
  ensure(Math.abs(doubled) > 0, "corners", "cornersOnLine");
  return Math.abs(doubled) / 2;
}
