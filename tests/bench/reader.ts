import { startBrowser } from "../browser/open-pane";
import { choose, openReader, readGiven } from "../browser/open-reader";

export interface ReaderSpeed {
  /** From choosing a final test to its verdict on the page, over the evaluation in that same run. */
  readonly firstView: readonly number[];
  /** Milliseconds of the page's longest task while the review runs in its worker. */
  readonly longestTasks: readonly number[];
}

const rounds = 3;

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
    });
    const worker = page.workers()[0] ?? (await page.waitForEvent("worker"));
    // A person takes longer to choose a file than the worker to read its code.
    await worker.evaluate(() => undefined);
    await choose(page, finalTest);
    await page.waitForFunction(() => performance.getEntriesByName("first view").length > 0);
    const whole = await page.evaluate(() => performance.getEntriesByName("first view")[0]?.duration ?? 0);
    const evaluation = await worker.evaluate(() => performance.getEntriesByName("evaluation")[0]?.duration);
    firstView.push(whole / (evaluation ?? NaN));

    await page.locator("#tab-findings").click();
    await browser.startTracing(page, { categories: ["toplevel", "disabled-by-default-devtools.timeline"] });
    await page.locator("[role=tabpanel] button.main").click();
    await page.waitForSelector(".findings");
    longestTasks.push(findLongestTask((await browser.stopTracing()).toString()));
    await page.close();
  }
  await browser.close();
  return { firstView: sort(firstView), longestTasks: sort(longestTasks) };
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Processor time in µs, so that other programs on the machine do not count. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

function findLongestTask(trace: string): number {
  const { traceEvents } = JSON.parse(trace) as { traceEvents: TraceEvent[] };
  const threads = traceEvents.filter(({ name, args }) => name === "thread_name" && args?.name === "CrRendererMain");
  const isOfPage = ({ pid, tid }: TraceEvent): boolean => threads.some((one) => one.pid === pid && one.tid === tid);
  const tasks = traceEvents.filter((event) => event.ph === "X" && event.name.endsWith("RunTask") && isOfPage(event));
  return Math.max(...tasks.map(({ tdur }) => (tdur ?? 0) / 1000));
}

const sort = (numbers: number[]): number[] => numbers.sort((one, other) => one - other);
