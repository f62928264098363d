import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, it } from "vitest";
import { issueCopyCommand } from "../../src/cli/issue-copy/command";
import { traceCommand } from "../../src/cli/trace/command";
import { openWorkbook, writeBack } from "../../src/workbook/index";
import { dynamicArrays, packageOf } from "../workbook/file/package";
import { listening } from "./listening";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "trace-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function trace(...given: string[]): { code: number; out: string; err: string } {
  const { output, heard } = listening();
  const code = traceCommand(given, output);
  return { code, ...heard() };
}

const text = (address: string, words: string) => `<c r="${address}" t="inlineStr"><is><t>${words}</t></is></c>`;
const house = join(folder, "house.xlsx");
writeFileSync(
  house,
  packageOf({
    sheets: [
      `<sheetData><row r="1">${text("A1", "Internal volume")}<c r="B1"><v>300</v></c>${text("C1", "m³")}</row>` +
        `<row r="2">${text("A2", "Flow at 50 Pa")}<c r="B2"><v>180</v></c>${text("C2", "m³/h")}</row>` +
        `<row r="3">${text("A3", "Air change rate")}<c r="B3" cm="1"><f t="array" ref="B3">_xldudf_STILLAIR_AIRCHANGERATE(B2,B1)</f><v>0.6</v></c>${text("C3", "1/h")}</row>` +
        `<row r="4">${text("A4", "Double")}<c r="B4"><f>Rate*2</f><v>1.2</v></c></row></sheetData>`,
    ],
    sheetNames: ["The house"],
    workbook: "<definedNames><definedName name=\"Rate\">'The house'!$B$3</definedName></definedNames>",
    metadata: dynamicArrays,
  }),
);

it("prints every step: label, words, formula, equation, source, value and unit", { timeout: slow }, () => {
  const { code, out } = trace(house, "'The house'!B4");
  expect(code).toBe(0);
  for (const part of [
    "'The house'!B4  Double = 1.2",
    "in words: Rate × 2",
    "Air change rate = 0.6 1/h",
    "formula: =STILLAIR.AIRCHANGERATE(B2,B1)",
    "equation: n_pr = q_pr/V",
    "source: ISO 9972:2015, air change rate",
    "flow: 'The house'!B2  Flow at 50 Pa = 180 m³/h",
    "volume: 'The house'!B1  Internal volume = 300 m³",
    "Based on 2 typed cells: 'The house'!B1, 'The house'!B2",
  ])
    expect(out).toContain(part);
});

it("puts the frozen formulas of an issue copy back: their values were not typed in", { timeout: slow }, () => {
  const copy = join(folder, "issued.xlsx");
  expect(issueCopyCommand([house, "--out", copy], listening().output)).toBe(0);
  const { out, err } = trace(copy, "rate");
  expect(err).toBe("");
  expect(out).toContain("formula: =STILLAIR.AIRCHANGERATE(B2,B1)");
  expect(out).toContain("Based on 2 typed cells: 'The house'!B1, 'The house'!B2");
});

it("says where stored values are not what the formulas give", { timeout: slow }, () => {
  const stale = join(folder, "stale.xlsx");
  const opened = openWorkbook(new Uint8Array(readFileSync(house)));
  writeFileSync(stale, writeBack(opened, [{ sheet: 0, row: 0, column: 1, value: 150 }]));
  const { code, out, err } = trace(stale, "rate");
  expect([code, err.trim()]).toEqual([
    0,
    "trace: 2 stored values are not what the formulas give ('The house'!B3, 'The house'!B4); the trace shows the recomputed values.",
  ]);
  expect(out).toContain("Air change rate = 1.2 1/h");
});

it("takes a defined name, or a sheet without quotes in any case", { timeout: slow }, () => {
  expect(trace(house, "rate").out).toContain("'The house'!B3  Air change rate = 0.6 1/h");
  expect(trace(house, "the house!$B$3").out).toContain("'The house'!B3");
});

it("answers ? in the place of the cell with the names that can be traced", { timeout: slow }, () => {
  const { code, out } = trace(house, "?");
  expect(code).toBe(0);
  expect(out).toBe("Rate   'The house'!B3   0.6\nAny other cell by its sheet and address, such as 'Results!C7'.\n");
});

it("prints JSON, Markdown and a page, and writes them whole to a file of their own", { timeout: slow }, () => {
  const json = JSON.parse(trace(house, "Rate", "--json").out) as { inputs: string[] };
  expect(json.inputs).toEqual(["'The house'!B1", "'The house'!B2"]);
  expect(trace(house, "Rate", "--markdown").out).toContain("# Where 'The house'!B3 in house.xlsx comes from");
  const page = join(folder, "rate.html");
  expect(trace(house, "Rate", "--html", "--out", page).code).toBe(0);
  const html = readFileSync(page, "utf8");
  expect(html).toMatch(/^<!doctype html>\n<html lang="en">/);
  expect(html).toContain("n_pr = q_pr/V");
  // Nothing is fetched from elsewhere.
  expect(html).not.toMatch(/\b(src|href)="(?!#)/);
  expect(trace(house, "Rate", "--html", "--out", page)).toMatchObject({ code: 2 });
  expect(trace(house, "Rate", "--json", "--out", page, "--overwrite").code).toBe(0);
});

it("goes back only as far as it is told", { timeout: slow }, () => {
  const { out } = trace(house, "'The house'!B4", "--depth", "1");
  expect(out).toContain("the requested depth ends here");
  expect(out).not.toContain("= 300");
});

it.each([
  [[house], "name one workbook and one cell"],
  [[house, "Attic!B4"], 'there is no sheet "Attic"; the workbook has The house'],
  [[house, "'The house'!ZZZZ4"], "is not a cell"],
  [[house, "B4"], "needs a sheet name"],
  [[house, "Ratio"], "is neither a cell nor a name"],
  [[house, "Rate", "--json", "--html"], "choose one of"],
  [[house, "Rate", "--depth", "-1"], "--depth"],
  [[house, "Rate", "--out", house], "which is never overwritten"],
  [[join(folder, "none.xlsx"), "A!A1"], "cannot be read"],
])("refuses %j in one line", { timeout: slow }, (given, part) => {
  const { code, out, err } = trace(...given);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain(part);
  expect(err.trimEnd()).not.toContain("\n");
});

it("runs as npm runs it", { timeout: slow }, () => {
  const start = fileURLToPath(new URL("../../src/cli/start.mjs", import.meta.url));
  expect(existsSync(start)).toBe(true);
  const { status, stdout } = spawnSync(process.execPath, [start, "trace", house, "Rate"], { encoding: "utf8" });
  expect([status, stdout.includes("n_pr = q_pr/V")]).toEqual([0, true]);
});
