import { expect, it } from "vitest";
import { tokens } from "../../src/workbook/palette";

it("sets every colour anew for paper, so that a page read in the dark prints in colours for a white ground", () => {
  const [, dark = "", print = ""] = tokens.split("@media");
  const listNames = (block: string): string[] => [...block.matchAll(/--[a-z]+(?=:)/g)].map(([name]) => name).sort();
  expect(listNames(dark).length).toBeGreaterThan(8);
  expect(listNames(print)).toEqual(listNames(dark));
});
