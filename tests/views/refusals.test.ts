import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readProblem } from "../../src/views/context";
import { Refused } from "../../src/views/conversation";
import { Desk } from "../../src/views/desk/desk";
import { Refusal } from "../../src/views/desk/refusal";
import { english } from "../../src/views/words/english";
import { french } from "../../src/views/words/french";
import { issued } from "../workbook/issue-copy/issued";
import { slow } from "../time-outs";

/** As the worker hands on what the desk throws. */
function catchRefused(ask: () => unknown): Refused {
  try {
    ask();
  } catch (problem) {
    if (problem instanceof Refusal) return new Refused(problem.message, problem.data);
    throw problem;
  }
  throw new Error("not refused");
}

describe("what the desk refuses", { timeout: slow }, () => {
  const desk = new Desk();
  const bytes = new Uint8Array(readFileSync("sample-workbooks/final-test.xlsx"));
  desk.open(1, "final-test.xlsx", bytes);
  desk.open(2, "issued.xlsx", issued(bytes).bytes);
  const volume = desk.listInputs(1).find(({ address }) => address === "Rooms!D8")!;
  const type = (text: string) => () => desk.tryOut(1, [{ ...volume, text }]);

  it.each([
    [
      "a workbook that is not open",
      () => desk.drawGraph(9, 0),
      "the workbook is not open",
      "le classeur n’est pas ouvert",
    ],
    [
      "a cell that is none",
      () => desk.trace(1, "Nowhere!A1"),
      "no cell Nowhere!A1",
      "la cellule Nowhere!A1 n’existe pas",
    ],
    [
      "an ambiguous comma",
      type("1,300"),
      'Rooms!D8, "1,300": this may be 1300',
      'Rooms!D8, "1,300" : cela peut être 1300',
    ],
    ["a formula", type("=2*3"), "only values can be set", "on ne peut saisir que des valeurs"],
    [
      "another unit",
      type("3 Pa"),
      "the cell is in m, not in a unit like Pa",
      "la cellule est en m, pas dans une unité comme Pa",
    ],
    ["a second issue", () => desk.makeIssueCopy(2), "already an issue copy", "déjà une copie remise"],
  ])("%s is said in the language of the page", (_, ask, inEnglish, inFrench) => {
    const refused = catchRefused(ask);
    expect(readProblem({ words: english }, refused)).toContain(inEnglish);
    expect(readProblem({ words: french }, refused)).toContain(inFrench);
  });
});
