import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import type { View } from "./open-pane";

export interface ReaderPage {
  readonly page: Page;
  /** Requests after the page's own, console errors, exceptions and violations of the policy: all should be none. */
  readonly complaints: string[];
}

export interface Given {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export const readGiven = (path: string): Given => ({ name: basename(path), bytes: readFileSync(path) });

/** Opens the review page as from a memory stick, and notes everything that goes wrong in it. */
export async function openReader(
  browser: Browser,
  dist: string,
  { width = 1280, height = 900, dark = false, locale = "en-GB" }: View & { readonly locale?: string } = {},
): Promise<ReaderPage> {
  const page = await browser.newPage({ viewport: { width, height }, colorScheme: dark ? "dark" : "light", locale });
  // Every wait of these tests is for something that the page does in seconds; a busy machine takes longer.
  page.setDefaultTimeout(120_000);
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => complaints.push(`exception: ${error.message}`));
  const address = pathToFileURL(join(dist, "reader.html")).href;
  page.on("request", (request) => {
    const url = request.url();
    if (url !== address && !url.startsWith("blob:")) complaints.push(`request: ${url}`);
  });
  await page.goto(address);
  return { page, complaints };
}

const asFile = ({ name, bytes }: Given) => ({ name, mimeType: "", buffer: Buffer.from(bytes) });

/** Chooses workbooks as a person does, by the button for files. */
export async function choose(page: Page, ...given: readonly Given[]): Promise<void> {
  await page.locator("input[type=file][multiple]").first().setInputFiles(given.map(asFile));
}

/** Chooses a workbook and, on the page that compares, the later version of it. */
export async function compare(page: Page, earlier: Given, later: Given): Promise<void> {
  await choose(page, earlier);
  await page.waitForSelector("#tab-compare");
  await chooseTab(page, "compare");
  await chooseLater(page, later);
}

/** Chooses the later version on the page that compares. */
export async function chooseLater(page: Page, later: Given): Promise<void> {
  await page.locator("[role=tabpanel] input[type=file]").setInputFiles(asFile(later));
}

/** Chooses a tab and waits until its view is there. */
export async function chooseTab(page: Page, name: string): Promise<void> {
  await page.locator(`#tab-${name}`).click();
  await page.waitForFunction(() => document.querySelector(".status")?.textContent === "");
}
