import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { sheetOf } from "../workbook/file/package";
import { listening } from "./listening";

const folder = mkdtempSync(join(tmpdir(), "recalc-explain-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function recalc(...given: string[]): string {
  const { output, heard } = listening();
  runRecalcCommand(given, output);
  return heard().out;
}

function workbook(name: string, formulas: readonly string[]): string {
  const cells = formulas.map((text, index) => `<c r="A${index + 1}"><f>${text}</f><v>1</v></c>`);
  const path = join(folder, name);
  writeFileSync(path, sheetOf(cells.map((cell, index) => `<row r="${index + 1}">${cell}</row>`).join("")));
  return path;
}

const one = workbook("one.xlsx", [
  "NOSUCH(1)",
  "A1+1",
  "A2+1",
  "&quot;1 Feb&quot;+1",
  "&quot;2 Feb&quot;+1",
  "RAND()",
  "A8",
  "A7",
  "1+1",
]);
const other = workbook("other.xlsx", ["NOSUCH(1)"]);

it("groups what was not evaluated by cause, with the cells that each cause holds back, the worst first", () => {
  const lines = recalc(one, "--explain").split("\n");
  const start = lines.findIndex((line) => line.includes("by cause"));
  expect(lines.slice(start, start + 5)).toEqual([
    "  Not evaluated, by cause: 8 cells held back by 4 causes",
    "    3   the function NOSUCH is not one of those that are calculated here   in Sheet1!A1",
    "    2   a circular reference                                               in Sheet1!A7, Sheet1!A8",
    "    2   a text that is read as a number or not according to the locale     in Sheet1!A4, Sheet1!A5",
    "    1   RAND gives another value at every calculation                      in Sheet1!A6",
  ]);
});

it("adds the causes of several workbooks up, and gives them as JSON", () => {
  const lines = recalc(one, other, "--explain").split("\n");
  const start = lines.indexOf("Not evaluated in all workbooks, by cause");
  expect(lines[start + 1]).toBe("  4   2 workbooks   the function NOSUCH is not one of those that are calculated here");
  const { workbooks } = JSON.parse(recalc(other, "--explain", "--json")) as { workbooks: { causes: unknown }[] };
  expect(workbooks[0]?.causes).toEqual([
    { cause: "the function NOSUCH is not one of those that are calculated here", cells: ["Sheet1!A1"], heldBack: 1 },
  ]);
});
