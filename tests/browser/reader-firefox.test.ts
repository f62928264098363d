import { resolve } from "node:path";
import { afterAll, beforeAll, expect, inject, it } from "vitest";
import { slow } from "../time-outs";
import { Firefox } from "./firefox";
import { serve } from "./serve";
import { walkPage } from "./walk-page";

const panel = "[role=tabpanel]";
let server: Awaited<ReturnType<typeof serve>>;
let firefox: Firefox;
let page: string;

// Served, since Firefox reports no request for what lies on a disk.
beforeAll(async () => {
  server = await serve(inject("dist"));
  page = `${server.address}/reader.html`;
  firefox = await Firefox.start();
  await firefox.open(page);
}, slow);
afterAll(async () => {
  await firefox?.close();
  await server?.close();
});

/** Waits until the page has something. */
const wait = (selector: string) =>
  firefox.evaluate(async (wanted) => {
    for (const end = Date.now() + 120_000; Date.now() < end;) {
      const found = document.querySelector(wanted);
      if (found) return found.textContent;
      await new Promise((go) => setTimeout(go, 15));
    }
    throw new Error(`no ${wanted}`);
  }, selector);

it("Firefox walks the main path of a final test, and asks the network for nothing", { timeout: slow }, async () => {
  await firefox.setFiles("input[type=file][multiple]", [resolve("sample-workbooks/final-test.xlsx")]);
  await wait(`${panel} .view`);
  const seen = await firefox.evaluate(walkPage, { review: true, changes: true });
  expect(seen.verdicts).toEqual([{ cell: "Results!F45", word: "Pass" }]);
  expect(seen.recalculation).toContain("Every result is what the file says.");
  expect(seen.findings).toBe("No errors and no warnings.");
  expect(seen.steps.at(-1)).toMatch(/, typed in$/);
  expect(seen.readings).toBe(29);
  expect(seen.trial).toMatch(/^[1-9]\d* results? changes?\.$/);
  expect(seen.issued).toMatch(/Fingerprint [0-9a-f]{64}/);

  await firefox.evaluate(() => document.getElementById("tab-compare")?.click(), undefined);
  await wait(`${panel} input[type=file]`);
  await firefox.setFiles(`${panel} input[type=file]`, [resolve("sample-workbooks/blank/final-test.xlsx")]);
  expect(await wait(`${panel} h3`)).toMatch(/^Verdicts that differ/);

  // What is in the page itself is no request to a network; and a browser asks every address for its icon.
  expect(firefox.requests.filter((url) => !/^(blob|data):|\/favicon\.ico$/.test(url))).toEqual([page]);
  expect(firefox.complaints).toEqual([]);
});
