import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { n50Of, sheetData, testSheet, testWorkbook } from "../workbook/graph/test-workbook";
import { listening } from "./listening";

const root = mkdtempSync(join(tmpdir(), "html-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(root, "case-"));
  file = join(folder, "house.xlsx");
  writeFileSync(
    file,
    testWorkbook({
      Depr: testSheet({ direction: "depressurization" }),
      Pres: testSheet({ direction: "pressurization" }),
      Verdict: sheetData({
        A1: { f: `_xldudf_STILLAIR_AVERAGEDRESULT(${n50Of("Depr")},${n50Of("Pres")})` },
        A2: { f: "_xldudf_STILLAIR_PASSFAIL(A1,0.6)" },
        A3: { f: "1/0" },
      }),
    }),
  );
});

function recalc(...given: string[]) {
  const { output, heard } = listening();
  const code = runRecalcCommand(given, output);
  return { code, ...heard() };
}

const html = (name: string) => join(folder, name);

describe("recalc --html", { timeout: 60_000 }, () => {
  it("writes the page beside what it prints anyway", () => {
    const plain = recalc(file);
    const { code, out } = recalc(file, "--html", html("house.html"));
    expect([code, out]).toEqual([plain.code, `${plain.out}  Page written to ${html("house.html")}.\n`]);
    const page = readFileSync(html("house.html"), "utf8");
    expect(page).toContain("Different from the stored value");
    expect(page).toMatch(/<a href="#s3-A3">Verdict!A3<\/a>.*#DIV\/0!/);
    expect(page).toMatch(/id="s3-A3"/);
    expect([...page.matchAll(/<svg /g)]).toHaveLength(1);
    expect(page).toContain("limit 180 m³/h");
    expect(page).toContain("STILLAIR.PASSFAIL(A1,0.6)");
    expect(JSON.parse(recalc(file, "--json", "--html", html("second.html")).out)).toMatchObject({ exitCode: code });
    expect(existsSync(html("second.html"))).toBe(true);
  });

  it("shows a what-if as one, with the values that were set", () => {
    recalc(file, "--set", "Depr!B2=987.25", "--html", html("what-if.html"));
    const page = readFileSync(html("what-if.html"), "utf8");
    expect(page).toContain("This is a what-if: 1 cell");
    expect(page).toMatch(/id="s1-B2"[^>]*><span>987\.25</);
    expect(page).toMatch(/Depr!B2<\/a><\/th><td><\/td><td>[\d.]+<\/td><td>987\.25<\/td>/);
  });

  it("writes over nothing that exists, and not over the workbook", () => {
    writeFileSync(html("mine.html"), "mine");
    expect(recalc(file, "--html", html("mine.html"))).toMatchObject({ code: 2 });
    expect(readFileSync(html("mine.html"), "utf8")).toBe("mine");
    expect(recalc(file, "--html", html("mine.html"), "--overwrite").code).not.toBe(2);
    expect(readFileSync(html("mine.html"), "utf8")).toMatch(/^<!doctype html>/);
    expect(recalc(file, "--html", file, "--overwrite").err).toContain("names the workbook itself");
    const both = recalc(file, "--html", html("one"), "--out", html("one"));
    expect([both.code, both.err]).toEqual([2, "recalc: --out and --html name the same file\n"]);
    writeFileSync(join(folder, "second.xlsx"), readFileSync(file));
    expect(recalc(folder, "--html", html("two.html")).err).toContain("--html works on one workbook at a time");
    expect(recalc(file, "--html", "").err).toContain("--html needs a file name");
    expect(readdirSync(folder).sort()).toEqual(["house.xlsx", "mine.html", "second.xlsx"]);
  });

  it("writes no page of a file that cannot be read", () => {
    writeFileSync(file, "no workbook");
    expect(recalc(file, "--html", html("none.html")).code).toBe(2);
    expect(existsSync(html("none.html"))).toBe(false);
  });
});
