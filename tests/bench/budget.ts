import { bareFit } from "./fits";
import { ratios, type Ratio } from "./ratio";
import { testOfHalf, wholeTest } from "./readings";
import { shippedFunctions } from "./shipped";

const trials = 10_000;

/** What no Monte Carlo run can leave out: a fit a trial. */
function bareTrials(): number {
  let sum = 0;
  for (let trial = 0; trial < trials; trial++) sum += bareFit()[0]!;
  return sum;
}

/** Ratios of the budget and the checks to the whole test that they belong to. */
export function budgetRatios(bundle: string): Ratio[] {
  const shipped = shippedFunctions(bundle);
  const [testResult, budget] = [shipped.get("TESTRESULT")!, shipped.get("UNCERTAINTYBUDGET")!];
  const checks = shipped.get("VALIDITYCHECKS")!;
  return ratios({ name: "TESTRESULT", run: () => testResult(...wholeTest(), null) }, [
    {
      name: "VALIDITYCHECKS",
      run: () => checks(...wholeTest(), null),
      half: () => checks(...testOfHalf(), null),
    },
    {
      name: "UNCERTAINTYBUDGET",
      run: () => budget(...wholeTest(), null, null),
      half: () => budget(...testOfHalf(), null, null),
    },
  ]);
}

/** Ratio of a Monte Carlo run in the sheet to as many bare fits. */
export function trialRatios(bundle: string): Ratio[] {
  const budget = shippedFunctions(bundle).get("UNCERTAINTYBUDGET")!;
  const [test, ofHalf] = [trials, trials / 2].map((count) => wholeTest(["monte carlo trials", count])) as [
    unknown[],
    unknown[],
  ];
  return ratios({ name: "bare fits", run: bareTrials }, [
    {
      name: "UNCERTAINTYBUDGET, 10 000 Monte Carlo trials",
      run: () => budget(...test, null, null),
      half: () => budget(...ofHalf, null, null),
    },
  ]);
}
