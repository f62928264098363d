import { expect } from "vitest";

/** Calls a cell function that must refuse, and gives the code and message that a person would see at the cell. */
export function refusal(call: () => unknown): { code: string; message: string } {
  try {
    call();
  } catch (error) {
    const { code, message } = error as { code: string; message: string };
    return { code, message };
  }
  return expect.fail("the function gave a result");
}

/** The code and message of an error that stands in one cell of a result. */
export function errorIn(cell: unknown): { code: string; message: string } {
  const { code, message } = cell as { code: string; message: string };
  return { code, message };
}

export const column = (...values: unknown[]): unknown[][] => values.map((value) => [value]);

/** The cells of a result in reading order. */
export const cellsOf = (result: unknown[][]): unknown[] => result.flat();
