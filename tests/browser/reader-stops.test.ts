import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { slow } from "../time-outs";
import { startBrowser } from "./open-pane";
import { choose, chooseLater, chooseTab, compare, openReader, readGiven } from "./open-reader";

const dist = inject("dist");
let browser: Browser;

beforeAll(async () => {
  browser = await startBrowser();
}, slow);
afterAll(() => browser?.close());

const finalTest = readGiven("sample-workbooks/final-test.xlsx");
const inFeet = readGiven("sample-workbooks/final-test-ip.xlsx");
const large = readGiven("sample-workbooks/programme-review.xlsx");
const copies = (...names: string[]) => names.map((name) => ({ ...finalTest, name }));

const status = ".status";

const waitForStatus = (page: Page, words: string) =>
  page.waitForFunction(
    ([selector, wanted]) => document.querySelector(selector!)?.textContent.includes(wanted!),
    [status, words],
  );

const readText = (page: Page, selector: string) => page.locator(selector).first().innerText();

describe("a workbook that the desk has forgotten", { timeout: slow }, () => {
  it("is read again when it is asked about, after the others were stopped", async () => {
    const { page, complaints } = await openReader(browser, dist);
    await choose(page, ...copies("a.xlsx", "b.xlsx"), large);
    await waitForStatus(page, "(2 of 3)");
    await page.locator("button.cell", { hasText: "a.xlsx" }).click();
    await page.waitForSelector("#tab-trace");
    await waitForStatus(page, "(3 of 3)");
    await page.locator(`${status} button`).click();
    await waitForStatus(page, "Stopped.");
    await chooseTab(page, "trace");
    expect(await readText(page, ".step .value")).toBe("0.5039783 1/h");
    await chooseTab(page, "sheets");
    await page.waitForSelector(".sheet-names");
    // Those that were stopped still wait in the table.
    await page.locator(".tools button", { hasText: "All workbooks" }).click();
    expect(await page.locator(".problems").innerText()).toBe("");
    expect(await page.locator(".list tbody tr", { hasText: "waiting" }).count()).toBe(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("stays open where it is chosen before its turn", async () => {
    const { page, complaints } = await openReader(browser, dist);
    const [first, last] = copies("a.xlsx", "c.xlsx");
    await choose(page, first!, large, last!);
    await waitForStatus(page, "(1 of 3)");
    await page.locator("button.cell", { hasText: "c.xlsx" }).click();
    await page.waitForSelector("#tab-trace");
    expect(await readText(page, "h1")).toBe("c.xlsx");
    await page.locator("#tab-trace").click();
    await page.locator(".step .value, [role=tabpanel] .caution").first().waitFor();
    expect(await readText(page, "[role=tabpanel]")).toContain("0.5039783 1/h");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("says that the later version was stopped, and goes on by itself", async () => {
    const { page, complaints } = await openReader(browser, dist);
    await compare(page, finalTest, large);
    await page.locator(`${status} button`).click();
    await page.waitForSelector("[role=tabpanel] .caution");
    expect(await readText(page, "[role=tabpanel] .caution")).toBe("Stopped.");
    expect(await readText(page, status)).toBe("Stopped.");
    await chooseTab(page, "graph");
    await page.waitForSelector("figure .reading");
    await chooseTab(page, "compare");
    await chooseLater(page, { ...finalTest, name: "same.xlsx" });
    await page.waitForFunction(() =>
      document.querySelector("[role=tabpanel]")?.textContent.includes("Nothing differs"),
    );
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("stops a search for turns between two differences and shows those that were tried", async () => {
    const { page, complaints } = await openReader(browser, dist);
    await compare(page, finalTest, inFeet);
    await page.locator("[role=tabpanel] button", { hasText: "Find the difference" }).click();
    const outcome = page.locator("[role=tabpanel] [role=status]").first();
    await outcome.filter({ hasText: /Trying difference ([2-9]|\d\d+) of/ }).waitFor();
    await outcome.locator("button", { hasText: "Stop" }).click();
    await outcome.filter({ hasText: "differences were tried" }).waitFor();
    expect(await outcome.locator(".list tbody tr").count()).toBeGreaterThan(1);
    await chooseTab(page, "graph");
    await page.waitForSelector("figure .reading");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("is read again with its later version after the desk has broken down in a search for turns", async () => {
    const { page, complaints } = await openReader(browser, dist);
    await page.evaluate(() => {
      // Reached from here only as the receiver of a question.
      const original = Object.getOwnPropertyDescriptor(Worker.prototype, "postMessage")!.value as Worker["postMessage"];
      Worker.prototype.postMessage = function (this: Worker, message: unknown) {
        Object.assign(globalThis, { asked: this });
        original.call(this, message);
      };
    });
    await compare(page, finalTest, inFeet);
    const ask = page.locator("[role=tabpanel] button", { hasText: "Find the difference" });
    const outcome = page.locator("[role=tabpanel] [role=status]").first();
    await ask.click();
    await outcome.filter({ hasText: "Trying difference" }).waitFor();
    await page.evaluate(() => {
      const { asked } = globalThis as unknown as { asked: Worker };
      asked.dispatchEvent(new ErrorEvent("error", { message: "out of memory" }));
    });
    await outcome.filter({ hasText: "That did not work: out of memory" }).waitFor();
    await ask.click();
    await outcome.filter({ hasText: "Trying difference" }).waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });
});
