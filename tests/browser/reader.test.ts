import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import axe from "axe-core";
import { unzipSync, strToU8, strFromU8, zipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openWorkbook, readIssueMark } from "../../src/workbook/index";
import { Desk } from "../../src/views/desk/desk";
import { slow } from "../time-outs";
import { sheetOf } from "../workbook/file/package";
import { startBrowser } from "./open-pane";
import { choose, chooseLater, chooseTab, type Given, openReader, readGiven } from "./open-reader";

const dist = inject("dist");
let browser: Browser;

beforeAll(async () => {
  browser = await startBrowser();
}, slow);
afterAll(() => browser?.close());

const finalTest = readGiven("sample-workbooks/final-test.xlsx");

/** Opens the page with one workbook. */
async function openWith(given: Given, view: Parameters<typeof openReader>[2] = {}) {
  const opened = await openReader(browser, dist, view);
  await choose(opened.page, given);
  await opened.page.waitForSelector("[role=tabpanel] .view");
  return opened;
}

/** The sample with one typed number replaced in a sheet's part. */
function alter(given: Given, part: string, change: (xml: string) => string): Given {
  const parts = unzipSync(given.bytes);
  const before = strFromU8(parts[part] ?? new Uint8Array());
  const after = change(before);
  if (after === before) throw new Error(`nothing changed in ${part}`);
  return { name: `altered ${given.name}`, bytes: zipSync({ ...parts, [part]: strToU8(after) }) };
}

const readText = (page: Page, selector: string) => page.locator(selector).first().innerText();

async function findAxeProblems(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof axe }).axe.run({
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    }),
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
}

