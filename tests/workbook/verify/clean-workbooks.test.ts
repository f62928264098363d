import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { recipes } from "../../../sample-workbooks/recipes";
import { openWorkbook } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { addIn } from "./tampered";
import { slow } from "../../time-outs";

const day = new Date("2026-11-02T09:00:00Z");
const reviewed = (bytes: Uint8Array) => verifyWorkbook(openWorkbook(bytes), addIn, day);

describe("the sample workbooks", { timeout: slow }, () => {
  it.each(recipes.map(({ file }) => file))("%s: nothing is an error or a warning, and all is recomputed", (file) => {
    const { findings, formulaCells, evaluatedCells } = reviewed(
      new Uint8Array(readFileSync(new URL(`../../../sample-workbooks/${file}`, import.meta.url))),
    );
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
    expect(evaluatedCells).toBe(formulaCells);
    expect(formulaCells).toBeGreaterThan(50);
  });
});
