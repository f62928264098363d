import { describe, expect, it } from "vitest";
import metadata from "../../src/functions/functions.json";
import * as functions from "../../src/functions/index";
import { examples } from "../../src/functions/examples";
import { longestMessage } from "../core/refusals";

type Call = (...given: unknown[]) => unknown;
const code = new Map(Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body as Call]));

/** A text that no message may repeat whole, as text and in the shapes in which a host hands over data types and errors. */
const long = "x".repeat(200_000);
const texts: readonly unknown[] = [
  long,
  `#${long}`,
  ` ${long} ${long}`,
  { basicValue: long },
  { type: "Error", basicType: "Error", basicValue: `#${long}` },
  { type: "Error", basicType: "Error", basicValue: long },
  { code: `#${long}` },
  { basicValue: { basicValue: long } },
  { type: long, basicType: long },
];

/** Numbers at the edges of what a computer holds. */
const numbers = [1.79e308, -1.79e308, 1e200, 1e155, -1e155, 1e-320, -5e-324, 0];

/** The cells of an argument, each replaced in turn; a single value is one cell. */
function* withCell(argument: unknown, value: unknown): Generator<unknown> {
  if (!Array.isArray(argument)) {
    yield value;
    return;
  }
  const rows = argument as readonly (readonly unknown[])[];
  for (const [row, cells] of rows.entries())
    for (const column of cells.keys())
      yield rows.map((old, at) => (at === row ? old.map((cell, place) => (place === column ? value : cell)) : old));
}

/** Every call of the function's example with one cell replaced, and with every number of one argument replaced. */
function* calls(id: string, count: number, value: unknown): Generator<unknown[]> {
  const sound = Array.from({ length: count }, (_, at): unknown => examples[id]!.arguments[at] ?? null);
  for (const [index, argument] of sound.entries()) {
    for (const changed of withCell(argument, value)) yield sound.with(index, changed);
    if (typeof value === "number") yield sound.with(index, everyNumber(argument, value));
  }
  if (typeof value === "number") yield sound.map((argument) => everyNumber(argument, value));
}

function everyNumber(argument: unknown, value: number): unknown {
  if (typeof argument === "number") return value;
  return Array.isArray(argument) ? argument.map((part: unknown) => everyNumber(part, value)) : argument;
}

function outcomeOf(id: string, given: readonly unknown[]): unknown {
  try {
    return code.get(id)!(...given);
  } catch (error) {
    return error;
  }
}

/** Every number and message of a result, those in a card included. */
function partsOf(result: unknown): (number | string)[] {
  if (typeof result === "number") return [result];
  if (result instanceof Error) return [result.message];
  return typeof result === "object" && result !== null ? Object.values(result).flatMap(partsOf) : [];
}

const listed = metadata.functions.map(({ id, parameters }) => ({ id, count: parameters.length }));

describe("a long text in any one cell", () => {
  it.each(listed)("is cut in the messages of $id", ({ id, count }) => {
    for (const text of texts)
      for (const given of calls(id, count, text))
        for (const part of partsOf(outcomeOf(id, given)))
          if (typeof part === "string") expect(part.length, part.slice(0, 300)).toBeLessThanOrEqual(longestMessage);
  });
});

describe("a number near the edge in one cell, one argument or all", () => {
  it.each(listed)("gives no number that is not finite in $id", ({ id, count }) => {
    for (const value of numbers)
      for (const given of calls(id, count, value))
        for (const part of partsOf(outcomeOf(id, given)))
          if (typeof part === "number") expect(Number.isFinite(part), JSON.stringify(given)).toBe(true);
  });

  it("says so in place of Infinity and NaN", () => {
    const tooLarge = "result: too large or too small to calculate with";
    const corners = [
      [0, 0],
      [1.79e308, 0],
      [12.4, 5.6],
      [7.8, 5.6],
      [7.8, 9.2],
      [0, 9.2],
    ];
    for (const result of [
      outcomeOf("FLOORAREA", [corners]),
      outcomeOf("ENVELOPEVOLUME", [[[1.79e308]], [[1.79e308]]]),
      outcomeOf("BASELINEPRESSURE", [[[1.79e308], [1.79e308]]]),
    ])
      expect((result as Error).message).toBe(tooLarge);
  });
});
