import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { recipes } from "../../../sample-workbooks/recipes";
import { openWorkbook } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { bytesOf, folder, present, workbooks } from "../reference-workbooks";
import { addIn } from "./tampered";

const day = new Date("2026-11-02T09:00:00Z");
const reviewed = (bytes: Uint8Array) => verifyWorkbook(openWorkbook(bytes), addIn, day);

describe("the sample workbooks", () => {
  it.each(recipes.map(({ file }) => file))("%s: nothing is wrong or doubtful, and all is recomputed", (file) => {
    const { findings, formulaCells, evaluatedCells } = reviewed(
      new Uint8Array(readFileSync(new URL(`../../../sample-workbooks/${file}`, import.meta.url))),
    );
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
    expect(evaluatedCells).toBe(formulaCells);
    expect(formulaCells).toBeGreaterThan(50);
  });
});

describe.skipIf(!present)(
  present
    ? "workbooks saved by Excel"
    : `no workbooks in ${folder}: that verify cries wolf on none of them is not tested`,
  () => {
    it("there are some", () => expect(workbooks.length).toBeGreaterThan(50));

    // Many hold functions that are not on the list, which is doubtful by right; nothing in them is wrong.
    it.each(workbooks)("%s: nothing is said to be wrong", (name) => {
      const { findings } = reviewed(bytesOf(name));
      expect(findings.filter(({ severity }) => severity === "wrong")).toEqual([]);
    });
  },
);
