import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { drawLeakageGraph } from "../../src/workbook/graph/leakage-graph";
import { cases } from "../workbook/graph/cases";
import { listening } from "../cli/listening";
import { startBrowser } from "./open-pane";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "page-"));
const file = join(folder, "final-test.html");
const { resolve } = createRequire(import.meta.url);
const axe = readFileSync(resolve("axe-core/axe.min.js"), "utf8");
let browser: Browser;

beforeAll(async () => {
  const { output, heard } = listening();
  const code = runRecalcCommand(["sample-workbooks/final-test.xlsx", "--html", file], output);
  expect([code, heard().err]).toEqual([0, ""]);
  browser = await startBrowser();
}, slow);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

interface View {
  readonly width: number;
  readonly dark?: boolean;
}

/** The page with everything that it complains of or asks for. */
async function open({ width, dark = false }: View): Promise<{ page: Page; complaints: string[] }> {
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme: dark ? "dark" : "light" });
  const complaints: string[] = [];
  page.on("console", (message) => void complaints.push(message.text()));
  page.on("request", (request) => {
    if (request.url() !== pathToFileURL(file).href) complaints.push(`request: ${request.url()}`);
  });
  await page.goto(pathToFileURL(file).href);
  return { page, complaints };
}

interface Axe {
  run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[]; passes: unknown[] }>;
}

/** What axe finds wrong with the page and its first few sheets, and how many rules it found kept. Axe looks at every cell, which takes its time. */
async function judged(page: Page, sheets: number) {
  await page.evaluate((kept) => {
    for (const [index, sheet] of document.querySelectorAll(".sheet-part").entries()) if (index >= kept) sheet.remove();
  }, sheets);
  // Evaluated from outside, as a reviewer's own tools are: the page's policy would refuse it as a script.
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { violations, passes } = await (globalThis as unknown as { axe: Axe }).axe.run();
    return {
      kept: passes.length,
      broken: violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200) ?? ""}`),
    };
  });
}

/** How wide the page is, and whether some sheet scrolls within its own region. */
async function widthsOf(page: Page) {
  return page.evaluate(() => ({
    beyondWindow: document.documentElement.scrollWidth > window.innerWidth,
    sheetScrolls: [...document.querySelectorAll(".sheet-part .scroll")].some(
      ({ scrollWidth, clientWidth }) => scrollWidth > clientWidth,
    ),
  }));
}

describe("the page of a workbook", { timeout: slow }, () => {
  it("narrow: scrolls its tables, not itself, keeps the rules of accessibility, and asks for nothing", async () => {
    const { page, complaints } = await open({ width: 390 });
    expect(await widthsOf(page)).toEqual({ beyondWindow: false, sheetScrolls: true });
    const { kept, broken } = await judged(page, 2);
    expect(broken).toEqual([]);
    expect(kept).toBeGreaterThan(15);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("dark: keeps the rules of accessibility outside its sheets, which are white paper", async () => {
    const { page, complaints } = await open({ width: 1280, dark: true });
    const { kept, broken } = await judged(page, 0);
    expect(broken).toEqual([]);
    expect(kept).toBeGreaterThan(15);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("leaves room between the title of a chart's axis and the numbers along it", async () => {
    const { page } = await open({ width: 1280 });
    const meeting = await page.evaluate(() => {
      const texts = [...document.querySelectorAll("#sheet-1 figure svg text, #sheet-1 svg text")];
      const boxes = texts.map((one) => ({ text: one.textContent ?? "", box: one.getBoundingClientRect() }));
      const title = boxes.find(({ text }) => text.startsWith("air flow"));
      if (!title) return "no title";
      return boxes
        .filter(({ box, text }) => /^\d+$/.test(text) && box.left < title.box.right && box.right > title.box.left)
        .filter(({ box }) => box.top < title.box.bottom && box.bottom > title.box.top)
        .map(({ text }) => text);
    });
    expect(meeting).toEqual([]);
    await page.close();
  });

  it("wide: carries looks and conditional formats, leads to every part and sheet, and prints without its links", async () => {
    const { page, complaints } = await open({ width: 1280 });
    expect(await widthsOf(page)).toEqual({ beyondWindow: false, sheetScrolls: true });
    const seen = await page.evaluate(() => {
      const verdict = [...document.querySelectorAll("#sheet-1 table.sheet td")].find(
        (cell) => cell.textContent === "PASS",
      );
      const links = [...document.querySelectorAll<HTMLAnchorElement>("a[href^='#']")].map(({ hash }) => hash);
      return {
        verdict: verdict ? getComputedStyle(verdict).backgroundColor : "no verdict",
        dead: links.filter((hash) => !document.getElementById(hash.slice(1))),
        sheets: document.querySelectorAll(".sheet-part").length,
        listed: document.querySelectorAll("nav[aria-label=Sheets] a").length,
      };
    });
    expect(seen).toMatchObject({ verdict: "rgb(15, 90, 70)", dead: [], listed: seen.sheets });
    expect(seen.sheets).toBeGreaterThan(5);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("nav").first().isVisible()).toBe(false);
    expect(await page.locator("table.sheet").first().isVisible()).toBe(true);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe("graphs as a browser draws them", { timeout: slow }, () => {
  let page: Page;
  beforeAll(async () => void (page = await browser.newPage()));

  it.each(Object.entries(cases))("%s: no word leaves the paper or meets another", async (_, data) => {
    const font = (weight: string, path: string) =>
      `@font-face{font-family:Arial;font-weight:${weight};src:url(data:font/ttf;base64,${readFileSync(resolve(`@expo-google-fonts/arimo/${path}`)).toString("base64")})}`;
    const fonts = font("400", "400Regular/Arimo_400Regular.ttf") + font("700", "700Bold/Arimo_700Bold.ttf");
    await page.setContent(`<style>${fonts}body{margin:0}</style>${drawLeakageGraph(data)}`);
    const misplaced = await page.evaluate(async () => {
      await document.fonts.ready;
      const svg = document.querySelector("svg")?.getBoundingClientRect() ?? new DOMRect();
      const boxes = [...document.querySelectorAll("text:not([stroke])")].map((word) => {
        const { left, right, top, bottom } = word.getBoundingClientRect();
        // Boxes hold the room above capitals and below descenders, which letters next to each other may share.
        const slack = 0.2 * (bottom - top);
        return { text: word.textContent, left, right, top: top + slack, bottom: bottom - slack };
      });
      const outside = boxes.filter(
        (box) => box.left < svg.left || box.right > svg.right || box.top < svg.top || box.bottom > svg.bottom,
      );
      const meeting = boxes.flatMap((one, index) =>
        boxes
          .slice(index + 1)
          .filter(
            (other) =>
              one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom,
          )
          .map((other) => `${one.text} / ${other.text}`),
      );
      return { count: boxes.length, wrong: [...outside.map(({ text }) => text), ...meeting] };
    });
    expect(misplaced.count).toBeGreaterThan(20);
    expect(misplaced.wrong).toEqual([]);
  });
});
