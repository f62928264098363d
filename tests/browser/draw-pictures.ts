// `npm run pictures` draws the two pictures of the README from the sample workbook, by the project's own commands: the cover as the page
// of `recalc --html` shows it, and the graph. It needs Chromium, as the tests do.
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { runGraphCommand } from "../../src/cli/graph/command";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { createConsoleOutput } from "../../src/cli/shared/output";
import { startBrowser } from "./open-pane";

const folder = mkdtempSync(join(tmpdir(), "stillair-pictures-"));
const target = "src/taskpane/help";
try {
  const workbook = join(folder, "house.xlsx");
  const page = join(folder, "house.html");
  copyFileSync("sample-workbooks/final-test.xlsx", workbook);
  const output = createConsoleOutput();
  const codes = [runRecalcCommand([workbook, "--html", page], output), await runGraphCommand([workbook], output)];
  if (codes.some((code) => code !== 0)) throw new Error("the sample workbook was not drawn");
  copyFileSync(join(folder, "house-graph.png"), join(target, "graph.png"));
  const browser = await startBrowser();
  const tab = await browser.newPage({ viewport: { width: 1100, height: 900 } });
  await tab.goto(pathToFileURL(page).href);
  await tab
    .locator('section[aria-label="Sheet Cover"] table')
    .first()
    .screenshot({ path: join(target, "cover.png") });
  await browser.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
