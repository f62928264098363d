import { columnOf, lettersOf } from "../blocks/address";

export const corners = { first: 8, last: 17 };
export const storeys = ["Ground floor", "Upper floor", "Top floor"] as const;
export const at = {
  area: 18,
  perimeter: 19,
  height: 20,
  volume: 21,
  walls: 22,
  tolerance: 25,
  call: 26,
  further: 27,
} as const;
export const results = { volume: 32, envelope: 33, floor: 34, perimeter: 35, height: 36, storeys: 37 } as const;

/** Columns of x, y and side of a storey, by its place. */
export function columnsOf(storey: number): readonly [x: string, y: string, side: string] {
  const x = columnOf("C") + 3 * storey;
  return [lettersOf(x), lettersOf(x + 1), lettersOf(x + 2)];
}

export const sides = storeys.map((_, index) => columnsOf(index)[2]);
export const across = (row: number) => sides.map((letter) => `${letter}${row}`);
