import type { ExampleArgument } from "../formula-text";

/** A call that can be pasted as it stands, and what it gives; a test runs each one through the built functions. */
export interface Example {
  readonly arguments: readonly ExampleArgument[];
  readonly gives: string;
}

export const examples: Readonly<Record<string, Example>> = {
  FLOORAREA: {
    arguments: [
      [
        [0, 0],
        [8, 0],
        [8, 6],
        [0, 6],
      ],
    ],
    gives: "48 m²",
  },
};
