import { describe, expect, it } from "vitest";
import { house, ownSheet, put, saidOf, type Cells } from "./bare";
import { slow } from "../../time-outs";

const said = (change: (cells: Cells) => void) => saidOf({ Test: ownSheet({}, change) });
const copied = (severity: string, place: string, words: string): unknown =>
  expect.stringMatching(new RegExp(`^${severity}: copied readings in Test!${place}: .*${words}`));

describe("readings that were not measured", { timeout: slow }, () => {
  it("pressures of one direction computed from the other's", () => {
    const change = (cells: Cells) =>
      put(
        cells,
        "D2",
        house.down.map((_, index) => ({ f: `-A${index + 2}-0.6` })),
      );
    expect(said(change)).toContainEqual(copied("error", "D2:D9", "are computed from those of depressurization"));
  });

  it("the other direction's readings in reverse order", () => {
    const change = (cells: Cells) => {
      put(cells, "D2", house.down.map((pressure) => -pressure).reverse());
      put(cells, "E2", [...house.flowsDown].reverse());
    };
    expect(said(change)).toContainEqual(copied("error", "D2:D9", "the same pressures and flow figures as"));
  });

  it("the other direction's flows, each a little more", () => {
    const change = (cells: Cells) =>
      put(
        cells,
        "E2",
        house.flowsDown.map((flow) => Number((flow + 2.4).toFixed(1))),
      );
    expect(said(change)).toContainEqual(copied("error", "D2:D9", "flow figures by 2.4 more than"));
  });

  it("the other direction's pressures, each a little less", () => {
    const change = (cells: Cells) =>
      put(
        cells,
        "D2",
        house.down.map((pressure) => Number((-pressure - 1.7).toFixed(1))),
      );
    expect(said(change)).toContainEqual(copied("error", "D2:D9", "pressures by 1.7 Pa less than"));
  });

  it("a reading that suited, typed three times", () => {
    const change = (cells: Cells) => {
      put(cells, "A5", [-40.6, -40.6, -40.6]);
      put(cells, "B5", [200.2, 200.2, 200.2]);
    };
    expect(said(change)).toContainEqual(copied("warning", "A5", "2 readings of depressurization"));
  });

  it("the same pressures aimed at in whole pascals are no copy", () => {
    const whole = [60, 54, 48, 41, 34, 27, 21, 14];
    const change = (cells: Cells) => {
      put(
        cells,
        "A2",
        whole.map((pressure) => -pressure),
      );
      put(cells, "D2", whole);
    };
    expect(said(change).filter((line) => line.includes("copied"))).toEqual([]);
  });
});
