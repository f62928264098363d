import { mkdirSync, readFileSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { contrastOf } from "./contrast";
import { type View, openPane, startBrowser } from "./open-pane";
import { serve } from "./serve";
import { slow } from "../time-outs";

const dist = inject("dist");
let browser: Browser;
let server: Awaited<ReturnType<typeof serve>>;
let ids: string[];

beforeAll(async () => {
  const metadata = JSON.parse(readFileSync(join(dist, "functions.json"), "utf8")) as { functions: { id: string }[] };
  ids = metadata.functions.map(({ id }) => id).sort();
  server = await serve(dist);
  browser = await startBrowser();
}, slow);
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const open = (view?: View) => openPane(browser, server.address, view);

describe("the pane with Microsoft's own office.js", { timeout: slow }, () => {
  it("registers every function of functions.json, and no other", async () => {
    const { page, complaints } = await open();
    const registered = await page.evaluate(() => {
      const { CustomFunctions } = globalThis as unknown as {
        CustomFunctions: { _association: { mappings: Record<string, unknown> } };
      };
      return Object.keys(CustomFunctions._association.mappings);
    });
    expect(registered.sort()).toEqual(ids);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("lists every function, opens outside Excel, and breaks no rule of its own policy", async () => {
    const { page, complaints } = await open();
    expect(await page.locator("details.function").evaluateAll((all) => all.map(({ id }) => id).sort())).toEqual(ids);
    expect(await page.locator("#host").getAttribute("data-state")).toBe("elsewhere");
    // A script written into the page must not run: it proves that the policy above is in force.
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "globalThis.intruder = true";
      document.head.append(script);
      return "intruder" in globalThis;
    });
    expect(ran).toBe(false);
    await expect.poll(() => complaints.filter((line) => line.startsWith("policy: script-src"))).toHaveLength(1);
    expect(complaints.filter((line) => !/script-src|inline script/.test(line))).toEqual([]);
    await page.close();
  });
});

describe("the pane in other surroundings", { timeout: slow }, () => {
  it("says that it is ready where Office reports an Excel that runs functions", async () => {
    const script = `
      globalThis.CustomFunctions = { associate() {}, Error: class extends Error {}, ErrorCode: {} };
      globalThis.Office = {
        onReady: () => Promise.resolve({ host: "Excel" }),
        context: { requirements: { isSetSupported: () => true }, document: { mode: "readWrite", url: "" } },
        DocumentMode: { ReadOnly: "readOnly" },
        actions: { associate: (name) => (globalThis.associated ??= []).push(name) },
        addin: { onVisibilityModeChanged: () => Promise.resolve() },
      };
      globalThis.Excel = { run: () => Promise.reject(new Error("no workbook here")) };`;
    const { page, complaints } = await open({ office: { script } });
    expect(await page.locator("#host").textContent()).toContain("Ready in Excel");
    // The ribbon and the keyboard reach every action that the shortcuts name.
    const { actions } = JSON.parse(readFileSync("src/taskpane/shortcuts.json", "utf8")) as {
      actions: { id: string }[];
    };
    const associated = await page.evaluate(() => (globalThis as unknown as { associated: string[] }).associated);
    expect(associated.sort()).toEqual(actions.map(({ id }) => id).sort());
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("says so where Excel does not answer, and goes on once it does", async () => {
    const script = `
      globalThis.CustomFunctions = { associate() {}, Error: class extends Error {}, ErrorCode: {} };
      globalThis.Office = { onReady: () => new Promise((resolve) => (globalThis.answer = resolve)) };`;
    const { page, complaints } = await open({ office: { script } });
    expect(await page.locator("#host").textContent()).toContain("Excel has not answered yet");
    await page.evaluate(() => (globalThis as unknown as { answer: (host: object) => void }).answer({ host: null }));
    await expect.poll(() => page.locator("#host").getAttribute("data-state")).toBe("elsewhere");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("can be read and searched where Microsoft's file cannot be reached", async () => {
    const { page, complaints } = await open({ office: "unreachable" });
    await page.getByLabel("Find a function").fill("density");
    expect(await page.locator("details.function:visible").count()).toBeGreaterThan(0);
    expect(await page.locator("details.function:visible").count()).toBeLessThan(ids.length);
    // Two lines are the truth there: the file failed to load, and so there is nothing to register functions with.
    const expected = /ERR_FAILED|^exception: CustomFunctions is not defined$/;
    expect(complaints.filter((line) => !expected.test(line))).toEqual([]);
    await page.close();
  });
});

describe("finding a function", { timeout: slow }, () => {
  it("shows what has all the words, says how many, and shows all again", async () => {
    const { page } = await open();
    const shown = () => page.locator("details.function:visible").evaluateAll((all) => all.map(({ id }) => id));
    const search = page.getByLabel("Find a function");
    await search.fill("FlowExponent");
    expect(await shown()).toContain("FLOWEXPONENT");
    expect(await page.locator("#found").textContent()).toBe(`${(await shown()).length} of ${ids.length} functions`);
    expect(await page.getByRole("heading", { name: "Envelope", exact: true }).isVisible()).toBe(false);
    await search.fill("flowexponent notaword");
    expect(await shown()).toEqual([]);
    expect(await page.locator("#nothing").isVisible()).toBe(true);
    await search.fill("");
    expect((await shown()).sort()).toEqual(ids);
    expect(await page.locator("#nothing").isVisible()).toBe(false);
    await page.close();
  });

  it("opens the function that Excel's help link names", async () => {
    const { page } = await open({ hash: "#AIRDENSITY" });
    expect(await page.locator("#AIRDENSITY").getAttribute("open")).not.toBeNull();
    expect(await page.evaluate(() => document.activeElement?.parentElement?.id)).toBe("AIRDENSITY");
    await page.close();
  });

  it("copies an example, or selects it where the clipboard is closed", async () => {
    for (const allowed of [true, false]) {
      const { page } = await open({ hash: "#FLOORAREA" });
      if (allowed) await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
      else await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: undefined }));
      await page.getByRole("button", { name: "Copy the example of FLOORAREA" }).click();
      const formula = await page.locator("#FLOORAREA .example code").textContent();
      expect(formula).toMatch(/^=STILLAIR\.FLOORAREA\(/);
      await expect
        .poll(() => page.locator("#FLOORAREA .example button").textContent())
        .toBe(allowed ? "Copied" : "Selected");
      const taken = allowed ? () => navigator.clipboard.readText() : () => getSelection()?.toString();
      expect(await page.evaluate(taken)).toBe(formula);
      await page.close();
    }
  });
});

describe("use without a mouse", { timeout: slow }, () => {
  it("skips to the functions, and opens one with the Enter key", async () => {
    const { page } = await open();
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Skip to the functions");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.parentElement?.id)).toBe("FLOORAREA");
    expect(await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle)).toBe("solid");
    await page.keyboard.press("Enter");
    expect(await page.locator("#FLOORAREA").getAttribute("open")).not.toBeNull();
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toContain("FLOORAREA");
    await page.close();
  });

  it("gives every control a name and keeps the headings in order", async () => {
    const { page } = await open();
    expect(await page.getByRole("searchbox", { name: "Find a function" }).count()).toBe(1);
    const buttons = page.locator("button");
    expect(await buttons.count()).toBe(await page.locator("button[aria-label]").count());
    const levels = await page.locator("h1,h2,h3").evaluateAll((all) => all.map(({ tagName }) => Number(tagName[1])));
    expect(levels[0]).toBe(1);
    levels.forEach((level, index) => expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1));
    await page.close();
  });
});

describe("how it looks", { timeout: slow }, () => {
  const pictures = join(tmpdir(), "stillair-pane");
  mkdirSync(pictures, { recursive: true });

  it.each([
    [300, false],
    [320, true],
    [900, false],
    [900, true],
    [1600, false],
  ])("fits %i pixels (dark: %s) with every function open, and its text stands out", async (width, dark) => {
    const { page, complaints } = await open({ width, dark });
    const picture = join(pictures, `pane-${width}-${dark ? "dark" : "light"}.png`);
    await page.screenshot({ path: picture });
    expect(statSync(picture).size).toBeGreaterThan(10_000);
    await page.evaluate(() => document.querySelectorAll("details").forEach((entry) => (entry.open = true)));
    const overflow = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overflow).toBe(0);
    // WCAG 2.2, 1.4.3: 4.5 to 1 for text of ordinary size.
    for (const { text, contrast } of await contrastOf(page)) expect(contrast, text).toBeGreaterThanOrEqual(4.5);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
