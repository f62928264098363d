import fc from "fast-check";
import { describe, expect, it } from "vitest";
import metadata from "../../src/functions/functions.json";
import * as functions from "../../src/functions/index";
import { longestMessage } from "../core/refusals";
import { argumentOf, type Parameter } from "./random-calls/arguments";
import { damaged, damages } from "./random-calls/hostile";
import { house } from "./random-calls/house";
import { labels } from "./random-calls/settings";
import { slow } from "../time-outs";

const code = new Map(Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body as Call]));
type Call = (...args: unknown[]) => unknown;

/** Together with METHODVERSION, which takes nothing, fifty thousand calls. */
const callsInAll = 50_000;
const listed = metadata.functions.filter(({ parameters }) => parameters.length > 0);
const callsEach = Math.ceil(callsInAll / listed.length);

describe("fifty thousand random calls, sound and hostile", { timeout: slow }, () => {
  it.each(listed)("$id gives cells, or an error that names the argument", ({ id, parameters }) => {
    const call = code.get(id) as Call;
    const named = new Set([...parameters.map(({ name }) => name), "settings", "result"]);
    const faults = new Set<string>();
    let results = 0;
    const property = fc.property(house, damages, (from, done) => {
      const sound = (parameters as readonly Parameter[]).map((parameter, index) =>
        argumentOf(id, parameter, index, from),
      );
      const result = outcomeOf(() => call(...damaged(sound, done)));
      if (!(result instanceof Error)) results += 1;
      for (const fault of faultsIn(result, named)) faults.add(fault);
    });
    fc.assert(property, { numRuns: callsEach, seed: 20_261_125, endOnFailure: true });
    expect([...faults]).toEqual([]);
    // A generator that reaches no result would prove nothing.
    expect(results, "calls that gave a result").toBeGreaterThan(callsEach / 20);
  });
});

function outcomeOf(call: () => unknown): unknown {
  try {
    return call();
  } catch (error) {
    return error instanceof Error ? error : new Error(`thrown: ${String(error)}`);
  }
}

/** What must not reach a cell: NaN and Infinity, anything but numbers, text and errors, an error that names no argument, a ragged table. */
function faultsIn(result: unknown, named: ReadonlySet<string>): string[] {
  if (Array.isArray(result)) {
    const rows = result as readonly (readonly unknown[])[];
    const ragged = rows.length === 0 || rows.some((row) => row.length !== rows[0]?.length);
    return [...(ragged ? ["empty or ragged"] : []), ...rows.flat().flatMap((cell) => faultsIn(cell, named))];
  }
  if (result instanceof Error) return faultsInError(result, named);
  if (typeof result === "string") return [];
  if (typeof result === "object" && result !== null && "basicValue" in result) {
    const properties = Object.values((result as { properties?: object }).properties ?? {});
    return [result.basicValue, ...(properties as unknown[])].flatMap((value) => faultsIn(value, named));
  }
  return typeof result === "number" && Number.isFinite(result) ? [] : [`a cell holds ${String(result)}`];
}

function faultsInError(error: Error, named: ReadonlySet<string>): string[] {
  const { code: shown } = error as { code?: unknown };
  if (shown !== "#VALUE!" && shown !== "#N/A") return [`not an error of a cell: ${error.stack ?? error.message}`];
  const [, argument = ""] = /^(.*?)(?:, row \d+)?: ./s.exec(error.message) ?? [];
  if (error.message.length > longestMessage) return [`${error.message.length} characters: ${error.message}`];
  const known = named.has(argument) || argument.startsWith("settings, ") || labels.includes(argument);
  return known ? [] : [`names no argument: ${error.message.replaceAll(/\d[\d.e+-]*/g, "1")}`];
}
