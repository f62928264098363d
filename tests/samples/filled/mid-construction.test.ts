import { describe, expect, it } from "vitest";
import "../look-up";
import { slow } from "../../time-outs";
import { block, type Entries, fillBlank } from "./fill";
import { type Air, computeByHand, takeRun } from "./house";

const air: Air = { indoors: 17, outdoors: 9, barometer: 101_000, humidityIndoors: 0.5, humidityOutdoors: 0.5 };
const day = 46_346;
const volume = 251.5;
const pressures = [63, 56, 49, 42, 35, 28, 21, 15] as const;

const houses = [
  { outlook: "meets the limit with a margin", coefficient: 7.4, convention: "room by room" },
  { outlook: "misses the limit by a margin", coefficient: 17.5, convention: "room by room" },
  // A volume that the criterion does not mean gives no outlook.
  { outlook: "open", coefficient: 7.4, convention: "whole internal" },
] as const;

function fillSite({ coefficient, convention }: (typeof houses)[number]) {
  const whole = (flow: number) => Number(flow.toFixed(1));
  const visit = (more: number, turn: number) => {
    const envelope = { coefficient: coefficient * more, n: 0.65 };
    const run = takeRun(envelope, "depressurization", { air, zero: -0.9, turn }, pressures, whole);
    return { ...run, before: run.before.slice(0, 5), after: run.after.slice(0, 5) };
  };
  const runs = [visit(1.7, 0), visit(1, 4)] as const;
  const entries: Entries = {
    ...block("Overview", ["C"], 6, [
      ["Teal Cottage"],
      ["6 Pier Road"],
      ["Ada Fenn"],
      ["Timber frame"],
      ["Thrift & Fenn"],
      ["Air tests"],
    ]),
    ...block("Overview", ["G"], 6, [[day], ["Odo Marsh"], ["Ida Holt, site manager"], [day + 60], [day + 10]]),
    ...block("House and instruments", ["F"], 6, [[volume], [convention], [300], [99]]),
    ...block("House and instruments", ["F"], 14, [[1.2041], [0.02], [0.005], [0.01]]),
    ...Object.fromEntries(
      runs.flatMap(({ before, after, readings }, index) => {
        const sheet = `Multi-point ${index + 1}`;
        return Object.entries({
          ...block(sheet, ["F"], 6, [[day - 3 + index], [air.indoors], [air.outdoors], [air.barometer], [1.6]]),
          [`${sheet}!D11`]: index === 0 ? "before the repairs" : "after the repairs",
          ...block(sheet, [..."CDEFG"], 14, [before, after]),
          ...block(
            sheet,
            [..."CDE"],
            21,
            readings.map((reading) => ["yes", ...reading]),
          ),
        });
      }),
    ),
    "Gap and forecast!E6": "Multi-point 2",
    "Limits!C6": "Passive house, new build",
  };
  return { form: fillBlank("mid-construction.xlsx", entries), runs };
}

describe("the blank mid-construction.xlsx, filled in", { timeout: slow }, () => {
  it.each(houses)("says of a house on site that it $outlook", (house) => {
    const { form, runs } = fillSite(house);
    const [first, second] = runs.map(computeByHand);
    expect(form.listErrors(["Overview", "Tape and retest", "Gap and forecast"])).toEqual([]);
    expect(form.listNotEvaluated()).toEqual([]);
    expect(form.summary("q50, Multi-point 1")).toBeCloseToRelative(first!.q50);
    expect(form.summary("n50, Multi-point 1")).toBeCloseToRelative(first!.q50 / volume);
    expect(form.summary("q50, Multi-point 2")).toBeCloseToRelative(second!.q50);
    expect(form.summary("n, Multi-point 2")).toBeCloseToRelative(second!.n);
    expect(form.summary("Outlook")).toBe(house.outlook);
    if (house.outlook !== "open") expect(form.summary("Flow that the limit allows")).toBeCloseToRelative(0.6 * volume);
    const found = form.verify();
    if (house.outlook === "open") expect(found).toEqual([expect.stringContaining("volume convention Limits!C11")]);
    else expect(found).toEqual([]);
  });
});
