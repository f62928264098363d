import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { slow } from "../time-outs";
import { startBrowser } from "./open-pane";

/** What the entry beside this file puts on the page. */
interface Stage {
  readonly pane: { choose: (name: string) => void; rest: () => Promise<void>; wake: () => Promise<void> };
  readonly reads: number;
  readonly done: readonly string[];
  version: number;
  hold: Promise<unknown>;
  change: () => void;
  rows: number;
  unbound: { name: string; count: number; isProtected: boolean }[];
  select: (cell: string) => void;
  endReview: (groups?: readonly unknown[]) => void;
}
declare const stage: Stage;

let browser: Browser;
let page: Page;
let script = "";

beforeAll(async () => {
  browser = await startBrowser();
  const entry = "tests/browser/pane-changes.entry.ts";
  const { outputFiles } = await build({ entryPoints: [entry], bundle: true, write: false, format: "iife" });
  script = outputFiles[0]!.text;
}, slow);
afterAll(() => browser?.close());

async function open(hears = true): Promise<void> {
  await page.evaluate((hearing) => {
    const { Stage } = globalThis as unknown as { Stage: new (hears: boolean) => Stage };
    Object.assign(globalThis, { stage: new Stage(hearing) });
  }, hears);
  await page.waitForTimeout(50);
}

beforeEach(async () => {
  page = await browser.newPage();
  const lists = '{"functions":[],"choices":{}}';
  await page.setContent(
    `<div id="tools"></div><script type="application/json" id="function-list">${lists}</script>` +
      '<script type="application/json" id="setting-list">[]</script>',
  );
  await page.addScriptTag({ content: script });
  return () => page.close();
});

const choose = (tab: string) => page.locator(`#tab-${tab}`).click();
const press = (name: string | RegExp) => page.getByRole("button", { name }).click();
const shows = (text: string) =>
  page.waitForFunction(
    (wanted) => document.querySelector<HTMLElement>("[role=tabpanel]")?.innerText.replace(/\s+/g, " ").includes(wanted),
    text,
  );
const says = (text: RegExp) => page.locator(".tools > .status").filter({ hasText: text }).waitFor();
const hasChanged = /^The workbook has changed; choose the tool again/;

describe("a workbook that changes beneath the pane", { timeout: slow }, () => {
  it("is read anew after the pane was hidden", async () => {
    await open();
    await choose("verdict");
    await shows("Result 1 1/h");
    await page.evaluate(() => stage.pane.rest());
    await page.evaluate(() => stage.change());
    await page.evaluate(() => stage.pane.wake());
    await says(hasChanged);
    await choose("verdict");
    await shows("Result 2 1/h");
  });

  it("is read each time where the program tells nothing", async () => {
    await open(false);
    await choose("verdict");
    await shows("Result 1 1/h");
    await page.evaluate(() => stage.change());
    await choose("trace");
    await choose("verdict");
    await shows("Result 2 1/h");
  });

  it("leaves its warning where the change came while it was read", async () => {
    await open();
    await page.evaluate(() => void (stage.hold = new Promise((go) => Object.assign(globalThis, { go }))));
    await choose("verdict");
    await page.waitForFunction(() => stage.reads === 1);
    await page.evaluate(() => stage.change());
    await page.evaluate(() => (globalThis as unknown as { go: () => void }).go());
    await shows("Result 1 1/h");
    await says(hasChanged);
  });

  it("is traced at the cell that is selected last", async () => {
    await open();
    await page.evaluate(() => void (stage.hold = new Promise((go) => Object.assign(globalThis, { go }))));
    await choose("trace");
    await page.waitForFunction(() => stage.reads === 1);
    await page.evaluate(() => stage.select("A5"));
    await page.waitForTimeout(500);
    await page.evaluate(() => (globalThis as unknown as { go: () => void }).go());
    await shows("Trace of S!A5");
  });

  it("is traced no more once another tool is chosen", async () => {
    await open();
    await choose("trace");
    await shows("Trace of S!A1");
    await page.evaluate(() => stage.select("A5"));
    await choose("verdict");
    await shows("Result 1 1/h");
    await page.waitForTimeout(600);
    await shows("Result 1 1/h");
  });

  it("is handed over and drawn as it is now", async () => {
    await open();
    await choose("files");
    await page.getByRole("button", { name: /issue copy as a new/ }).waitFor();
    await page.evaluate(() => stage.change());
    await press(/issue copy as a new/);
    await page.waitForFunction(() => stage.done.length === 1);
    await choose("graph");
    await page.getByRole("button", { name: "Insert as a chart" }).waitFor();
    await page.evaluate(() => stage.change());
    await press("Insert as a chart");
    await page.waitForFunction(() => stage.done.length === 2);
    expect(await page.evaluate(() => stage.done)).toEqual(["new workbook of 2", "chart of 3"]);
  });

  it("makes a review that began before old, and leaves the person where she is", async () => {
    await open();
    await choose("check");
    await press("Review the workbook");
    await choose("functions");
    await page.evaluate(() => stage.change());
    await page.evaluate(() => stage.endReview());
    await says(/has changed since the review began/);
    expect(await page.locator("[aria-selected=true]").textContent()).toBe("Functions");
    await choose("check");
    await page.getByRole("button", { name: "Review the workbook" }).waitFor();
  });

  it("says only that it was stopped where a person stops the review", async () => {
    await open();
    await choose("check");
    await press("Review the workbook");
    await press("Stop");
    await says(/^Stopped\.$/);
  });
});

