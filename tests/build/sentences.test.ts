import { expect, it } from "vitest";
import { splitIntoSentences, cutDescription } from "../../src/cli/metadata/rules";
import { writeFunctionsJson } from "../../src/cli/build/functions-json";
import { readAddress } from "../../src/cli/build/address";
import { readExcel } from "../../src/cli/build/excel";
import metadata from "../../src/functions/functions.json";

it("a sentence ends before a capital, a Greek letter or a quotation, not within a number, a clause or a symbol", () => {
  const text = 'Flow by ch. 16 with 0.65. "plain" is usual. ρ is dry. Ends here.';
  expect(splitIntoSentences(text)).toEqual([
    "Flow by ch. 16 with 0.65.",
    '"plain" is usual.',
    "ρ is dry.",
    "Ends here.",
  ]);
});

it("what is shown are whole sentences up to 255 characters, and nothing from the equation on", () => {
  const sentence = `${"x".repeat(99)}.`;
  const long = `F${sentence} G${sentence} H${sentence}`;
  expect(cutDescription(long)).toBe(`F${sentence} G${sentence}`);
  expect(cutDescription("Area. Equation: A = b·c. Source: a book. More.")).toBe("Area.");
  expect(cutDescription("Area. Columns: what, value. Other words.")).toBe("Area.");
});

it.each(["365", "perpetual"])(
  "functions.json of the build %s keeps every text within what Excel surely shows",
  (name) => {
    const excel = readExcel(name);
    const built = JSON.parse(
      writeFunctionsJson(metadata, excel, readAddress("https://example.org")),
    ) as typeof metadata;
    for (const { id, description, parameters } of built.functions) {
      expect(metadata.functions.find((listed) => listed.id === id)?.description.startsWith(description)).toBe(true);
      expect(description).toMatch(/^[^a-z].*\.$/);
      for (const text of [description, ...parameters.map((parameter) => parameter.description)])
        expect(text.length, text).toBeLessThanOrEqual(255);
      expect(description).not.toMatch(/(Equation|Source): /);
    }
  },
);
