import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { openWorkbook, verifyWorkbook, writeBack } from "../../src/workbook/index";
import { slow } from "../time-outs";
import { placeOf } from "./package";
import { sample } from "./sample";

/** Where each form names its house, and the sheets on which its example has readings or sizes. */
const forms = [
  ["mid-construction.xlsx", "Quick tests, Multi-point 1, Multi-point 2, Tape and retest"],
  ["multi-unit.xlsx", "Units, Runs"],
  ["logger-import.xlsx", "Log"],
] as const;

describe.each(forms)("readings of the example in %s", { timeout: slow }, (file, sheets) => {
  const form = sample(file);
  const warning = `Readings of the example are still on ${sheets}.`;

  it("are its own while the house is, and are named on the cover once it is another", () => {
    expect(form.typed().cell("Overview!B3")).not.toContain("example");
    expect(form.typed({ "Overview!C6": "Ash Lodge" }).cell("Overview!B3")).toBe(warning);
    expect(sample(`blank/${file}`).typed({ "Overview!C6": "Ash Lodge" }).cell("Overview!B3")).not.toContain("example");
  });

  it("are an error that verify finds", () => {
    const bytes = new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${file}`, import.meta.url)));
    const renamed = { sheet: 0, ...placeOf("C6"), value: "Ash Lodge" };
    const copy = writeBack(openWorkbook(bytes), [renamed]);
    const { findings } = verifyWorkbook(openWorkbook(copy), addInRegistry(), new Date("2026-12-01T09:00:00Z"));
    const found = findings.filter(({ kind }) => kind === "readings of the example");
    expect(found.map(({ severity }) => severity)).toEqual(["error"]);
    expect(found[0]?.what).toContain(sheets);
  });
});
