import { describe, expect, it } from "vitest";
import { slow } from "../../../time-outs";
import { saidOf } from "../bare";
import * as firms from "./books";

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
  ])("%s", (_, { sheets, more }) => {
    expect(saidOf(sheets, undefined, more)).toEqual([]);
  });
});
