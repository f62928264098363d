import { MethodError, ensure } from "../errors";

export interface Corner {
  readonly x: number;
  readonly y: number;
}

/** Twice the signed area of a triangle: above 0 where c lies left of the way from a to b. */
function turn(a: Corner, b: Corner, c: Corner): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

function cross(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** Walls that cross mean that the corners are not in order; the formula would give a wrong area without a sign of it. */
function requireOutline(corners: readonly Corner[]): void {
  const wall = (index: number) => [corners[index]!, corners[(index + 1) % corners.length]!] as const;
  for (let i = 0; i < corners.length; i++) {
    for (let j = i + 2; j < corners.length; j++) {
      ensure(
        !cross(...wall(i), ...wall(j)),
        "corners",
        () => `wall ${i + 1} crosses wall ${j + 1}: list the corners in order around the plan`,
      );
    }
  }
}

/**
 * Area of a plan from its corners in order around it, in the square of their unit (shoelace formula), in either sense of rotation.
 * Errors: fewer than three corners (missing), walls that cross, no area.
 * Source: Gauss's area formula.
 */
export function floorArea(corners: readonly Corner[]): number {
  if (corners.length < 3)
    throw new MethodError("missing", "corners", `a plan needs three corners, ${corners.length} so far`);
  requireOutline(corners);
  const origin = corners[0]!;
  let doubled = 0;
  for (let i = 1; i + 1 < corners.length; i++) doubled += turn(origin, corners[i]!, corners[i + 1]!);
  ensure(Math.abs(doubled) > 0, "corners", "the corners lie on one line");
  return Math.abs(doubled) / 2;
}
