import { readFileSync } from "node:fs";
import type { Browser, Frame } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { slow } from "../time-outs";
import { type HostName, hosts, openPaneInExcel } from "./office-host";
import { openPane, startBrowser } from "./open-pane";
import { serve } from "./serve";

const dist = inject("dist");
let browser: Browser;

beforeAll(async () => {
  browser = await startBrowser();
}, slow);
afterAll(async () => {
  await browser?.close();
});

const workbook = readFileSync("sample-workbooks/logger-import.xlsx");

const readStatus = (pane: Frame) => pane.locator(".tools > .status").textContent();

async function choose(pane: Frame, tab: string): Promise<void> {
  await pane.locator(`#tab-${tab}`).click();
  await pane.waitForFunction(() => !/Working|Reviewing/.test(document.querySelector(".status")?.textContent ?? ""));
}

/** What each tool shows of the workbook that the stand-in hands over. */
const shown = {
  start: "#block-graph:checked",
  functions: "#reference",
  verdict: ".verdict .word",
  trace: ".caution",
  graph: "figure svg",
  check: ".view button",
  trial: ".find input",
  files: ".offers button",
} as const;

/**
 * Chromium keeps a frame of another site from its session storage. office.js catches that and says so; nothing else depends on it.
 */
const saysOffice = (line: string): boolean =>
  line.startsWith("console: SecurityError: Failed to read the 'sessionStorage'");

describe("the pane with Microsoft's scripts for each Excel", { timeout: slow }, () => {
  it.each(Object.keys(hosts) as HostName[])(
    "%s: opens every tool, breaks no rule of its policy and leaves no error uncaught",
    async (host) => {
      const { page, pane, complaints, loaded } = await openPaneInExcel(browser, dist, host, workbook);
      await pane.locator("#host[data-state=ready]").waitFor();
      expect(loaded).toContain(hosts[host].script);
      await pane.locator("#tab-home").waitFor();
      expect(await pane.getByText("open for reading only").count()).toBe(0);
      // Home is not followed by the list of functions, which is a tool of its own.
      expect(await pane.locator("#reference").count()).toBe(0);
      for (const [tab, place] of Object.entries(shown)) {
        await choose(pane, tab);
        await pane.locator(place).first().waitFor();
        expect(await readStatus(pane), tab).toBe("");
      }
      // The figures come from the file that office.js handed over.
      await choose(pane, "trace");
      await pane.getByRole("button", { name: /Trace the verdict/ }).click();
      await pane.locator(".step > .value").first().waitFor();
      expect(await pane.locator(".step > .value").first().textContent()).toContain("pass");
      await choose(pane, "check");
      await pane.getByRole("button", { name: "Review the workbook" }).click();
      await pane.locator(".lead").waitFor();
      expect(await pane.locator(".lead").textContent()).toBe("No errors and no warnings.");
      expect(complaints.filter((line) => host !== "web" || !saysOffice(line))).toEqual([]);
      await page.close();
    },
  );

  it.each(Object.keys(hosts) as HostName[])(
    "%s: a host that refuses even to tell of its events leaves no error uncaught",
    async (host) => {
      const { page, pane, complaints } = await openPaneInExcel(browser, dist, host, workbook, true);
      await pane.locator("#host[data-state=ready]").waitFor();
      await choose(pane, "verdict");
      await pane.locator(".verdict .word").first().waitFor();
      expect(complaints.filter((line) => host !== "web" || !saysOffice(line))).toEqual([]);
      await page.close();
    },
  );

  it("outside Excel stops what office.js begins for Office 2013: a frame of Microsoft's telemetry service", async () => {
    const server = await serve(dist);
    const { page, complaints } = await openPane(browser, server.address);
    // Without a word of a host office.js takes it for Office 2013, whose script opens a hidden frame after three seconds; Excel's own scripts open none.
    const frame = "policy: frame-src https://telemetryservice.firstpartyapps.oaspapps.com";
    await expect.poll(() => complaints, { timeout: slow }).toContain(frame);
    const violations = complaints.filter((line) => line.startsWith("policy:"));
    expect([...new Set(violations)].sort()).toEqual([frame, "policy: style-src-attr inline"]);
    expect(await page.locator("#host").getAttribute("data-state")).toBe("elsewhere");
    await page.close();
    await server.close();
  });
});
