import { existsSync } from "node:fs";
import { join } from "node:path";
import { type Browser, type Page, chromium } from "playwright-core";
import { slow } from "../time-outs";

const officeFolder = "node_modules/@microsoft/office-js/dist";
const officeAddress = "https://appsforoffice.microsoft.com/lib/1/hosted/";

/** How Microsoft's file is answered: the real one from its package, a stand-in, or not at all. */
export type Office = "real" | "unreachable" | { readonly script: string };

export interface Pane {
  readonly page: Page;
  /** Console errors, exceptions, violations of the page's policy and requests to other places: all should be none. */
  readonly complaints: string[];
}

export async function startBrowser(): Promise<Browser> {
  const executablePath = process.env["CHROMIUM"] ?? "/usr/bin/chromium";
  if (!existsSync(executablePath))
    throw new Error(`No Chromium at ${executablePath}: install it, or name another in the variable CHROMIUM`);
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
}

export interface View {
  readonly office?: Office;
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  /** The system's high contrast. */
  readonly forced?: boolean;
  readonly hash?: string;
}

/** The file of Microsoft's package for an address; undefined where it is not Microsoft's. */
export const findOfficeFile = (url: string): string | undefined =>
  url.startsWith(officeAddress)
    ? join(officeFolder, new URL(url).pathname.slice(new URL(officeAddress).pathname.length))
    : undefined;

/** Notes everything that goes wrong in a page and in its frames. */
export async function watch(page: Page): Promise<string[]> {
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => complaints.push(`exception: ${error.message}`));
  await page.exposeFunction("noteViolation", (violation: string) => complaints.push(`policy: ${violation}`));
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) => {
      (window as unknown as { noteViolation: (text: string) => void }).noteViolation(
        `${violatedDirective} ${blockedURI}`,
      );
    });
  });
  return complaints;
}

/** Opens the pane's page and notes everything that goes wrong in it. */
export async function openPane(
  browser: Browser,
  address: string,
  { office = "real", width = 320, height = 800, dark = false, forced = false, hash = "" }: View = {},
): Promise<Pane> {
  const page = await browser.newPage({
    viewport: { width, height },
    colorScheme: dark ? "dark" : "light",
    forcedColors: forced ? "active" : "none",
  });
  page.setDefaultTimeout(slow);
  const complaints = await watch(page);
  await page.route(
    (url) => url.origin !== address,
    (route) => {
      const url = route.request().url();
      const path = findOfficeFile(url);
      if (path === undefined) complaints.push(`request: ${url}`);
      else if (office === "real") return route.fulfill({ path });
      else if (office !== "unreachable") return route.fulfill({ contentType: "text/javascript", body: office.script });
      return route.abort();
    },
  );
  await page.goto(`${address}/taskpane.html${hash}`);
  await page.waitForFunction(() => document.querySelector<HTMLElement>("#host")?.dataset["state"] !== undefined);
  return { page, complaints };
}

/**
 * Microsoft's file where no Excel is around it: the functions that the page associates are kept in `associated`. The real file begins, after some seconds,
 * what the page's policy forbids.
 */
export const withoutExcel = {
  script: `
    globalThis.associated = new Map();
    globalThis.CustomFunctions = {
      associate: (id, compute) => void associated.set(id, compute), Error: class extends Error {}, ErrorCode: {},
    };
    globalThis.Office = { onReady: () => Promise.resolve({ host: null }) };`,
};

/** Opens the pane outside Excel over a workbook, as a person does who has no Excel at hand. */
export async function openPaneOver(
  browser: Browser,
  address: string,
  { name, bytes }: { readonly name: string; readonly bytes: Uint8Array },
  view?: View,
): Promise<Pane> {
  const pane = await openPane(browser, address, { office: withoutExcel, ...view });
  // Every wait is for something that takes seconds; a busy machine takes longer.
  pane.page.setDefaultTimeout(60_000);
  await pane.page
    .locator("#open-file input[type=file]")
    .setInputFiles({ name, mimeType: "", buffer: Buffer.from(bytes) });
  await pane.page.locator("#tab-home").waitFor();
  return pane;
}
