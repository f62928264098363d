import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";

const folder = "src/taskpane/icons";

/** The sizes named in the manifest, each with its drawing. */
const icons = [
  { size: 16, drawing: "icon-small.svg" },
  { size: 32, drawing: "icon.svg" },
  { size: 64, drawing: "icon.svg" },
  { size: 80, drawing: "icon.svg" },
];

/** Renders the add-in's icons from their drawings with a local Chromium; run it after a drawing has changed: `npx tsx src/cli/icons.ts`. */
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
try {
  for (const { size, drawing } of icons) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    const svg = readFileSync(join(folder, drawing), "utf8");
    await page.setContent(`<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`);
    writeFileSync(join(folder, `icon-${size}.png`), await page.screenshot({ omitBackground: true }));
    await page.close();
    console.log(`${folder}/icon-${size}.png`);
  }
} finally {
  await browser.close();
}
