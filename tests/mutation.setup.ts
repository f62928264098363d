import fc from "fast-check";
import { afterAll, beforeAll } from "vitest";
import "../src/core";

type Hits = Record<string, number>;
/** How often the mutants were reached: while modules load, and in each test. */
interface Reached {
  static: Hits;
  perTest: Record<string, Hits>;
}
const shared = globalThis as { __stryker__?: { mutantCoverage?: Reached }; loading?: { hits: Hits; told: boolean } };

// The same draws for every mutant, so that luck does not decide; and a failing draw is enough, the simplest one is not looked for.
fc.configureGlobal({ seed: 20261125, endOnFailure: true });

// A mutant that only loading reaches (a table of constants) needs all tests and a fresh start. That is slow, so nothing else may count as
// such: neither what a test file computes while it lists its tests, nor what a test reaches as well. The counts of all files are added up,
// and modules are kept from file to file: the first file tells what loading reached, a later one takes back what its tests reach.
const loading = (shared.loading ??= { hits: { ...shared.__stryker__?.mutantCoverage?.static }, told: false });
beforeAll(() => {
  if (shared.__stryker__?.mutantCoverage) shared.__stryker__.mutantCoverage.perTest = {};
});
afterAll(() => {
  const coverage = shared.__stryker__?.mutantCoverage;
  if (coverage === undefined) return;
  coverage.static = loading.told ? {} : { ...loading.hits };
  loading.told = true;
  for (const id of Object.values(coverage.perTest).flatMap(Object.keys)) {
    const hits = loading.hits[id];
    if (hits === undefined) continue;
    coverage.static[id] = (coverage.static[id] ?? 0) - hits;
    delete loading.hits[id];
  }
});
