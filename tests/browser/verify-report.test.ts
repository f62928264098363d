import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/index";
import { reviewAsHtml } from "../../src/workbook/verify/print-html";
import { type FileReport, verifyWorkbook } from "../../src/workbook/verify/verify";
import type { CausedFinding } from "../../src/workbook/index";
import { startBrowser } from "./open-pane";
import { stored } from "../samples/workbook";
import { slow } from "../time-outs";
import { addIn } from "../workbook/verify/tampered";

const folder = mkdtempSync(join(tmpdir(), "report-"));
const file = join(folder, "report.html");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let browser: Browser;

const finding = (severity: CausedFinding["severity"], row: number): CausedFinding => ({
  cause: severity === "error" ? 1 : row,
  kind: "formula overwritten",
  severity,
  place: `Depressurization!L${row}`,
  what: `135.21 is typed in where a formula belongs: its column has formulas on both sides (=IF(F${row}="","",IF(COUNT(F${row}:J${row})<5,NA(),G${row}*F${row}^H${row})))&<b>`,
  why: "The verdict depends on this cell, which no longer follows the readings.",
  todo: "Copy the neighbouring formula into it and see whether the result changes.",
});

function report(name: string, findings: readonly CausedFinding[]): FileReport {
  const counts = { formulaCells: 1307, evaluatedCells: 1307, addInCells: 30, tests: [], checked: [] };
  const verdicts = [{ place: "Results!F43", word: "pass" }];
  return {
    file: `tests of the year/${name}.xlsx`,
    status: "reviewed",
    verification: { findings, verdicts, ...counts },
  };
}

beforeAll(async () => {
  const rows = [24, 25, 26, 27, 28];
  const reports: FileReport[] = [
    report("alder-house-with-a-long-name-that-must-wrap-somewhere", [
      ...rows.map((row) => finding("error", row)),
      finding("warning", 3),
      finding("note", 9),
    ]),
    report("larch-house", []),
    { file: "broken.xlsx", status: "unreadable", problem: "the zip archive is damaged" },
  ];
  writeFileSync(file, reviewAsHtml(reports, new Date("2026-11-02")));
  browser = await startBrowser();
}, slow);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe.each([{ width: 1280 }, { width: 360 }])("the reviewer's page at %o", { timeout: slow }, ({ width }) => {
  it("breaks no rule of accessibility, fetches nothing, and does not scroll sideways", async () => {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    const complaints: string[] = [];
    page.on("console", (message) => void complaints.push(message.text()));
    page.on("request", (request) => {
      if (request.url() !== pathToFileURL(file).href) complaints.push(`request: ${request.url()}`);
    });
    await page.goto(pathToFileURL(file).href);
    for (const details of await page.locator("details").all()) await details.locator("summary").first().click();
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, window.innerWidth] as const);
    expect(widths[0]).toBeLessThanOrEqual(widths[1]);
    await page.evaluate(axe);
    const found = await page.evaluate(async () => {
      type Axe = { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[]; passes: unknown[] }> };
      const { violations, passes } = await (globalThis as unknown as { axe: Axe }).axe.run();
      return {
        rules: passes.length,
        broken: violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`),
      };
    });
    expect(found.broken).toEqual([]);
    expect(found.rules).toBeGreaterThan(15);
    expect(complaints).toEqual([]);
    // What a workbook holds is shown as it is, and is no part of the page.
    expect(await page.locator("li b").count()).toBe(0);
    expect(await page.locator("ol.findings > li.error").count()).toBe(1);
    await page.close();
  });
});

describe("the reviewer's page on paper", { timeout: slow }, () => {
  it("takes one page for a clean workbook, notes and signature included", async () => {
    const verification = verifyWorkbook(openWorkbook(stored, { withLooks: true }), addIn, new Date("2026-11-02"));
    const clean: FileReport = { file: "final-test.xlsx", status: "reviewed", verification };
    const page = await browser.newPage();
    await page.setContent(reviewAsHtml([clean], new Date("2026-11-02")));
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".notes li").first().isVisible()).toBe(true);
    expect(await page.locator(".signature").isVisible()).toBe(true);
    const printed = (await page.pdf({ format: "A4" })).toString("latin1");
    expect(printed.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await page.close();
  });
});
