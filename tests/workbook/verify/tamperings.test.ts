import { quotedSheetName } from "../../../src/workbook/formula/address";
import { openWorkbook } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { describe, expect, it } from "vitest";
import { stored } from "../../samples/workbook";
import { addIn, Tampered } from "./tampered";
import { appearance } from "./tamperings/appearance";
import { formulas } from "./tamperings/formulas";
import { readings } from "./tamperings/readings";
import { results } from "./tamperings/results";
import { verdicts } from "./tamperings/verdicts";

const day = new Date("2026-11-02T09:00:00Z");
const groups = { results, formulas, readings, verdicts, appearance };

describe.each(Object.entries(groups))("tampering: %s", (_, tamperings) => {
  it.each(tamperings)("$what", ({ kind, plant, keepsOldResults }) => {
    const workbook = new Tampered(stored);
    const place = plant(workbook);
    const { findings } = verifyWorkbook(openWorkbook(workbook.bytes(!keepsOldResults)), addIn, day);
    const ofKind = findings.filter((finding) => finding.kind === kind && finding.severity !== "note");
    const places = ofKind.map((finding) => finding.place);
    if (place instanceof RegExp) expect(places).toContainEqual(expect.stringMatching(place));
    else expect(places, JSON.stringify(findings, undefined, 1)).toContain(`${quotedSheetName(place[0])}!${place[1]}`);
  });
});

describe("the list of tamperings", () => {
  it("holds at least sixty, each of its own", () => {
    const all = Object.values(groups).flat();
    expect(new Set(all.map(({ what }) => what)).size).toBe(all.length);
    expect(all.length).toBeGreaterThanOrEqual(60);
  });
});
