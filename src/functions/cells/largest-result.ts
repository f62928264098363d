import { MethodError } from "../../core/index";

/**
 * Excel carries 5 MB a call; a larger result stays at #BUSY!, with no error. 100 000 numbers are about 2 MB as text, which leaves room for words and errors
 * among them.
 */
const mostCells = 100_000;

/** 1048576 as "1 048 576". */
function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, " ");
}

/**
 * Refuses a result that Excel could not carry, before it is computed.
 * Errors: more than 100 000 cells; names the argument whose size makes it so large, and what to do.
 */
export function requireCarried(
  cells: number,
  argument: string,
  todo = "give the rows in use, as A2:A500, not a whole column",
): void {
  if (cells <= mostCells) return;
  const rule = `the result would have ${grouped(cells)} cells, more than the ${grouped(mostCells)} that Excel carries; ${todo}`;
  throw new MethodError("invalid", argument, rule);
}
