import { describe, expect, it } from "vitest";
import { ownSheet, saidOf, type Cells } from "./bare";
import { slow } from "../../time-outs";

/** The verdict on a figure made from the mean n50, which stands in B50. */
const judged = (formula: string): string[] => {
  const judge = (cells: Cells) => {
    cells["B51"] = { f: formula };
    cells["B52"] = 1.5;
    cells["B53"] = { f: "_xldudf_STILLAIR_PASSFAIL(B51,B52)" };
  };
  return saidOf({ Test: ownSheet({}, judge) }).filter((line) => line.includes("result altered"));
};

describe("what stands between the test's result and the verdict", { timeout: slow }, () => {
  it.each(["B50*0.95", "B50-0.03", "B50/1.05", "MIN(B50,0.61)"])("%s is found", (formula) => {
    expect(judged(formula)).toEqual([expect.stringMatching(/^warning: result altered in Test!B51: .*the closest is/)]);
  });

  it.each([
    "B50",
    "ROUND(B50,2)",
    'INDEX(AC2:AC39,MATCH("n50",AB2:AB39,0))',
    'INDEX(AK2:AK39,MATCH("qF50",AJ2:AJ39,0))',
    "B50*1.05",
  ])("%s is no alteration in the house's favour", (formula) => {
    expect(judged(formula)).toEqual([]);
  });
});