describe("the review page, opened from a file", { timeout: slow }, () => {
  it("shows verdict, result, interval and limit of a final test, and asks the network for nothing", async () => {
    const { page, complaints } = await openWith(finalTest);
    expect(await readText(page, ".verdict .word")).toBe("Pass");
    // The same figures as in the workbook's own summary, to the digits that it shows.
    const shown = (await readText(page, ".verdict dl")).match(/\d\.\d+(?= 1\/h)/g)?.map(Number) ?? [];
    const summary = await page.locator("[aria-label^=Summary]").innerText();
    for (const [index, label] of [
      "Result that decides",
      "Lower limit",
      "Upper limit",
      "Limit of the criterion",
    ].entries())
      expect(new RegExp(`${label}[^\\n]*?\\s(\\d\\.\\d+)`).exec(summary)?.[1], label).toBe(
        label.startsWith("Limit") ? String(shown[index]) : shown[index]?.toFixed(3),
      );
    expect(await page.locator(".verdict svg").getAttribute("aria-label")).toContain("limit 0.6 1/h");
    expect(await readText(page, ".view")).toContain("36 of 36 binding conditions are met.");
    expect(await page.locator(".view").innerText()).toContain("Every result is what the file says.");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("names the interval by the level of the budget, in both languages", async () => {
    const desk = new Desk();
    const { sheets } = desk.open(1, finalTest.name, finalTest.bytes);
    const sheet = sheets.findIndex(({ name }) => name === "Criteria");
    const { bytes } = desk.makeChangedCopy(1, [{ sheet, row: 7, column: 9, text: "0.8" }]);
    const { page } = await openWith({ name: "level.xlsx", bytes: bytes as Uint8Array });
    expect(await readText(page, ".verdict dl")).toContain("80 % interval");
    expect(await readText(page, ".verdict .key")).toContain("shaded its 80 % interval");
    expect(await page.locator(".verdict svg").getAttribute("aria-label")).toContain(", 80 % interval from ");
    await page.locator(".tools select").selectOption("fr-FR");
    expect(await readText(page, ".verdict dl")).toContain("Intervalle à 80 %");
    expect(await page.locator(".verdict svg").getAttribute("aria-label")).toContain(", intervalle à 80 % de ");
    await page.close();
  });

  it("keeps the path of a trace while its cell is looked at elsewhere", async () => {
    const { page } = await openWith(finalTest);
    await chooseTab(page, "trace");
    for (let depth = 0; depth < 3; depth += 1) await page.locator(".branches button").first().click();
    const path = await page.locator(".path li").allInnerTexts();
    expect(path).toHaveLength(4);
    await page.locator(".step button", { hasText: "Show in its sheet" }).click();
    await page.waitForSelector("[data-chosen]");
    await chooseTab(page, "trace");
    expect(await page.locator(".path li").allInnerTexts()).toEqual(path);
    await page.close();
  });

  it("traces the result to a typed reading and shows that in its sheet", async () => {
    const { page, complaints } = await openWith(finalTest);
    await chooseTab(page, "trace");
    expect(await readText(page, ".step .value")).toBe("0.5039783 1/h");
    for (let depth = 0; depth < 30; depth += 1) {
      const next = page.locator(".branches button").first();
      if ((await next.count()) === 0) break;
      await next.click();
    }
    expect(await page.locator(".branches button").count()).toBe(0);
    const address = await readText(page, ".step .soft");
    expect(address).toContain("typed in");
    await page.locator(".step button", { hasText: "Show in its sheet" }).click();
    await page.waitForSelector("[data-chosen]");
    expect(await readText(page, ".chosen strong")).toBe(/!([A-Z]+\d+)/.exec(address)?.[1]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("draws the graph; a click on a reading leads to its cell", async () => {
    const { page } = await openWith(finalTest);
    await chooseTab(page, "graph");
    const marks = page.locator("figure .reading");
    expect(await marks.count()).toBe(29);
    await marks.first().dispatchEvent("click");
    await page.waitForSelector("[data-chosen]");
    expect(await readText(page, ".chosen strong")).toMatch(/^[A-Z]+\d+$/);
    await page.close();
  });

  it("reviews in a worker of its own, with progress, and stops when told to", async () => {
    const { page, complaints } = await openWith(finalTest);
    await chooseTab(page, "findings");
    const start = page.locator("[role=tabpanel] button.main");
    await start.click();
    await page.locator(".status button").click();
    await page.waitForFunction(() => document.querySelector(".status")?.textContent === "Stopped.");
    await start.click();
    await page.waitForSelector(".findings");
    expect(await readText(page, ".lead")).toBe("No errors and no warnings.");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("tries a change of the limit without saving anything, then saves a copy", async () => {
    const { page } = await openWith(finalTest);
    await chooseTab(page, "trial");
    await page.locator("input[type=search]").fill("Criteria!E18");
    await page.locator(".inputs button").first().click();
    await page.locator(".changes input").fill("0,5");
    await page.locator("button.main").click();
    const moved = page.locator("[role=status] .list");
    await moved.waitFor();
    const rows = await moved.locator("tbody tr").allInnerTexts();
    expect(rows.some((row) => /^Verdict/.test(row) && /Pass\s+Fail/.test(row))).toBe(true);
    await chooseTab(page, "verdict");
    await chooseTab(page, "trial");
    expect(await page.locator(".changes input").inputValue()).toBe("0,5");
    expect(await moved.locator("tbody tr").allInnerTexts()).toEqual(rows);
    await page.locator(".offers button").click();
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("a[download]").click()]);
    const saved = openWorkbook(readFileSync((await download.path()) ?? ""));
    expect(saved.book.sheets.map(({ name }) => name)).toEqual(
      openWorkbook(finalTest.bytes).book.sheets.map(({ name }) => name),
    );
    await page.close();
  });

  it("takes an outcome back when a change is edited, and says why it cannot try one", async () => {
    const { page, complaints } = await openWith(finalTest);
    await chooseTab(page, "trial");
    await page.locator("input[type=search]").fill("Criteria!E18");
    await page.locator(".inputs button").first().click();
    const [field, run] = [page.locator(".changes input"), page.locator("button.main")];
    await field.fill("0,5");
    await run.click();
    await page.locator(".offers").waitFor();
    await field.fill("0,4");
    expect(await page.locator(".offers, [role=status] .list").count()).toBe(0);
    await field.fill("1,250");
    await run.click();
    const caution = page.locator("[role=status] .caution");
    await caution.waitFor();
    expect(await caution.innerText()).toContain("this may be 1250 or 1.250");
    await field.fill("0,5");
    await run.click();
    await page.locator(".offers").waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("makes an issue copy whose fingerprint it shows", async () => {
    const { page } = await openWith(finalTest);
    await chooseTab(page, "files");
    await page.locator(".offers button").first().click();
    const link = page.locator("a[download]").first();
    await link.waitFor();
    const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
    const mark = readIssueMark(openWorkbook(readFileSync((await download.path()) ?? "")).book);
    expect(mark?.fingerprint).toMatch(/^[0-9a-f]{64}$/);
    expect(await page.locator(".offers").innerText()).toContain(mark?.fingerprint);
    await page.close();
  });

  it("compares with a later version and finds which difference changes the verdict", async () => {
    const book = openWorkbook(finalTest.bytes).book;
    const criteria = book.sheets.findIndex(({ name }) => name === "Criteria");
    const part = `xl/worksheets/sheet${criteria + 1}.xml`;
    const later = alter(finalTest, part, (xml) => xml.replace(/(<c r="E18"[^>]*><v>)0\.6(<\/v>)/, "$10.5$2"));
    const { page, complaints } = await openWith(finalTest);
    await chooseTab(page, "compare");
    await chooseLater(page, later);
    const ask = page.locator("[role=tabpanel] button", { hasText: "Find the difference" });
    await ask.click();
    const turns = page.locator("[role=tabpanel] [role=status] .list tbody tr");
    await turns.first().waitFor();
    const rows = await turns.allInnerTexts();
    expect(rows.filter((row) => row.includes("changes the verdict"))).toHaveLength(1);
    expect(rows[0]).toContain("Criteria!E18");
    await turns.first().locator("button").click();
    await page.waitForSelector(".step");
    await chooseTab(page, "compare");
    expect(await turns.allInnerTexts()).toEqual(rows);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("lists several workbooks, the worst first, and says of an unreadable one why", async () => {
    const { page, complaints } = await openReader(browser, dist);
    const broken = { name: "broken.xlsx", bytes: strToU8("no workbook at all") };
    const blank = readGiven("sample-workbooks/blank/final-test.xlsx");
    await choose(page, finalTest, { ...blank, name: "blank.xlsx" }, broken);
    await page.waitForFunction(
      () =>
        document.querySelectorAll(".list tbody tr").length === 3 &&
        document.querySelector(".status")?.textContent === "",
    );
    const rows = await page.locator(".list tbody tr").allInnerTexts();
    expect(rows[0]).toMatch(/^broken\.xlsx[^]*not an \.xlsx/i);
    expect(rows[2]).toMatch(/^final-test\.xlsx\s+Pass/);
    await page.locator(".list button", { hasText: "final-test.xlsx" }).click();
    await page.waitForSelector(".verdict .word");
    // The view that was open is shown again, a sheet with its looks.
    await chooseTab(page, "sheets");
    await page.locator(".tools button", { hasText: "All workbooks" }).click();
    await page.locator(".list button", { hasText: "final-test.xlsx" }).click();
    await page.waitForSelector(".sheet-names");
    expect(await page.evaluate(() => document.adoptedStyleSheets.length)).toBe(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("names the folders of files that have the same name", async () => {
    const { page } = await openReader(browser, dist);
    const folder = mkdtempSync(join(tmpdir(), "houses-"));
    for (const path of ["ash/test.xlsx", "elm/test.xlsx", "elm/other.xlsx"]) {
      mkdirSync(join(folder, path, ".."), { recursive: true });
      writeFileSync(join(folder, path), sheetOf(""));
    }
    await page.locator("input[webkitdirectory]").first().setInputFiles(folder);
    await page.locator(".list tbody tr").nth(2).waitFor();
    const names = await page.locator(".list tbody th").allInnerTexts();
    expect(names.map((name) => name.replace(basename(folder), "houses")).sort()).toEqual([
      "houses/ash/test.xlsx",
      "houses/elm/test.xlsx",
      "other.xlsx",
    ]);
    rmSync(folder, { recursive: true });
    await page.close();
  });

  it("shows the verdicts of several workbooks beside no edge at 320 px", async () => {
    const { page } = await openReader(browser, dist, { width: 320 });
    const programme = readGiven("sample-workbooks/logger-import.xlsx");
    await choose(page, programme, { ...programme, name: "a workbook of a house with a long name.xlsx" });
    await page.waitForFunction(() => document.querySelector(".status")?.textContent === "");
    const verdict = page.locator(".list td", { hasText: /^Pass$/ }).last();
    const { x, width } = (await verdict.boundingBox())!;
    expect(x + width).toBeLessThanOrEqual(320);
    await page.close();
  });

  it("shows how far a folder is, stops when told to, and reads what was left when it is chosen", async () => {
    const { page, complaints } = await openReader(browser, dist);
    const copies = ["a.xlsx", "b.xlsx", "c.xlsx"].map((name) => ({ ...finalTest, name }));
    await choose(page, ...copies);
    await page.waitForFunction(() => document.querySelector(".status")?.textContent.includes("(2 of 3)"));
    expect(await page.locator(".status progress").getAttribute("value")).toBe("1");
    await page.locator(".status button").click();
    await page.waitForFunction(() => document.querySelector(".status")?.textContent === "Stopped.");
    const rows = await page.locator(".list tbody tr").allInnerTexts();
    expect(rows.filter((row) => row.includes("waiting"))).toHaveLength(2);
    expect(await page.locator(".problems").innerText()).toBe("");
    await page.locator(".list button", { hasText: "c.xlsx" }).click();
    await page.waitForSelector(".verdict .word");
    await chooseTab(page, "trace");
    expect(await readText(page, ".step .value")).toBe("0.5039783 1/h");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("keeps a review when the language changes", async () => {
    const { page } = await openWith(readGiven("sample-workbooks/test-day.xlsx"));
    await chooseTab(page, "findings");
    await page.locator("[role=tabpanel] button.main").click();
    await page.waitForSelector(".findings", { state: "attached" });
    await page.locator(".tools select").selectOption("fr-FR");
    await chooseTab(page, "findings");
    expect(await readText(page, "[role=tabpanel] .view")).toContain("sont en anglais");
    expect(await page.locator(".findings").count()).toBe(1);
    await page.close();
  });

  it("lists the verdicts of a programme in a table that opens on demand", async () => {
    const { page } = await openWith(readGiven("sample-workbooks/programme-review.xlsx"));
    expect(await readText(page, "[role=tabpanel] .lead")).toBe("411 Pass, 36 Not valid, 53 Fail");
    expect(await page.locator(".verdicts tbody tr:visible").count()).toBe(10);
    expect(await page.locator(".verdicts tbody tr").count()).toBe(500);
    await page.locator(".verdicts td button").first().click();
    expect(await readText(page, ".verdict .word")).toBe("Pass");
    await page.close();
  });

  it("speaks French to a French reader, with a decimal comma", async () => {
    const { page } = await openWith(finalTest, { locale: "fr-FR" });
    expect(await readText(page, ".verdict .word")).toBe("Conforme");
    expect(await readText(page, ".verdict dl")).toContain("0,50398 1/h");
    expect(await page.locator("html").getAttribute("lang")).toBe("fr");
    await page.close();
  });

  it("moves between tabs by the arrow keys", async () => {
    const { page } = await openWith(finalTest);
    await page.locator("#tab-verdict").focus();
    await page.keyboard.press("ArrowRight");
    expect(await page.locator("#tab-findings").getAttribute("aria-selected")).toBe("true");
    await page.keyboard.press("End");
    expect(await page.locator("#tab-files").getAttribute("aria-selected")).toBe("true");
    await page.close();
  });

  it.each([
    { width: 320, dark: false },
    { width: 1280, dark: true },
  ])("is accessible and fits in every view at $width px", async (view) => {
    const { page } = await openWith(finalTest, view);
    for (const name of ["verdict", "findings", "trace", "sheets", "graph", "trial", "compare", "files"]) {
      await chooseTab(page, name);
      expect(await findAxeProblems(page), name).toEqual([]);
      const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(beyond, name).toBeLessThanOrEqual(0);
    }
    await page.close();
  });

  it("is accessible where a person has done something: welcome, several workbooks, findings, outcome, comparison", async () => {
    const { page } = await openReader(browser, dist, { locale: "fr-FR" });
    expect(await findAxeProblems(page), "welcome").toEqual([]);
    await choose(page, finalTest, readGiven("sample-workbooks/logger-import.xlsx"));
    await page.locator(".list button", { hasText: "logger-import.xlsx" }).waitFor();
    await page.waitForFunction(() => document.querySelector(".status")?.textContent === "");
    expect(await findAxeProblems(page), "several").toEqual([]);
    await page.locator(".list button", { hasText: "logger-import.xlsx" }).click();
    await page.waitForSelector(".verdict .word");
    expect(await findAxeProblems(page), "verdict").toEqual([]);
    await chooseTab(page, "findings");
    await page.locator("[role=tabpanel] button.main").click();
    await page.waitForSelector(".findings", { state: "attached" });
    expect(await findAxeProblems(page), "findings").toEqual([]);
    await chooseTab(page, "trial");
    await page.locator(".inputs button").first().click();
    await page.locator("button.main").click();
    await page.locator(".offers").waitFor();
    expect(await findAxeProblems(page), "trial").toEqual([]);
    await chooseTab(page, "compare");
    await chooseLater(page, finalTest);
    await page.locator("[role=tabpanel] .list").first().waitFor();
    expect(await findAxeProblems(page), "compare").toEqual([]);
    await page.close();
  });
});
