import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import type { Output } from "../../src/cli/shared/output";
import { traceCommand } from "../../src/cli/trace/command";
import { verifyCommand } from "../../src/cli/verify/command";
import { listening } from "../cli/listening";
import { startBrowser } from "./open-pane";
import { slow } from "../time-outs";

const folder = mkdtempSync(join(tmpdir(), "policies-"));
const sample = "sample-workbooks/envelope-what-if.xlsx";
let browser: Browser;
beforeAll(async () => (browser = await startBrowser()), slow);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

type Page = [name: string, write: (file: string, output: Output) => number | Promise<number>];
const pages: Page[] = [
  ["recalc", (file, output) => runRecalcCommand([sample, "--html", file], output)],
  ["verify", (file, output) => verifyCommand([sample, "--html", file], output, "")],
  ["trace", (file, output) => traceCommand([sample, "Overview!C5", "--html", "--out", file], output)],
];

describe.each(pages)("the page that %s writes", { timeout: slow }, (name, write) => {
  const file = join(folder, `${name}.html`);

  it("has a policy that names its own style and script, and nothing else", async () => {
    await write(file, listening().output);
    const html = readFileSync(file, "utf8");
    const [, policy = ""] = /<meta http-equiv="Content-Security-Policy" content="([^"]+)">/.exec(html) ?? [];
    const hashes = [...html.matchAll(/<(style|script)>([\s\S]*?)<\/\1>/g)].map(
      ([, kind = "", text = ""]) => `${kind}-src 'sha256-${createHash("sha256").update(text).digest("base64")}'`,
    );
    expect(policy.replaceAll("&#39;", "'").split("; ")).toEqual([
      "default-src 'none'",
      ...hashes,
      "base-uri 'none'",
      "form-action 'none'",
    ]);
    // The policy comes before what it rules.
    expect(html.indexOf("Content-Security-Policy")).toBeLessThan(html.indexOf("<style>"));
  });

  it("works under it, and a browser runs no other script", async () => {
    const page = await browser.newPage();
    const complaints: string[] = [];
    page.on("console", (message) => void complaints.push(message.text()));
    await page.goto(pathToFileURL(file).href);
    expect(complaints).toEqual([]);
    const openAll = page.getByRole("button", { name: "Open all" });
    if (await openAll.count()) {
      await openAll.click();
      expect(await page.locator("main details:not([open])").count()).toBe(0);
    }
    await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "document.title = 'taken over'";
      document.body.append(script);
    });
    expect(await page.title()).not.toBe("taken over");
    expect(complaints.join("\n")).toContain("Content Security Policy");
    await page.close();
  });
});
