import { expect, it } from "vitest";
import "../look-up";
import { slow } from "../../time-outs";
import { block, fillBlank } from "./fill";
import { type Air, density, fitByHand, mean, takeRun } from "./house";

const air: Air = { indoors: 20.3, outdoors: 7.1, barometer: 101_325, humidityIndoors: 0.5, humidityOutdoors: 0.5 };
const day = 46_346;
const volume = 251.5;
const pressures = [60, 51, 42, 33, 24, 15] as const;

/** Pressures and flows as reports give them: the baseline taken off, the flow through the envelope. */
const houses = [
  { id: "A-1", verdict: "pass", validity: "valid", coefficient: 9.2, baseline: 1.1 },
  { id: "A-2", verdict: "fail", validity: "valid", coefficient: 14.4, baseline: 0.9 },
  { id: "A-3", verdict: "pass", validity: "not valid", coefficient: 9.4, baseline: 8.4 },
].map((house) => {
  const runs = (["depressurization", "pressurization"] as const).map((direction, index) => {
    const leaking = density(index === 0 ? air.outdoors : air.indoors, air.barometer, 0.5);
    const run = takeRun({ coefficient: house.coefficient, n: 0.66 }, direction, { air, zero: 0 }, pressures);
    const points = run.readings.map(([pressure, flow]) => [Math.abs(pressure), flow] as const);
    return { points, n50: fitByHand(points, leaking).q50 / volume };
  });
  return { ...house, runs, n50: mean(runs.map(({ n50 }) => n50)) };
});

const letters = (from: string, count: number) =>
  Array.from({ length: count }, (_, index) => {
    const number = [...from].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) + index;
    return number > 26 ? `A${String.fromCharCode(64 + number - 26)}` : String.fromCharCode(64 + number);
  });

it("the blank programme-review.xlsx, filled in, recomputes and judges every house", { timeout: slow }, () => {
  const form = fillBlank("programme-review.xlsx", {
    ...block("Overview", ["C"], 6, [["Pilot round"], ["Ought Fund"], ["November 2026"], ["Ada Fenn"]]),
    ...block("Overview", ["H"], 6, [["Thrift & Fenn"], ["Air tests"]]),
    "Overview!G14": "Marsh Testing",
    ...block(
      "Houses",
      [..."BCDE"],
      7,
      houses.map(({ id, n50 }) => [id, "Marsh Testing", day, Number(n50.toFixed(2))]),
    ),
    ...block(
      "Houses",
      [...letters("N", 5), ...letters("S", 24)],
      7,
      houses.map(({ baseline, runs }) => [
        volume,
        air.indoors,
        air.outdoors,
        baseline,
        day + 100,
        ...runs.flatMap(({ points }) => [...points.map(([pressure]) => pressure), ...points.map(([, flow]) => flow)]),
      ]),
    ),
  });
  expect(form.listErrors()).toEqual([]);
  expect(form.listNotEvaluated()).toEqual([]);
  houses.forEach(({ verdict, validity, runs, n50 }, index) => {
    const row = 7 + index;
    expect(form.cell(`Houses!F${row}`)).toBeCloseToRelative(n50);
    expect(form.cell(`Houses!J${row}`)).toBe(validity);
    if (validity === "valid") expect(form.cell(`Houses!H${row}`)).toBe(verdict);
    else expect(form.cell(`Houses!H${row}`)).not.toBe("pass");
    expect(runs).toHaveLength(2);
  });
  expect(form.summary("Reports")).toBe(3);
  expect(form.summary("Valid")).toBe(2);
  expect(form.summary("Pass")).toBe(1);
  expect(form.summary("Fail")).toBe(1);
  expect(form.verify()).toEqual([]);
});
