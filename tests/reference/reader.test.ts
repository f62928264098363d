import { basename } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, it } from "vitest";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { evaluateBook, openWorkbook } from "../../src/workbook/index";
import { startBrowser } from "../browser/open-pane";
import { choose, openReader, type ReaderPage } from "../browser/open-reader";
import { folder, workbooksIn } from "./workbooks";

let browser: Browser;
let reader: ReaderPage;

beforeAll(async () => {
  browser = await startBrowser();
  reader = await openReader(browser, inject("dist"));
});
afterAll(() => browser?.close());

const wanted = 20;
const all = workbooksIn(folder);
/** Twenty of them, from every subfolder. */
const chosen = all.filter(
  (_, place) => Math.floor((place * wanted) / all.length) !== Math.floor(((place - 1) * wanted) / all.length),
);

/** What the commands say of a workbook: how many formulas they evaluate, or why they cannot read it. */
function describe(bytes: Uint8Array): string {
  try {
    const { cells } = evaluateBook(openWorkbook(bytes).book, { addIn: addInRegistry() });
    const formulas = cells.filter(({ role }) => role === "formula");
    return `${formulas.filter(({ outcome }) => outcome.evaluated).length} of ${formulas.length} formulas were recalculated`;
  } catch (problem) {
    return (problem as Error).message;
  }
}

it.each(chosen)("%s: the review page shows it, or says why not, as the commands do", async (path, bytes) => {
  const { page, complaints } = reader;
  const name = basename(path);
  await choose(page, { name, bytes });
  const shown = page.locator("[role=tabpanel] .view > section:last-child, .problems p").first();
  await page.waitForFunction(
    (title) => document.title === title || document.querySelector(".problems p") !== null,
    name,
  );
  expect(await shown.innerText()).toContain(describe(bytes));
  expect(complaints).toEqual([]);
});
