import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { InputAnswer } from "../../src/views/desk/answers";
import * as functions from "../../src/functions/index";
import metadata from "../../src/functions/functions.json";
import { Desk } from "../../src/views/desk/desk";
import { openCells } from "../../src/views/desk/opened";
import { readTyped } from "../../src/views/desk/typed";
import { registerFunctions } from "../../src/workbook/index";
import { slow } from "../time-outs";

const desk = new Desk();

function findInput(id: number, address: string): InputAnswer {
  const input = desk.listInputs(id).find((one) => one.address === address);
  if (!input) throw new Error(`no input ${address}`);
  return input;
}

describe("what is typed over the inputs of a final test", { timeout: slow }, () => {
  beforeAll(() => {
    desk.open(1, "final-test.xlsx", readFileSync("sample-workbooks/final-test.xlsx"));
  }, slow);

  it("changes nothing where every input keeps the text that its cell shows", () => {
    const unedited = desk.listInputs(1).map((input) => ({ ...input, text: input.shown }));
    const { changed, verdicts, summary } = desk.tryOut(1, unedited);
    expect(changed).toBe(0);
    for (const { before, after } of [...verdicts, ...summary]) expect(after).toBe(before);
    expect(desk.makeChangedCopy(1, unedited).notes).toEqual(["0 cells changed."]);
  });

  it.each(["16 October 2026", "16.10.2026"])("reads %s as a day", (text) => {
    const day = findInput(1, "Cover!G6");
    expect(day.shown).toMatch(/^\d+ [A-Z][a-z]+ 2026$/);
    const copy = desk.makeChangedCopy(1, [{ ...day, text }]);
    desk.open(2, "later.xlsx", copy.bytes as Uint8Array);
    expect(findInput(2, "Cover!G6").shown).toBe("16 October 2026");
    desk.close(2);
  });

  it("refuses a text where the cell shows a day, and says how to write one", () => {
    const day = findInput(1, "Cover!G6");
    expect(() => desk.tryOut(1, [{ ...day, text: "next week" }])).toThrow(/Cover!G6, "next week": write a day as/);
  });
});

/** What a number becomes when a text is typed over it in a cell of this format; the unit beside it is m³. */
function typeOver(stored: number, format: string, text: string): unknown {
  const cells = [
    { row: 0, column: 0, value: "volume", formula: "", format: "General" },
    { row: 0, column: 1, value: stored, formula: "", format },
    { row: 0, column: 2, value: "m³", formula: "", format: "General" },
  ];
  const sheet = { name: "S", isVisible: true, hiddenRows: [], cells };
  const desktop = openCells(
    "cells",
    { sheets: [sheet], names: [], tables: [] },
    registerFunctions(functions, metadata),
  );
  const [patch] = readTyped(desktop, [{ sheet: 0, row: 0, column: 1, text }]);
  return patch ? patch.value : "unchanged";
}

describe("a text typed over a number", () => {
  it.each([
    [1250, "#,##0", "1,250", "unchanged"],
    [1.09728, "0.000", "1.097", "unchanged"],
    [1250, "#,##0", "1260", 1260],
    [0.6, "0.0", "0,5", 0.5],
    [0.6, "0.0", "0,125", 0.125],
    [0.6, "0.0", "−62,4", -62.4],
    [0.6, "0.0", "1 250", 1250],
    [0.02, "0.0 %", "3,5 %", 0.035],
    [0.02, "0.0 %", "3", 0.03],
    [0.02, "0.0 %", "-3,5", -0.035],
    [0.02, "0.0 %", "0.03", 0.03],
    [0.02, "0.0 %", "150 %", 1.5],
    [0.02, "0.0", "3", 3],
    [0.02, "0.0", "3 %", 0.03],
    [400, "0", "300000 l", 300],
    [400, "0", "not measured", "not measured"],
    [400, "0", "", null],
  ])("%d shown by %s, typed %s: %s", (stored, format, text, value) => {
    expect(typeOver(stored, format, text)).toEqual(value);
  });

  it.each([
    ["1,300", 'S!B1, "1,300": this may be 1300 or 1.300; write one of these'],
    ["1,300.5", "write numbers with a decimal point and no separators"],
    ["300 Pa", "the cell is in m³, not in a unit like Pa"],
    ["=2*3", "only values can be set"],
  ])("refuses %s", (text, words) => {
    expect(() => typeOver(1250, "#,##0", text)).toThrow(words);
  });
});

/** 9 November 2026, 10:04. */
const morning = 46_335 + (10 + 4 / 60) / 24;

describe("a text typed over a moment", () => {
  it.each([
    ["hh:mm:ss", "10:04:00", "unchanged"],
    ["hh:mm:ss", "10:05:00", morning + 1 / 1440],
    ["h:mm AM/PM", "1:04 PM", morning + 3 / 24],
    ["d mmmm yyyy", "10 November 2026", morning + 1],
    ["dd/mm/yyyy", "10/11/2026", morning + 1],
    ["mm/dd/yy", "11/10/26", morning + 1],
    ["dddd d mmm yyyy", "Tuesday 10 Nov 2026", morning + 1],
    ["d mmm", "10 Nov", morning + 1],
    ["yyyy-mm-dd hh:mm", "2026-11-10 10:04", morning + 1],
    ["yyyy-mm-dd hh:mm", "2026-11-10T10:05", morning + 1 + 1 / 1440],
    ["d mmmm yyyy", "47900", 47_900],
  ])("in a cell of %s: %s", (format, text, value) => {
    const typed = typeOver(morning, format, text);
    if (typeof value === "number") expect(typed).toBeCloseTo(value, 9);
    else expect(typed).toBe(value);
  });

  it("reads hours beyond a day where the cell counts them on", () => {
    expect(typeOver(1.5, "[h]:mm", "37:00")).toBeCloseTo(37 / 24, 12);
  });

  it.each(["31/02/2026", "25:00", "soon"])("refuses %s", (text) => {
    expect(() => typeOver(morning, "dd/mm/yyyy hh:mm", text)).toThrow("write a day as 24 November 2026");
  });
});
