import { describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { settingsReference } from "../../src/functions/settings/reference";
import { listening } from "./listening";
import { slow } from "../time-outs";

function recalc(...given: string[]): { code: number; out: string; err: string } {
  const { output, heard } = listening();
  const code = runRecalcCommand(given, output);
  return { code, ...heard() };
}

describe("recalc --settings", () => {
  it("prints every setting without a workbook, in groups", () => {
    const { code, out } = recalc("--settings");
    expect(code).toBe(0);
    const lines = out.split("\n");
    for (const { label, group, means } of settingsReference) {
      expect(lines).toContain(group);
      expect(lines).toContain(`  ${label}: ${means}`);
    }
    expect(recalc("--settings", "?").out).toBe(out);
  });

  it("prints those in which every word occurs, with unit, default, example and functions", () => {
    expect(recalc("--settings", "gauge", "gain").out).toBe(
      [
        "Uncertainty budget",
        "  gauge accuracy: gain of the pressure gauge, half-width",
        "    unit       fraction",
        "    if blank   0.01",
        "    example    0.01",
        "    read by    UNCERTAINTYBUDGET",
        "  fan gauge accuracy: gain of the fan pressure gauge, half-width",
        "    unit       fraction",
        "    if blank   0.01",
        "    example    0.01",
        "    read by    UNCERTAINTYBUDGET",
        "  gauges of one calibration: whether both gauges share one calibration of their gain",
        "    unit       yes or no",
        "    if blank   no",
        "    example    yes",
        "    read by    UNCERTAINTYBUDGET",
        "",
      ].join("\n"),
    );
  });

  it("explains the words of a label", () => {
    const { out } = recalc("--settings", "wind place");
    expect(out).toMatch(/"near the ground" +read at the building\n/);
    expect(out).toMatch(/"weather station" +reported by a station/);
  });

  it("says that nothing was found, and what may have been meant", () => {
    expect(recalc("--settings", "smoke")).toEqual({
      code: 2,
      out: "",
      err: 'recalc: no setting has the words "smoke"\n',
    });
    expect(recalc("--settings", "barometrik pressure").err).toContain('did you mean "barometric pressure"');
  });

  it("needs a workbook otherwise", () => {
    expect(recalc()).toMatchObject({ code: 2, err: "recalc: name a workbook or a folder (see --help)\n" });
  });
});

it("--set '?' lists the cells that can be set by label, or those of one sheet", { timeout: slow }, () => {
  const file = "sample-workbooks/final-test.xlsx";
  const lines = recalc(file, "--set", "?").out.trimEnd().split("\n");
  expect(lines).toHaveLength(31);
  expect(lines[0]).toMatch(/^Cover!C6 +House +"Larch House"$/);
  expect(lines[30]).toMatch(/^… and \d+ more \(--list shows all, --set 'Sheet!\?' those of one sheet\)$/);
  const ofSheet = recalc(file, "--set", "criteria!?", "--list");
  expect(ofSheet.code).toBe(0);
  expect(ofSheet.out).toMatch(/^Criteria!J6 +Standard of the test +"ISO 9972"$/m);
  expect(ofSheet.out).not.toContain("Cover!");
  expect(recalc(file, "--set", "None!?")).toMatchObject({ code: 2 });
});

it(
  "--set with ? says what a cell takes, its words with their meanings, and computes nothing",
  { timeout: slow },
  () => {
    const { code, out } = recalc("sample-workbooks/final-test.xlsx", "--set", "Criteria!J6=?");
    expect(code).toBe(0);
    const lines = out.trimEnd().split("\n");
    expect(lines[0]).toMatch(/^Criteria!J6 \(Standard of the test\) holds .*ISO 9972.*; it takes one of ISO 9972, /);
    expect(out).toMatch(/^ {2}EN 13829 +EN 13829:2001, withdrawn$/m);
    expect(out).not.toContain("Summary");
  },
);
