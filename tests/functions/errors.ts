import { expect } from "vitest";
import { longestMessage } from "../core/refusals";

/** Calls a cell function that must refuse, and gives the code and message that a person would see at the cell. */
export function refusal(call: () => unknown): { code: string; message: string } {
  try {
    call();
  } catch (error) {
    return errorIn(error);
  }
  return expect.fail("the function gave a result");
}

/** The code and message of an error that stands in one cell of a result; none is longer than a cell surely shows. */
export function errorIn(cell: unknown): { code: string; message: string } {
  const { code, message } = cell as { code: string; message: string };
  expect(message.length, message).toBeLessThanOrEqual(longestMessage);
  return { code, message };
}

export const column = (...values: unknown[]): unknown[][] => values.map((value) => [value]);

/** The cells of a result in reading order. */
export const cellsOf = (result: unknown[][]): unknown[] => result.flat();
