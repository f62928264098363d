import { readFileSync } from "node:fs";
import { join } from "node:path";
import axe from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { slow } from "../time-outs";
import { sheetOf } from "../workbook/file/package";
import { openPane, openPaneOver, startBrowser, type View, withoutExcel } from "./open-pane";
import { serve } from "./serve";

const dist = inject("dist");
let browser: Browser;
let server: Awaited<ReturnType<typeof serve>>;

beforeAll(async () => {
  server = await serve(dist);
  browser = await startBrowser();
}, slow);
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

/** Opens the pane outside Excel over a workbook, as a person does who has no Excel at hand. */
const openOver = (name: string, view?: View) => openFile(name, readFileSync(join("sample-workbooks", name)), view);

const openFile = (name: string, bytes: Buffer, view?: View) =>
  openPaneOver(browser, server.address, { name, bytes }, view);

async function choose(page: Page, tab: string): Promise<void> {
  await page.locator(`#tab-${tab}`).click();
  await settle(page);
}

const settle = (page: Page) =>
  page.waitForFunction(() => !/Working|Reviewing/.test(document.querySelector(".status")?.textContent ?? ""));

async function findAxeProblems(page: Page): Promise<string[]> {
  const violations = await page.evaluate(async () => {
    const { axe: engine } = globalThis as unknown as { axe: typeof axe };
    const found = await engine.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] });
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`);
  });
  return violations;
}

const readStatus = (page: Page) => page.locator(".tools > .status").textContent();

describe("the pane over a workbook from this computer", { timeout: slow }, () => {
  it.each(["final-test.xlsx", "final-test-ip.xlsx"])(
    "%s: verdict, trace of the selection, graph, what if, review and hand over",
    async (name) => {
      const { page, complaints } = await openOver(name);
      await choose(page, "verdict");
      expect(await page.locator(".verdict .word").first().textContent()).toBe("Pass");

      await choose(page, "trace");
      await page.getByRole("button", { name: /Trace the verdict/ }).click();
      await page.locator(".step .value").first().waitFor();
      expect(await page.locator(".step > .value").first().textContent()).toContain("pass");
      const traced = await page.locator(".step h3").first().textContent();
      await page.getByLabel("Selected cell").fill("Building!B2");
      await page.getByRole("button", { name: "Select", exact: true }).click();
      await page.waitForFunction((was) => document.querySelector(".step h3")?.textContent !== was, traced);

      await choose(page, "graph");
      expect(await page.locator("figure svg").count()).toBe(1);

      await choose(page, "check");
      await page.getByRole("button", { name: "Review the workbook" }).click();
      await page.locator(".lead").waitFor();
      expect(await page.locator(".lead").textContent()).toBe("No errors and no warnings.");

      await choose(page, "trial");
      await page.locator(".find input").fill("temperature");
      await page.locator(".inputs button").first().click();
      await page.locator(".changes input").first().fill("19");
      await page.getByRole("button", { name: "Recalculate" }).click();
      await page.getByText(/results? changes?\./).waitFor();

      await choose(page, "files");
      await page.locator(".offers button").first().click();
      await page.getByText(/Fingerprint/).waitFor();
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it("writes a trace to a new sheet, reads the workbook anew, and saves a form", async () => {
    const { page, complaints } = await openOver("logger-import.xlsx");
    await choose(page, "trace");
    await page.getByRole("button", { name: /Trace the verdict/ }).click();
    await page.getByRole("button", { name: "Write this trace to a new sheet" }).click();
    await expect.poll(() => readStatus(page), { timeout: slow }).toBe("The trace is on the sheet “Trace”.");
    await page.getByLabel("Selected cell").fill("Trace!A1");
    await page.getByRole("button", { name: "Select", exact: true }).click();
    await expect
      .poll(() => page.locator(".step > .value").first().textContent(), { timeout: slow })
      .toContain("cell (trace of");

    await choose(page, "start");
    const saved = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save Final test", exact: true }).click();
    expect((await saved).suggestedFilename()).toBe("final-test.xlsx");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("keeps a pinned trace while the workbook changes and other cells are selected", async () => {
    const cells = '<row r="1"><c r="A1"><v>7</v></c><c r="B1"><f>A1*2</f><v>14</v></c></row>';
    const { page, complaints } = await openFile("lodge.xlsx", Buffer.from(sheetOf(cells)));
    const select = async (address: string) => {
      await page.getByLabel("Selected cell").fill(address);
      await page.getByRole("button", { name: "Select", exact: true }).click();
    };
    const readTraced = () => page.locator(".step > .value").first().textContent();
    await choose(page, "trace");
    await select("Sheet1!B1");
    await expect.poll(readTraced).toContain("14");
    await page.getByLabel("Keep this trace").check();
    await select("Sheet1!A1");
    await page.evaluate(() => document.querySelector(".step")?.classList.add("before"));
    await page.getByRole("button", { name: "Write this trace to a new sheet" }).click();
    // The change is noticed, and the trace made anew; what was said of the last step stays.
    await page.waitForFunction(() => document.querySelector(".step") && !document.querySelector(".step.before"));
    expect(await readStatus(page)).toBe("The trace is on the sheet “Trace”.");
    expect(await readTraced()).toContain("14");
    await page.getByLabel("Keep this trace").uncheck();
    await expect.poll(readTraced).not.toContain("14");
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("starts a test in an empty sheet, inserts a function, and overwrites nothing", async () => {
    const { page, complaints } = await openFile("lodge.xlsx", Buffer.from(sheetOf("")));
    const select = async (address: string) => {
      await page.getByLabel("Selected cell").fill(address);
      await page.getByRole("button", { name: "Select", exact: true }).click();
    };
    await select("Sheet1!B4");
    await choose(page, "start");
    await page.getByRole("button", { name: "Pick the cell to put it in" }).click();
    await page.getByRole("button", { name: "Show the cells" }).click();
    await page.getByRole("button", { name: "Write these cells" }).click();
    await expect.poll(() => readStatus(page)).toMatch(/^Written to Sheet1!B4:/);
    await page.getByRole("button", { name: "Show the cells" }).click();
    await expect.poll(() => readStatus(page)).toMatch(/^Nothing can be written: Sheet1!B4 already holds something/);

    await choose(page, "functions");
    await select("Sheet1!A1");
    await page.locator("#METHODVERSION summary").click();
    await page.locator("#METHODVERSION .function-form").getByRole("button", { name: "Insert" }).click();
    await expect.poll(() => readStatus(page)).toBe("Written to Sheet1!A1.");
    await choose(page, "trace");
    await select("Sheet1!A1");
    await expect.poll(() => page.locator(".step > .value").first().textContent()).toMatch(/\d+\.\d+\.\d+/);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("mends formulas that were typed where the add-in was not there", async () => {
    const typed = '<row r="1"><c r="A1" t="e"><f>STILLAIR.METHODVERSION()</f><v>#NAME?</v></c></row>';
    const { page, complaints } = await openFile("lodge.xlsx", Buffer.from(sheetOf(typed)));
    await page.getByRole("heading", { name: "Formulas that show #NAME?" }).waitFor();
    await page.getByRole("button", { name: "Mend", exact: true }).click();
    await expect.poll(() => readStatus(page)).toBe("1 formula was entered once more.");
    expect(await page.locator(".mend").count()).toBe(0);
    await choose(page, "trace");
    await page.getByLabel("Selected cell").fill("Sheet1!A1");
    await page.getByRole("button", { name: "Select", exact: true }).click();
    await expect.poll(() => page.locator(".step > .value").first().textContent()).toMatch(/\d+\.\d+\.\d+/);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("says in one sentence why a file is not read", async () => {
    const { page } = await openPane(browser, server.address, { office: withoutExcel });
    page.setDefaultTimeout(60_000);
    const buffer = Buffer.from("no workbook at all");
    await page.locator("#open-file input[type=file]").setInputFiles({ name: "notes.xlsx", mimeType: "", buffer });
    await choose(page, "verdict");
    await expect.poll(() => readStatus(page)).toMatch(/not a workbook|no workbook|not .*\.xlsx|zip/i);
    await page.close();
  });

  it.each([
    [320, false],
    [320, true],
    [900, false],
  ])("at %i pixels (dark: %s) axe finds nothing in any tool, and nothing is cut off", async (width, dark) => {
    const { page } = await openOver("logger-import.xlsx", { width, dark });
    await page.evaluate(axe.source);
    for (const tab of ["home", "start", "functions", "verdict", "trace", "graph", "check", "trial", "files"]) {
      await choose(page, tab);
      const overflow = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(overflow, tab).toBeLessThanOrEqual(0);
      expect(await findAxeProblems(page), tab).toEqual([]);
    }
    await choose(page, "functions");
    await page.locator("#FLOORAREA summary").click();
    await page.locator("#FLOORAREA .function-form").waitFor();
    expect(await findAxeProblems(page), "a form").toEqual([]);
    await choose(page, "check");
    await page.getByRole("button", { name: "Review the workbook" }).click();
    await page.locator(".lead").waitFor();
    expect(await findAxeProblems(page), "findings").toEqual([]);
    await page.close();
  });

  it("has one main part, and a link to the tool that is shown", async () => {
    const { page } = await openFile("lodge.xlsx", Buffer.from(sheetOf("")));
    expect(await page.locator("main").count()).toBe(1);
    await page.locator(".skip").focus();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Skip to the tool");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("panel");
    expect(await page.locator("[aria-selected=true]").textContent()).toBe("Home");
    await page.close();
  });

  it("leads from the functions to the cautions", async () => {
    const { page } = await openFile("lodge.xlsx", Buffer.from(sheetOf("")));
    await choose(page, "functions");
    await page.getByRole("link", { name: "Before the fan runs" }).click();
    await page.getByRole("heading", { name: "Before the fan runs" }).waitFor();
    expect(await page.locator("[aria-selected=true]").textContent()).toBe("Home");
    await page.close();
  });

  it.each([false, true])(
    "in high contrast (dark: %s) shows which tool is chosen, and frames what a ground set apart",
    async (dark) => {
      const { page } = await openOver("logger-import.xlsx", { forced: true, dark });
      const readStyle = (selector: string, name: "background-color" | "border-top-width" | "stroke") =>
        page
          .locator(selector)
          .first()
          .evaluate((one, property) => getComputedStyle(one).getPropertyValue(property), name);
      const readSystem = (name: string) =>
        page.evaluate((colour) => {
          const probe = document.body.appendChild(document.createElement("i"));
          probe.style.color = colour;
          const { color } = getComputedStyle(probe);
          probe.remove();
          return color;
        }, name);
      expect(await readStyle(".mark-line", "stroke")).toBe(await readSystem("CanvasText"));
      await choose(page, "trace");
      await page.getByRole("button", { name: /Trace the verdict/ }).click();
      await page.locator(".step > .numbers").first().waitFor();
      expect(await readStyle("#tab-trace", "background-color")).toBe(await readSystem("Highlight"));
      expect(await readStyle("#tab-home", "background-color")).not.toBe(await readSystem("Highlight"));
      expect(await readStyle(".step > .numbers", "border-top-width")).toBe("1px");
      await choose(page, "functions");
      await page.locator("#FLOORAREA summary").click();
      expect(await readStyle("#FLOORAREA .formula", "border-top-width")).toBe("1px");
      expect(await readStyle("#FLOORAREA .example", "border-top-width")).toBe("1px");
      await page.close();
    },
  );
});
