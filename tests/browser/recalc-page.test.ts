import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { recalcCommand } from "../../src/cli/recalc/command";
import { leakageGraph } from "../../src/workbook/graph/leakage-graph";
import { cases } from "../workbook/graph/cases";
import { startBrowser } from "./open-pane";

const folder = mkdtempSync(join(tmpdir(), "page-"));
const file = join(folder, "final-test.html");
const { resolve } = createRequire(import.meta.url);
const axe = readFileSync(resolve("axe-core/axe.min.js"), "utf8");
let browser: Browser;

beforeAll(async () => {
  const complaints: string[] = [];
  const output = { print: () => undefined, complain: (text: string) => void complaints.push(text) };
  const code = recalcCommand(["sample-workbooks/final-test.xlsx", "--html", file], output);
  expect([code, complaints]).toEqual([0, []]);
  browser = await startBrowser();
});
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
  run(context: { exclude: string[][] }): Promise<{
    violations: { id: string; nodes: { html: string }[] }[];
    passes: unknown[];
  }>;
}

/** What axe finds wrong, and how many rules it found kept. */
async function judged(page: Page, excluded: readonly string[]) {
  // Evaluated from outside, as a reviewer's own tools are: the page's policy would refuse it as a script.
  await page.evaluate(axe);
  return page.evaluate(
    async (exclude) => {
      const { violations, passes } = await (globalThis as unknown as { axe: Axe }).axe.run({ exclude });
      const broken = violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200) ?? ""}`);
      return { kept: passes.length, broken };
    },
    excluded.map((selector) => [selector]),
  );
}

// Axe looks at every cell, which takes its time: a few sheets stand for all, and in the dark scheme sheets are white paper too.
const judgedViews: readonly (readonly [View, string[]])[] = [
  [{ width: 390 }, ["#sheet-3", "#sheet-5", "#sheet-4", "#sheet-7 ~ .sheet-part"]],
  [{ width: 1280, dark: true }, [".sheet-part"]],
];

describe("the page of a workbook", () => {
  it.each(judgedViews)("at %o breaks no rule of accessibility and asks for nothing", async (view, excluded) => {
    const { page, complaints } = await open(view);
    const { kept, broken } = await judged(page, excluded);
    expect(broken).toEqual([]);
    expect(kept).toBeGreaterThan(15);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it.each([{ width: 1280 }, { width: 390 }])("at %o scrolls its tables, not itself", async (view) => {
    const { page } = await open(view);
    const widths = await page.evaluate(() => ({
      page: document.documentElement.scrollWidth,
      window: window.innerWidth,
      tables: [...document.querySelectorAll(".sheet-part .scroll")].map(
        ({ scrollWidth, clientWidth }) => scrollWidth > clientWidth,
      ),
    }));
    expect(widths.page).toBeLessThanOrEqual(widths.window);
    expect(widths.tables).toContain(true);
    await page.close();
  });
});

describe("the page of the sample workbook", () => {
  it("applies its looks and its conditional formats", async () => {
    const { page } = await open({ width: 1280 });
    const verdict = page.locator("#sheet-1 table.sheet td", { hasText: /^PASS$/ });
    expect(await verdict.evaluate((cell) => getComputedStyle(cell).backgroundColor)).toBe("rgb(15, 90, 70)");
    await page.close();
  });

  it("leads by its links to every part and sheet, and prints without its links", async () => {
    const { page } = await open({ width: 1280 });
    const dead = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLAnchorElement>("a[href^='#']")]
        .map(({ hash }) => hash)
        .filter((hash) => !document.getElementById(hash.slice(1))),
    );
    expect(dead).toEqual([]);
    expect(await page.locator("nav[aria-label=Sheets] a").count()).toBe(await page.locator(".sheet-part").count());
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("nav").first().isVisible()).toBe(false);
    expect(await page.locator("table.sheet").first().isVisible()).toBe(true);
    await page.close();
  });
});

describe("graphs as a browser draws them", () => {
  it.each(Object.entries(cases))("%s: no word leaves the paper or meets another", async (_, data) => {
    const page = await browser.newPage();
    const font = (weight: string, path: string) =>
      `@font-face{font-family:Arial;font-weight:${weight};src:url(data:font/ttf;base64,${readFileSync(resolve(`@expo-google-fonts/arimo/${path}`)).toString("base64")})}`;
    const fonts = font("400", "400Regular/Arimo_400Regular.ttf") + font("700", "700Bold/Arimo_700Bold.ttf");
    await page.setContent(`<style>${fonts}body{margin:0}</style>${leakageGraph(data)}`);
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
    await page.close();
  });
});
