import { describe, expect, it } from "vitest";
import { slow } from "../../../time-outs";
import { saidOf } from "../bare";
import * as firms from "./books";
import type { Cells } from "../bare";

/** A firm's workbook with further texts in one of its sheets. */
function withTexts(firm: firms.Firm, sheet: string, texts: Cells): firms.Firm {
  return { ...firm, sheets: { ...firm.sheets, [sheet]: { ...firm.sheets[sheet], ...texts } } };
}

describe("an invented firm's honest workbook, the house meets its limit or not", { timeout: slow }, () => {
  it.each([
    ["rooms, device, table of programmes", firms.roomByRoom()],
    ["rooms, met", firms.roomByRoom(3)],
    ["every step in Excel's own functions", firms.ownSteps()],
    ["every step, met", firms.ownSteps(0.5)],
    ["three plots", firms.threePlots()],
    ["three plots, met", firms.threePlots([5, 5, 5])],
    ["a German firm", firms.germanFirm()],
    ["a German firm, met", firms.germanFirm(4)],
    ["a French firm", firms.frenchFirm()],
    ["a French firm, met", firms.frenchFirm(4)],
    ["two stages", firms.twoStages()],
    ["two stages, met", firms.twoStages(3)],
    ["a retest", firms.retest()],
    ["a retest, failed", firms.retest(0.4)],
    ["names for everything", firms.namedFirm()],
    ["two runs a direction, guarded", firms.twoRuns()],
    ["two runs, met", firms.twoRuns(3)],
    ["two fans", firms.twoFans()],
    [
      "the limit quoted as it is",
      withTexts(firms.germanFirm(0.6), "Bericht", { C6: "Anforderung der Norm: n50 ≤ 0,6 1/h" }),
    ],
    ["a contract stricter than its standard", withTexts(firms.twoStages(0.5), "Overview", { D7: "standard: 0.6 1/h" })],
    [
      "several limits quoted",
      withTexts(firms.twoStages(1), "Overview", { D7: "n50 ≤ 0.6 1/h new, n50 ≤ 1.0 1/h existing" }),
    ],
    [
      "a limit of another quantity beside",
      withTexts(firms.twoStages(3), "Overview", { D7: "and qE50 ≤ 2.5 m³/(h·m²)" }),
    ],
    [
      "results and pressures in words",
      withTexts(firms.twoStages(3), "Overview", { D7: "at 50 Pa, last year 2.1 1/h, p < 0.05" }),
    ],
  ])("%s", (_, { sheets, more }) => {
    expect(saidOf(sheets, undefined, more)).toEqual([]);
  });
});
