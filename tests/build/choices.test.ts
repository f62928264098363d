import { describe, expect, it } from "vitest";
import metadata from "../../src/functions/functions.json";
import * as functions from "../../src/functions/index";
import { examples } from "../../src/functions/examples";

type Call = (...given: unknown[]) => unknown;
const code = new Map(Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body as Call]));

interface Parameter {
  readonly name: string;
  readonly type: string;
  readonly dimensionality?: string;
  readonly customEnumId?: string;
}

/** Every parameter that takes one value; all of them take words. */
const choices = metadata.functions.flatMap(({ id, parameters }) =>
  (parameters as readonly Parameter[]).flatMap((parameter, index) =>
    parameter.dimensionality === "matrix" ? [] : [{ id, parameter, index, name: parameter.name }],
  ),
);
const wordsOf = (list: string | undefined) => metadata.enums.find(({ id }) => id === list)?.values ?? [];

/** The message of a call that refuses, "" of one that gives a result. */
function messageOf(id: string, given: readonly unknown[]): string {
  try {
    code.get(id)!(...given);
    return "";
  } catch (error) {
    return (error as Error).message;
  }
}

describe("suggestion lists", () => {
  it("every parameter of one word has one, for texts: Excel gives no list to another type", () => {
    expect(choices.length).toBeGreaterThanOrEqual(38);
    expect(choices.filter(({ parameter }) => parameter.type !== "string" || !parameter.customEnumId)).toEqual([]);
  });

  it("every list is used, and its ids are what Excel takes", () => {
    expect(metadata.enums.map(({ id }) => id)).toEqual(
      [...new Set(choices.map(({ parameter }) => parameter.customEnumId))].sort(),
    );
    // Microsoft, "enum object" of the app manifest: 3 to 64 letters, numbers, periods and underscores.
    for (const { id } of metadata.enums) expect(id).toMatch(/^[A-Za-z][\w.]{2,63}$/);
  });

  it.each(metadata.enums)("each word of $id has a meaning, which is not the word again", ({ values }) => {
    expect(values.length).toBeGreaterThan(1);
    for (const { name, stringValue, tooltip } of values) {
      expect(name).toBe(stringValue);
      expect(tooltip.trim().length).toBeGreaterThan(3);
      expect(tooltip.toLowerCase()).not.toBe(stringValue.toLowerCase());
    }
  });

  it.each(choices)("$id takes each word of its list for $name, and no other", ({ id, parameter, index }) => {
    const { name, customEnumId } = parameter;
    const messageWith = (word: string) => {
      const given: unknown[] = examples[id]!.arguments.map((value) => (typeof value === "number" ? [[value]] : value));
      while (given.length < index) given.push(null);
      given[index] = word;
      return messageOf(id, given);
    };
    // Beside a word, another argument of the example may no longer fit: a pressure that a definition fixes, a unit of another quantity.
    const refused = wordsOf(customEnumId).filter(({ stringValue }) =>
      /not one of|unknown unit/.test(messageWith(stringValue)),
    );
    expect(refused).toEqual([]);
    expect(messageWith("no such word")).toMatch(new RegExp(`^${name}: .*no such word`));
  });

  it.each(["FITRESIDUALS", "FLOWEXPONENT", "LEAKAGECOEFFICIENT"])(
    "%s fits by each technique that it suggests",
    (id) => {
      const [pressures, flows] = examples[id]!.arguments;
      for (const { stringValue } of wordsOf("technique_without_uncertainties"))
        expect(messageOf(id, [pressures, flows, stringValue])).toBe("");
      expect(messageOf(id, [pressures, flows, "errors in both"])).not.toBe("");
    },
  );

  it("CONVERTUNITS knows each unit that it suggests, to itself and back", () => {
    for (const { stringValue } of wordsOf("unit"))
      expect(functions.convertUnits([[300]], stringValue, stringValue)).toEqual([[300]]);
  });
});

describe("words in other forms", () => {
  it("a logical value is yes or no, also where the host hands it over as text", () => {
    const rows = (headings: unknown) =>
      functions.onePointFlow([[500]], [[50]], undefined, undefined, undefined, headings as string).length;
    expect([true, "TRUE", "true", "yes"].map(rows)).toEqual([2, 2, 2, 2]);
    expect([false, "FALSE", "no", "", "0", null].map(rows)).toEqual([1, 1, 1, 1, 1, 1]);
  });
});
