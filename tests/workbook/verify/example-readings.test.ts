import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import {
  type CellPatch,
  type CellValue,
  fillForm,
  openWorkbook,
  parsePlace,
  verifyWorkbook,
} from "../../../src/workbook/index";
import { slow } from "../../time-outs";

const addIn = addInRegistry();
const sample = openWorkbook(new Uint8Array(readFileSync("sample-workbooks/final-test.xlsx")));

/** What verify says of the example's entries after cells were typed anew, by severity. */
function review(typed: Readonly<Record<string, CellValue>>): string[] {
  const patches = Object.entries(typed).map(([address, value]): CellPatch => {
    const [name = "", cell = ""] = address.split("!");
    const sheet = sample.book.sheets.findIndex((one) => one.name === name);
    return { sheet, ...parsePlace(cell)!, value };
  });
  const { findings } = verifyWorkbook(openWorkbook(fillForm(sample, patches, addIn)), addIn, new Date(2026, 10, 20));
  return findings
    .filter(({ kind }) => kind === "readings of the example")
    .map(({ severity, what }) => `${severity}: ${what}`);
}

const anotherHouse = {
  "Cover!C6": "Ash Lodge",
  "Cover!C7": "5 Dune End",
  "Cover!C8": "Ludo Marram",
  "Cover!G9": "AL-7",
};

describe("entries of the example in another house", { timeout: slow }, () => {
  it("are errors where they make the result, warnings where they make the report", () => {
    const [first = "", second = "", ...more] = review(anotherHouse);
    expect(first).toMatch(
      /^error: .*rooms or readings .* Rooms, Depressurization, Depressurization 2, Pressurization\.$/,
    );
    expect(second).toMatch(/^warning: .*lists .* Preparation, Firm\.$/);
    expect(more).toEqual([]);
  });

  it("are none of a reviewer's business while the house is the example's", () =>
    expect(review({ "Rooms!D8": 4.25 })).toEqual([]));
});
