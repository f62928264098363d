import { startBrowser } from "../browser/open-pane";
import { choose, openReader, readGiven } from "../browser/open-reader";

export interface ReaderSpeed {
  /** From choosing a final test to its verdict on the page, over the evaluation in that same run. */
  readonly firstView: readonly number[];
  /** Milliseconds of the main thread's longest task while the review runs; 0 where none reached 50. */
  readonly longestTasks: readonly number[];
}

const rounds = 5;

/** The review page in Chromium, a fresh page in each round as a person opens it. */
export async function timeReader(dist: string): Promise<ReaderSpeed> {
  const browser = await startBrowser();
  const finalTest = readGiven("sample-workbooks/final-test.xlsx");
  const firstView: number[] = [];
  const longestTasks: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const { page } = await openReader(browser, dist);
    // Of the browser's own clock, from the change of the file input on; no function with a name, which tsx would give a helper of its own.
    await page.evaluate(() => {
      document.addEventListener("change", () => performance.mark("chosen"), { capture: true, once: true });
      new MutationObserver((_, observer) => {
        if (!document.querySelector(".verdict .word")) return;
        observer.disconnect();
        requestAnimationFrame(() => performance.measure("first view", "chosen"));
      }).observe(document.body, { childList: true, subtree: true });
      new PerformanceObserver(() => {}).observe({ type: "longtask", buffered: true });
    });
    await choose(page, finalTest);
    await page.waitForFunction(() => performance.getEntriesByName("first view").length > 0);
    const whole = await page.evaluate(() => performance.getEntriesByName("first view")[0]?.duration ?? 0);
    const [worker] = page.workers();
    const evaluation = await worker?.evaluate(() => performance.getEntriesByName("evaluation")[0]?.duration);
    firstView.push(whole / (evaluation ?? NaN));

    await page.locator("#tab-findings").click();
    await page.evaluate(() => {
      const longest = { duration: 0 };
      Object.assign(globalThis, { longest });
      new PerformanceObserver((list) => {
        for (const { duration } of list.getEntries()) longest.duration = Math.max(longest.duration, duration);
      }).observe({ type: "longtask" });
    });
    await page.locator("[role=tabpanel] button.main").click();
    await page.waitForSelector(".findings");
    longestTasks.push(
      await page.evaluate(() => (globalThis as unknown as { longest: { duration: number } }).longest.duration),
    );
    await page.close();
  }
  await browser.close();
  return { firstView: sort(firstView), longestTasks: sort(longestTasks) };
}

const sort = (numbers: number[]): number[] => numbers.sort((one, other) => one - other);