describe("what a person was looking at", { timeout: slow }, () => {
  const readPath = () => page.locator(".path li").allInnerTexts();

  it("keeps the path of a trace while its steps are shown in their sheets, until she selects another cell", async () => {
    await open();
    await choose("trace");
    await press("What it reads");
    expect(await readPath()).toEqual(["Trace of S!A1", "What it reads"]);
    await press("Show in its sheet");
    await page.waitForTimeout(500);
    expect(await readPath()).toEqual(["Trace of S!A1", "What it reads"]);
    await choose("verdict");
    await shows("Result 1 1/h");
    await choose("trace");
    await shows("Keep this trace");
    expect(await readPath()).toEqual(["Trace of S!A1", "What it reads"]);
    await page.evaluate(() => stage.select("A5"));
    await shows("Trace of S!A5");
  });

  it("says that of several selected cells the first is traced", async () => {
    await open();
    await page.evaluate(() => (stage.rows = 1048576));
    await choose("trace");
    await shows("Several cells are selected; the trace is of the first, S!A1.");
    await page.evaluate(() => (stage.rows = 1));
    await page.evaluate(() => stage.select("A5"));
    await shows("Trace of S!A5");
    expect(await page.locator("[role=tabpanel]").innerText()).not.toContain("Several");
  });

  it("keeps what was typed under What if, also after a change of the workbook", async () => {
    await open();
    await choose("trial");
    await press("Change");
    await page.locator(".changes input").fill("5");
    await choose("verdict");
    await shows("Result 1 1/h");
    await choose("trial");
    expect(await page.locator(".changes input").inputValue()).toBe("5");
    await choose("verdict");
    await page.evaluate(() => stage.change());
    await choose("trial");
    await page.locator(".changes input").waitFor();
    expect(await page.locator(".changes input").inputValue()).toBe("5");
  });

  it("writes every finding of the list to a sheet, those of the same cause too", async () => {
    await open();
    await choose("check");
    await press("Review the workbook");
    await page.evaluate(() => {
      const finding = { severity: "error", kind: "typed result", place: "S!A1", what: "", why: "", todo: "" };
      const related = [{ ...finding, severity: "note", kind: "old result", place: "S!A9" }];
      const group = { first: finding, severity: "error", turnsVerdict: false, figure: "", places: ["S!A2"], related };
      stage.endReview([group]);
    });
    await press("Write the findings to a new sheet");
    await page.waitForFunction(() => stage.done.length > 0);
    expect(await page.evaluate(() => stage.done.slice(1))).toEqual([
      "Error, typed result, S!A1",
      "Error, typed result, S!A2",
      "Note, old result, S!A9",
    ]);
  });
});

describe("Home", { timeout: slow }, () => {
  const offer = () => page.getByRole("heading", { name: "Formulas that show #NAME?" });

  it("offers to mend cells that turn to #NAME? later, after a change and when it is chosen", async () => {
    await open();
    await page.evaluate(() => {
      stage.unbound = [{ name: "S", count: 1, isProtected: true }];
      stage.change();
    });
    await offer().waitFor();
    await page.locator(".mend input").check();
    await page.evaluate(() => stage.change());
    await page.waitForTimeout(1500);
    // The same offer stays as the person left it.
    expect(await page.locator(".mend input").isChecked()).toBe(true);
    await page.evaluate(() => (stage.unbound = []));
    await choose("verdict");
    await choose("home");
    await offer().waitFor({ state: "detached" });
  });

  it("offers to start the add-in with any workbook", async () => {
    await open();
    await press("Start the add-in with this workbook");
    await says(/will start with this workbook/);
    expect(await page.evaluate(() => stage.done)).toEqual(["starts with the workbook"]);
  });
});
