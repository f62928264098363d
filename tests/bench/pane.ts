import { openPaneOver, startBrowser } from "../browser/open-pane";
import { readGiven } from "../browser/open-reader";
import { serve } from "../browser/serve";
import { wholeTest } from "./readings";

const rounds = 3;

/** Calls of a function in the pane's page, in ms from when each was due until its result was there. */
interface Delays {
  readonly median: number;
  readonly longest: number;
}

/**
 * What a call of TESTRESULT waits for, beyond its usual time, while the pane reviews a final test: the longest of all calls of a review less the median
 * of calls without one, in ms, a figure a round. Functions and pane are one page, as in Excel's shared runtime; the review is in a worker.
 */
export async function timeCallsInReview(dist: string): Promise<readonly number[]> {
  const [browser, server] = [await startBrowser(), await serve(dist)];
  const extra: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const { page } = await openPaneOver(browser, server.address, readGiven("sample-workbooks/final-test.xlsx"));
    const call = (until: string): Promise<Delays> =>
      page.evaluate(
        async ({ given, until }) => {
          const { associated } = globalThis as unknown as {
            associated: Map<string, (...given: unknown[]) => unknown>;
          };
          const compute = associated.get("TESTRESULT")!;
          const delays: number[] = [];
          const end = performance.now() + 1000;
          while (until === "" ? performance.now() < end : !document.querySelector(until)) {
            const due = performance.now() + 5;
            await new Promise((go) => setTimeout(go, 5));
            compute(...given);
            delays.push(performance.now() - due);
          }
          delays.sort((one, other) => one - other);
          return { median: delays[delays.length >> 1] ?? NaN, longest: delays.at(-1) ?? NaN };
        },
        { given: [...wholeTest(), null], until },
      );
    await page.locator("#tab-check").click();
    await call("");
    const idle = await call("");
    await page.getByRole("button", { name: "Review the workbook" }).click();
    const busy = await call(".lead");
    extra.push(busy.longest - idle.median);
    await page.close();
  }
  await browser.close();
  await server.close();
  return extra;
}
