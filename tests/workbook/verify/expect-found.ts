import { expect, it } from "vitest";
import { quoteSheetName } from "../../../src/workbook/book/address";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { stored } from "../../samples/workbook";
import { slow } from "../../time-outs";
import { addIn, Tampered } from "./tampered";
import type { Tampering } from "./tamperings/tampering";

const day = new Date("2026-11-02T09:00:00Z");

/** Plants each tampering in a copy of a sample workbook, that of a final test unless told otherwise, and expects the finding of its kind at its place. */
export function expectFound(tamperings: readonly Tampering[], sample: Uint8Array = stored): void {
  it.each(tamperings)("$what", { timeout: slow }, ({ kind, plant, keepsOldResults }) => {
    const workbook = new Tampered(sample);
    const place = plant(workbook);
    const { findings } = verifyWorkbook(workbook.open(!keepsOldResults), addIn, day);
    const ofKind = findings.filter((finding) => finding.kind === kind && finding.severity !== "note");
    const places = ofKind.map((finding) => finding.place);
    if (place instanceof RegExp) expect(places).toContainEqual(expect.stringMatching(place));
    else expect(places, JSON.stringify(findings, undefined, 1)).toContain(`${quoteSheetName(place[0])}!${place[1]}`);
  });
}
