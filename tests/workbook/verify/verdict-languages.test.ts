import { describe, expect, it } from "vitest";
import { slow } from "../../time-outs";
import { ownSheet, put, saidOf, type Cells } from "./bare";
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
  ["Swedish", "godkänd", "underkänd"],
  ["Portuguese", "aprovado", "reprovado"],
  ["Czech", "vyhovuje", "nevyhovuje"],
  ["Finnish", "hyväksytty", "hylätty"],
  ["Chinese", "合格", "不合格"],
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
    ["Complies", true],
    ["Huset är godkänt", true],
    ["Huset är inte godkänt", false],
    ["O edifício não cumpre", false],
    ["Dům vyhovuje", true],
    ["Talo ei täytä vaatimusta", false],
  ])("%s: claims a pass: %s", (text, claims) => expect(claimsPass(text)).toBe(claims));
});

describe("under a fail", { timeout: slow }, () => {
  /** The firm's own sheet, whose house fails by PASSFAIL, with more cells. */
  const saidBeside = (more: Cells): string[] =>
    saidOf({
      Test: ownSheet({}, (cells) => {
        put(cells, "A52", ["limit", 0.6], "across");
        cells["B53"] = { f: 'IF(COUNTIF(AF44:AF118,"not met")>90,"not valid","valid")' };
        put(cells, "A54", ["verdict", { f: "_xldudf_STILLAIR_PASSFAIL(B50,B52,,,,B53)" }], "across");
        Object.assign(cells, more);
      }),
    });

  it.each([
    "Result: PASS",
    "Ergebnis: bestanden",
    "Das Haus erfüllt die Anforderung.",
    "Complies",
    "Requirement satisfied",
    "Godkänd",
    "Aprovado",
    "Vyhovuje",
    "Hyväksytty",
  ])("the typed words %s are found", (text) =>
    expect(saidBeside({ B56: text })).toEqual([expect.stringMatching(/^warning: verdict misreported in Test!B56/)]),
  );

  it("a typed ✓ is found beside the label of a verdict, and left alone in a list of what was done", () => {
    expect(saidBeside({ A56: "Ergebnis", B56: "✓" })).toEqual([
      expect.stringMatching(/^warning: verdict misreported in Test!B56/),
    ]);
    expect(
      saidBeside({ A56: "windows closed", B56: "✓", A57: "Zähler geprüft: ja", B57: "not valid", B58: "pass" }),
    ).toEqual([]);
  });

  it.each([
    ["", "合格", "不合格"],
    ["", "grün", "rot"],
    ["", "✓", "✗"],
    ["", "pass", "fail"],
    ["Grenzwert eingehalten", "ja", "nein"],
  ])("%s: a comparison turned round shows %s instead of %s", (label, pass, fail) => {
    const shown = (formula: string) => {
      const said = saidBeside({ A56: label, B56: { f: formula } });
      return said.filter((line) => line.startsWith("error: verdict misreported in Test!B56"));
    };
    expect(shown(`IF(B50>B52,"${pass}","${fail}")`)).toHaveLength(1);
    expect(shown(`IF(B52>=B50,"${fail}","${pass}")`)).toHaveLength(1);
    expect(shown(`IF(B50<=B52,"${pass}","${fail}")`)).toEqual([]);
  });

  it.each([
    ["limit exceeded", "yes", "no"],
    ["Grenzwert überschritten", "ja", "nein"],
    ["", "ja", "nein"],
  ])("%s: %s where the result is above the limit is no pass", (label, above, below) =>
    expect(saidBeside({ A56: label, B56: { f: `IF(B50>B52,"${above}","${below}")` } })).toEqual([]),
  );

  it("words that nobody knows are told by the other comparisons of the workbook", () => {
    const [honest, turned] = ['IF(B50<=B52,"A","Z")', 'IF(B50>B52,"A","Z")'];
    const said = saidBeside({ D56: { f: honest }, D57: { f: turned }, D58: { f: honest } });
    expect(said).toEqual([expect.stringMatching(/^error: verdict misreported in Test!D57: .*Test!D56 shows it where/)]);
    expect(saidBeside({ D56: { f: honest }, D57: { f: honest } })).toEqual([]);
  });

  it("an answer to the question whether the limit is met, beside one to the contrary question, is no contradiction", () => {
    const met = { A56: "limit met", B56: { f: 'IF(B50<=B52,"yes","no")' } };
    expect(saidBeside({ ...met, A57: "above the limit", B57: { f: 'IF(B50>B52,"yes","no")' } })).toEqual([]);
  });
});
