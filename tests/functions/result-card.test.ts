import { describe, expect, test, vi } from "vitest";
import { airChangeRate, passFail, resultCard, testResult } from "../../src/functions";
import { cardSupport } from "../../src/functions/results/result-card";
import { column, refusal } from "./errors";

const pressures = column(-61, -52, -41, -31, -22);
const flows = column(272, 243, 209, 172, 138);
const settings = [
  ["volume", 420],
  ["flow basis", "actual at the fan"],
  ["indoor temperature", 21],
  ["outdoor temperature", 0],
];

interface Card {
  readonly basicValue: number;
  readonly properties: Readonly<
    Record<string, { readonly basicValue: unknown; readonly propertyMetadata?: { readonly sublabel: string } }>
  >;
  readonly layouts: { readonly card: { readonly sections: readonly { readonly properties: readonly string[] }[] } };
}

const cardOf = (own: unknown[][] = settings) =>
  resultCard("depressurization", pressures, flows, column(-1), column(-1.2), own) as Card;
const rows = testResult("depressurization", pressures, flows, column(-1), column(-1.2), settings) as unknown[][];

test("the card carries every row of TESTRESULT that has a value, its limits and its unit", () => {
  const { properties } = cardOf();
  for (const [, symbol, value, lower, upper, unit] of rows) {
    const name = symbol as string;
    if (value === "") expect(properties).not.toHaveProperty(name);
    else expect(properties[name]?.basicValue).toBe(value);
    if (lower !== "")
      expect([properties[`${name}_lower`]?.basicValue, properties[`${name}_upper`]?.basicValue]).toEqual([
        lower,
        upper,
      ]);
    if (value !== "" && unit === "Pa") expect(properties[name]?.propertyMetadata).toEqual({ sublabel: "Pa" });
  }
});

test("it is the number n50, or q50 without a volume, and other functions take it as such", () => {
  const card = cardOf();
  expect(card.basicValue).toBe(rows.find((row) => row[1] === "n50")?.[2]);
  expect(cardOf(settings.slice(1)).basicValue).toBe(rows.find((row) => row[1] === "q50")?.[2]);
  expect(passFail([[card]], [[0.6]])).toEqual([["pass"]]);
  expect(airChangeRate([[cardOf(settings.slice(1))]], [[420]])).toEqual([[card.basicValue]]);
});

test("the layout shows each property once", () => {
  const { layouts, properties } = cardOf();
  const shown = layouts.card.sections.flatMap((section) => section.properties);
  expect(shown.slice().sort()).toEqual(Object.keys(properties).sort());
});

test("errors are those of TESTRESULT", () => {
  expect(refusal(() => resultCard("depressurization", pressures, flows, column(-1), column(-1), [])).code).toBe("#N/A");
});

describe("whether the host takes cards", () => {
  const office = (isSetSupported: (name: string, version: string) => boolean) => ({
    context: { requirements: { isSetSupported } },
  });

  test.each([true, false])("is asked once, for the set that brings data types: %j", (supported) => {
    const isSetSupported = vi.fn<(name: string, version: string) => boolean>(() => supported);
    const takesCards = cardSupport(() => office(isSetSupported));
    expect([takesCards(), takesCards()]).toEqual([supported, supported]);
    expect(isSetSupported.mock.calls).toEqual([["CustomFunctionsRuntime", "1.4"]]);
  });

  test("is taken for granted where there is nobody to ask", () => {
    expect(cardSupport(() => undefined)()).toBe(true);
  });

  test("is asked again once Office is ready", () => {
    let ready = false;
    const takesCards = cardSupport(() => (ready ? office(() => false) : {}));
    expect(takesCards()).toBe(true);
    ready = true;
    expect(takesCards()).toBe(false);
  });

  test("decides between the card and its number", async () => {
    const numbers = [settings, settings.slice(1)].map((own) => cardOf(own).basicValue);
    vi.resetModules();
    vi.stubGlobal(
      "Office",
      office(() => false),
    );
    try {
      const { resultCard: inOldHost } = await import("../../src/functions/results/result-card");
      const inOld = (own: unknown[][]): unknown =>
        inOldHost("depressurization", pressures, flows, column(-1), column(-1.2), own);
      expect([settings, settings.slice(1)].map(inOld)).toEqual(numbers);
    } finally {
      vi.unstubAllGlobals();
    }
  });
});
