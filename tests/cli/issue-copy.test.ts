import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { issueCopyCommand } from "../../src/cli/issue-copy/command";
import { methodVersion } from "../../src/core/index";
import { openWorkbook, readIssueMark } from "../../src/workbook/index";
import { dynamicArrays, sheetOf } from "../workbook/file/package";
import { listening } from "./listening";

const folder = mkdtempSync(join(tmpdir(), "issue-copy-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function issueCopy(...given: string[]): { code: number; out: string; err: string } {
  const { output, heard } = listening();
  const code = issueCopyCommand(given, output);
  return { code, ...heard() };
}

function house(name: string, rate: string): string {
  const path = join(folder, name);
  const rows =
    '<row r="1"><c r="A1"><v>180</v></c><c r="B1"><v>300</v></c></row>' +
    `<row r="2"><c r="A2" cm="1"><f t="array" ref="A2">_xldudf_STILLAIR_AIRCHANGERATE(A1,B1)</f><v>${rate}</v></c></row>`;
  writeFileSync(path, sheetOf(rows, { metadata: dynamicArrays }));
  return path;
}

const sound = house("sound.xlsx", "0.6");
const stale = house("stale.xlsx", "0.5");
const out = (name: string) => join(folder, name);
const read = (path: string) => openWorkbook(new Uint8Array(readFileSync(path))).book;

it("writes the copy and says its version, day and fingerprint", () => {
  const { code, out: said } = issueCopy(sound, "--out", out("issued.xlsx"), "--date", "2026-11-05");
  expect(code).toBe(0);
  const mark = readIssueMark(read(out("issued.xlsx")));
  expect(mark?.issued).toBe("2026-11-05");
  for (const part of ["1 cell frozen", '"Frozen formulas"', methodVersion, mark?.fingerprint ?? "none"])
    expect(said).toContain(part);
});

it("is dated today where no day is given", () => {
  const before = new Date();
  issueCopy(sound, "--out", out("today.xlsx"));
  const days = [before, new Date()].map((day) => day.toLocaleDateString("sv-SE"));
  expect(days).toContain(readIssueMark(read(out("today.xlsx")))?.issued);
});

it("refuses stale values, or brings them up to date where it is told to", () => {
  expect(issueCopy(stale, "--out", out("none.xlsx"))).toMatchObject({ code: 2, out: "" });
  expect(existsSync(out("none.xlsx"))).toBe(false);
  expect(issueCopy(stale, "--out", out("fresh.xlsx"), "--recalculate").code).toBe(0);
  expect(read(out("fresh.xlsx")).sheets[0]?.cells.get(16_384)).toMatchObject({ value: 0.6 });
});

it.each([
  [[], "name one workbook"],
  [[sound], "--out needs a file name"],
  [[sound, "--out", sound], "which is never overwritten"],
  [[sound, "--out", stale], "exists; choose another name or add --overwrite"],
  [[sound, "--out", out("day.xlsx"), "--date", "2026-02-30"], "--date needs a day"],
  [[stale, "--out", out("stale-copy.xlsx")], "1 stored value"],
])("refuses %j in one line, and writes nothing", (given, part) => {
  const before = readdirSync(folder);
  const { code, out: said, err } = issueCopy(...given);
  expect([code, said]).toEqual([2, ""]);
  expect(err).toContain(part);
  expect(err.trimEnd()).not.toContain("\n");
  expect(readdirSync(folder)).toEqual(before);
});
