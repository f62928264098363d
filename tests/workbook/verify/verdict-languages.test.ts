import { describe, expect, it } from "vitest";
import { slow } from "../../time-outs";
import { saidOf } from "./bare";
import { germanFirm } from "./firms/books";
import { claimsPass, saysPass, verdictWord } from "../../../src/workbook/verify/verdicts";

/** Words for a limit that is met and one that is not; the last firm has words of its own. */
const languages = [
  ["English", "pass", "fail"],
  ["German", "bestanden", "nicht bestanden"],
  ["French", "conforme", "non conforme"],
  ["Spanish", "cumple", "no cumple"],
  ["Italian", "superato", "non superato"],
  ["Dutch", "voldoet", "voldoet niet"],
  ["Polish", "spełnia", "nie spełnia"],
  ["colours", "green", "red"],
] as const;

describe("a verdict by comparison, whatever its words", { timeout: slow }, () => {
  it.each(languages)(
    "%s: honest, nothing is said; with a limit widened on the way, the step is found",
    (_, pass, fail) => {
      expect(saidOf(germanFirm(0.8, [pass, fail]).sheets)).toEqual([]);
      const { sheets } = germanFirm(0.8, [pass, fail]);
      const report = sheets["Bericht"];
      if (!report) throw new Error("no report");
      report["B6"] = { f: "E6*1.25" };
      report["E6"] = 0.8;
      expect(saidOf(sheets)).toContainEqual(expect.stringMatching(/^warning: .* in Bericht!B6/));
    },
  );

  it.each(languages.slice(0, -1))("%s: the words are known, typed in as well", (_, pass, fail) => {
    expect([saysPass(pass), claimsPass(pass), claimsPass(fail), saysPass(fail)]).toEqual([true, true, false, false]);
    expect([verdictWord.test(pass), verdictWord.test(fail)]).toEqual([true, true]);
    const { sheets } = germanFirm(0.8, [pass, fail]);
    const report = sheets["Bericht"];
    if (report) report["B8"] = pass;
    expect(saidOf(sheets)).toContainEqual(expect.stringMatching(/^error: verdict typed in in Bericht!B8/));
  });

  it.each([
    ["Das Gebäude hat bestanden", true],
    ["Das Gebäude hat nicht bestanden", false],
    ["Le bâtiment est conforme", true],
    ["Le bâtiment n'est pas conforme", false],
    ["El edificio cumple", true],
    ["Budynek nie spełnia wymagań", false],
    ["bestanden oder nicht", false],
  ])("%s: claims a pass: %s", (text, claims) => expect(claimsPass(text)).toBe(claims));
});
