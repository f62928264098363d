import { readdirSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openWorkbook, parseSheetArea, buildCellKey } from "../../src/workbook/index";
import { packed } from "../samples/parts";
import { slow } from "../time-outs";
import { issued } from "../workbook/issue-copy/issued";
import { filled, Tampered } from "../workbook/verify/tampered";
import { startBrowser } from "./open-pane";
import { choose, chooseLater, chooseTab, type Given, openReader, type ReaderPage, readGiven } from "./open-reader";
import { type Tasks, walkPage, type Walk } from "./walk-page";

const dist = inject("dist");
let browser: Browser;
let reader: ReaderPage;

// One page for all workbooks, as of a person who opens one after the other.
beforeAll(async () => {
  browser = await startBrowser();
  reader = await openReader(browser, dist);
}, slow);
afterAll(() => browser?.close());

const listNames = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith(".xlsx"));

const samples = listNames("sample-workbooks");
const blanks = listNames("sample-workbooks/blank");
const readSample = (name: string): Given => readGiven(`sample-workbooks/${name}`);
const readBlank = (name: string): Given => ({ ...readGiven(`sample-workbooks/blank/${name}`), name: `blank ${name}` });

/** Opens a workbook in the page and walks through its views. */
async function walk(given: Given, tasks: Partial<Tasks> = {}): Promise<Walk> {
  const { page, complaints } = reader;
  await choose(page, given);
  await page.waitForFunction(
    (name) => document.title === name && document.querySelector("[role=tabpanel] .view") !== null,
    given.name,
  );
  const seen = await page.evaluate(walkPage, { review: false, changes: false, ...tasks });
  expect(complaints, given.name).toEqual([]);
  return seen;
}

/** What the file itself says in cells. */
function readStored({ bytes }: Given, addresses: readonly string[]): unknown[] {
  const { sheets } = openWorkbook(bytes).book;
  return addresses.map((address) => {
    const area = parseSheetArea(address, sheets);
    return area && sheets[area.sheet]?.cells.get(buildCellKey(area.top, area.left))?.value;
  });
}

/** The workbook of five hundred houses is walked through without what recalculates it. */
const isLarge = (name: string): boolean => name.startsWith("programme-review");

describe("the review page over the workbooks of the project", { timeout: slow }, () => {
  it.each(samples)("walks through %s, then compares it with the blank form", async (name) => {
    const given = readSample(name);
    const {
      verdicts,
      recalculation,
      steps,
      chosen,
      trial,
      issued: copy,
    } = await walk(given, { changes: !isLarge(name) });
    expect(recalculation).toContain("Every result is what the file says.");
    const stored = readStored(
      given,
      verdicts.map(({ cell }) => cell),
    );
    expect(verdicts.map(({ word }) => word.toLowerCase())).toEqual(stored);
    expect(steps.length).toBeGreaterThan(1);
    expect(steps.at(-1)).toMatch(/, typed in$/);
    expect(steps.at(-1)).toContain(`!${chosen}`);
    if (isLarge(name)) return;
    expect(trial).toMatch(/^[1-9]\d* results? changes?\.$/);
    expect(copy).toMatch(/ is made\..*Fingerprint [0-9a-f]{64}/);

    const { page, complaints } = reader;
    await chooseTab(page, "compare");
    await chooseLater(page, readBlank(name));
    await page.locator("[role=tabpanel] h3", { hasText: "Inputs that differ" }).waitFor();
    expect(await page.locator("[role=tabpanel] h3").allInnerTexts()).not.toContain("Formulas that differ");
    expect(complaints).toEqual([]);
  });

  it.each(blanks)("walks through the blank %s", async (name) => {
    const { verdicts, recalculation, steps, readings } = await walk(readBlank(name));
    expect(recalculation).toContain("Every result is what the file says.");
    for (const { word } of verdicts) expect(word).toMatch(/^(not tested yet|Open)$/);
    expect(steps.at(-1)).toMatch(/, blank cells?$/);
    expect(readings).toBe(0);
  });

  it("walks through an issue copy, knows it as one, and finds nothing wrong with it", async () => {
    const { bytes } = issued(readSample("final-test.xlsx").bytes);
    const seen = await walk({ name: "issued.xlsx", bytes }, { review: true, changes: true });
    expect(seen.recalculation).toContain("This is an issue copy of 2026-11-05");
    expect(seen.verdicts.map(({ word }) => word)).toEqual(["Pass"]);
    expect(seen.findings).toBe("No errors and no warnings.");
    expect(seen.readings).toBe(29);
    expect(seen.issued).toMatch(/already an issue copy/);
    expect(seen.offers).not.toContain("every formula recalculated");
  });

  it("walks through a tampered copy: says what differs and finds an error", async () => {
    const tampered = new Tampered(readSample("final-test.xlsx").bytes);
    const { sheet, fanPressures } = tampered.test("depressurization");
    const [first] = filled(tampered, sheet, fanPressures);
    tampered.put(first!, 201.5);
    const seen = await walk({ name: "tampered.xlsx", bytes: packed(tampered.parts) }, { review: true, changes: true });
    expect(seen.recalculation).toMatch(/\d+ results differ from what the file says/);
    expect(seen.findings).toMatch(/[1-9]\d* errors?/);
    expect(seen.issued).toMatch(/recalculated first/);
    // The one binding condition that fails stands out from the advice, which is the same for each run and said once.
    await chooseTab(reader.page, "verdict");
    expect(await reader.page.locator(".unmet li[data-binding=true]").count()).toBe(1);
    expect(await reader.page.locator(".unmet li").count()).toBe(2);
  });
});
