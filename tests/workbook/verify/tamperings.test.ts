import { describe, expect, it } from "vitest";
import { expectFound } from "./expect-found";
import { adjustments } from "./tamperings/adjustments";
import { appearance } from "./tamperings/appearance";
import { decisions } from "./tamperings/decisions";
import { formulas } from "./tamperings/formulas";
import { readings } from "./tamperings/readings";
import { results } from "./tamperings/results";
import { verdicts } from "./tamperings/verdicts";

describe("tampered results are found", () => expectFound(results));
describe("tampered formulas are found", () => expectFound(formulas));

describe("the tamperings of this folder", () => {
  it("are eighty at least, each of its own", () => {
    const all = [results, formulas, readings, verdicts, appearance, decisions, adjustments].flat();
    expect(new Set(all.map(({ what }) => what)).size).toBe(all.length);
    expect(all.length).toBeGreaterThanOrEqual(80);
  });
});
