import { join } from "node:path";
import { pathToFileURL } from "node:url";
import axe from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { contrastOf } from "./contrast";
import { startBrowser } from "./open-pane";
import { slow } from "../time-outs";

const dist = inject("dist");
let browser: Browser;
beforeAll(async () => (browser = await startBrowser()), slow);
afterAll(() => browser?.close());

const addressOf = (path: string): string => pathToFileURL(join(dist, path)).href;

/** Opens a page of help as from a folder, and notes everything that it asks for or complains of. */
async function open(path: string, { width = 320, dark = false } = {}): Promise<{ page: Page; complaints: string[] }> {
  const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme: dark ? "dark" : "light" });
  page.setDefaultTimeout(slow);
  const complaints: string[] = [];
  page.on("console", (message) => complaints.push(`console: ${message.text()}`));
  page.on("request", (request) => {
    if (!request.isNavigationRequest()) complaints.push(`request: ${request.url()}`);
  });
  await page.goto(addressOf(path));
  return { page, complaints };
}

describe("the pages of help in a browser", { timeout: slow }, () => {
  it("hold no script, ask for nothing and fit 320 pixels in their own style, every one", async () => {
    const { page, complaints } = await open("help/index.html");
    const linked = await page.locator("main dt a").evaluateAll((links) => links.map(({ textContent }) => textContent));
    expect(linked.length).toBeGreaterThan(40);
    for (const path of ["help/index", "help/settings", "support", ...linked.map((id) => `help/${id}`)]) {
      await page.goto(addressOf(`${path}.html`));
      const seen = await page.evaluate(() => ({
        title: document.title,
        scripts: document.scripts.length,
        overflow: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        styled: getComputedStyle(document.querySelector("nav ul")!).listStyleType,
      }));
      const name = path.split("/").at(-1)!;
      const title = { index: "Help", settings: "Settings", support: "Support" }[name] ?? name;
      expect(seen).toEqual({ title: `${title} · Stillair`, scripts: 0, overflow: 0, styled: "none" });
    }
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("run no script that someone writes into them", async () => {
    const { page, complaints } = await open("help/FLOORAREA.html");
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "globalThis.intruder = true";
      document.head.append(script);
      return "intruder" in globalThis;
    });
    expect(ran).toBe(false);
    expect(complaints.join("\n")).toContain("Content Security Policy");
    await page.close();
  });

  it.each([
    ["support.html", 320, false],
    ["help/index.html", 320, true],
    ["help/settings.html", 900, false],
    ["help/UNCERTAINTYBUDGET.html", 900, true],
  ])("%s at %i pixels (dark: %s): axe finds nothing, and its text stands out", async (path, width, dark) => {
    const { page } = await open(path, { width, dark });
    // WCAG 2.2, 1.4.3: 4.5 to 1 for text of ordinary size.
    for (const { text, contrast } of await contrastOf(page)) expect(contrast, text).toBeGreaterThanOrEqual(4.5);
    await page.evaluate(axe.source);
    const { violations, passes } = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run());
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`)).toEqual([]);
    expect(passes.length).toBeGreaterThan(10);
    await page.close();
  });
});
