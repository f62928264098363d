import { describe, expect, it } from "vitest";
import metadata from "../../src/functions/functions.json";
import * as functions from "../../src/functions/index";
import { labels } from "../../src/functions/settings/labels";
import { examples } from "../../src/functions/examples";
import { longestMessage } from "../core/refusals";

type Call = (...given: unknown[]) => unknown;
const code = new Map(Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body as Call]));

/** A page of text in a cell, as long as Excel takes. */
const page = "A remark that was pasted into the wrong cell. ".repeat(713).slice(0, 32_767);

/** The largest row of a sheet has seven digits; the rows of these calls have one. */
const moreDigits = 6;

function messagesOf(call: () => unknown): string[] {
  try {
    const result = call();
    const cells = Array.isArray(result) ? (result as unknown[]).flat() : [];
    return cells.flatMap((cell) => (cell instanceof Error ? [cell.message] : []));
  } catch (error) {
    return [(error as Error).message];
  }
}

function expectShort(messages: readonly string[]): void {
  for (const message of messages) expect(message.length + moreDigits, message).toBeLessThanOrEqual(longestMessage);
}

const sizes = [[10], [20], [30]];
const withSettings = (rows: readonly (readonly unknown[])[]) =>
  messagesOf(() => functions.testResult("pressurization", sizes, sizes, [[0]], undefined, rows as unknown[][]));

describe("a page of text where something else belongs gives a short message", () => {
  const calls = metadata.functions.flatMap(({ id, parameters }) =>
    parameters.map(({ name }, index) => ({ id, name, index, count: parameters.length })),
  );

  it.each(calls)("$id, $name", ({ id, index, count }) => {
    const values = examples[id]!.arguments;
    const given = Array.from({ length: count }, (_, at): unknown => values[at] ?? null);
    for (const wrong of [page, [[page]], [[page, page]], [[page], [page]], [[""], [page]]]) {
      given[index] = wrong;
      expectShort(messagesOf(() => code.get(id)!(...given)));
    }
    // In the second column too: settings, tables, several fans.
    given[index] = [[0.5, page]];
    expectShort(messagesOf(() => code.get(id)!(...given)));
  });
});

describe("settings", () => {
  it.each(Object.keys(labels))("%s: every wrong value, and every slip in its name, gives a short message", (label) => {
    for (const wrong of [page, "?", -1e300, 1e300, true]) expectShort(withSettings([[label, wrong]]));
    const slips = [label.slice(1), `${label}s`, label.replace(/ /g, ""), label.split(" ").reverse().join(" ")];
    for (const slip of slips) expectShort(withSettings([[`${slip} x`, 1]]));
  });

  it.each(["?", "zzz", page, `${page} volume`])("no label's answer lists them all: %.10s", (label) => {
    const [message = ""] = withSettings([[label, 1]]);
    expectShort([message]);
    expect(Object.keys(labels).filter((known) => message.includes(`"${known}"`)).length).toBeLessThanOrEqual(3);
  });

  it("what is missing is named with the words that it takes, in few of them", () => {
    const needed = ["flow basis", "indoor temperature", "outdoor temperature"];
    for (const lacking of needed)
      expectShort(
        withSettings(needed.filter((label) => label !== lacking).map((label) => [label, "through the envelope"])),
      );
    expectShort(messagesOf(() => functions.allowedLeakage([[0.6]], [])));
  });
});

describe("what a person typed is repeated so far that it is known again", () => {
  it("80 characters, the last of them a sign that there is more", () => {
    const [message = ""] = messagesOf(() => functions.airDensity([[page]]));
    expect(message).toBe(`temperature: a number is needed, not the text "${page.slice(0, 79)}…"`);
    const eighty = "x".repeat(80);
    expect(messagesOf(() => functions.airDensity([[eighty]]))[0]).toContain(`"${eighty}"`);
  });

  it("a unit that is known although it is typed with a page of blanks in it", () => {
    const [message = ""] = messagesOf(() => functions.convertUnits([[1]], `m^3${" ".repeat(3000)}/ h`, "inH2O 4 °C"));
    expect(message).toMatch(/^to: m\^3 \/ h is a unit of flow, inH2O 4 °C of pressure; choose one of m³\/h,/);
    expectShort([message]);
  });

  it("a check that cannot be judged, with texts that are not ours, stays short", () => {
    const checks: unknown[][] = functions.validityChecks("pressurization", sizes, sizes, [[0]]);
    const foreign = checks.map(([check, symbol, ...rest], index) =>
      index > 0
        ? [check, symbol, ...rest.slice(0, 4), "advisory", ...rest.slice(5)]
        : [page, symbol, "", "", "", "cannot be judged", "binding", "", page],
    );
    const [message = ""] = messagesOf(() =>
      functions.passFail([[0.5]], [[0.6]], undefined, undefined, undefined, foreign),
    );
    expect(message).toContain("cannot be judged yet");
    expectShort([message]);
  });
});
