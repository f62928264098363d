import { copyFileSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { temporaryFolder } from "../build/build-addin";
import { slow } from "../time-outs";
import { startBrowser } from "./open-pane";
import { serve } from "./serve";

const dist = inject("dist");
let browser: Browser;

beforeAll(async () => {
  browser = await startBrowser();
}, slow);
afterAll(() => browser?.close());

/** The page with these files beside it, served as by any web server. */
async function openServed(...beside: readonly string[]) {
  const folder = temporaryFolder();
  for (const name of ["reader.html", ...beside]) copyFileSync(join(dist, name), join(folder, name));
  const server = await serve(folder);
  const context = await browser.newContext({ locale: "en-GB" });
  const page = await context.newPage();
  await page.goto(`${server.address}/reader.html`);
  const close = async (): Promise<void> => {
    await context.close();
    rmSync(folder, { recursive: true });
  };
  return { page, folder, server, close, keep: page.locator("button", { hasText: "Keep this page" }) };
}

describe("the review page kept for use without a network", { timeout: slow }, () => {
  it("opens without one as it was when it was last served", async () => {
    const { page, folder, server, close, keep } = await openServed("reader-offline.js", "reader.webmanifest");
    await keep.click();
    await page.locator("button", { hasText: "Kept." }).waitFor();
    const path = join(folder, "reader.html");
    writeFileSync(path, readFileSync(path, "utf8").replace("<body", '<body data-version="next"'));
    await page.reload();
    expect(await page.locator("body").getAttribute("data-version")).toBe("next");
    // The answer is stored behind the page's back.
    await page.waitForFunction(async () =>
      (await (await caches.match("reader.html"))?.text())?.includes('data-version="next"'),
    );
    await server.close();
    await page.reload();
    expect(await page.locator("body").getAttribute("data-version")).toBe("next");
    expect(await page.locator("h1").innerText()).toBe("Review of an airtightness workbook");
    await close();
  });

  it.each([[[]], [["reader-offline.js"]]])("says that it cannot be kept beside %j alone", async (beside) => {
    const { page, server, close, keep } = await openServed(...beside);
    await keep.click();
    const caution = page.locator(".welcome .caution");
    await page.waitForFunction(() => document.querySelector(".welcome .caution")?.textContent !== "");
    expect(await caution.innerText()).toContain("It cannot be kept here");
    expect(await keep.isEnabled()).toBe(true);
    await close();
    await server.close();
  });
});
