import { describe, expect, it } from "vitest";
import "../look-up";
import { slow } from "../../time-outs";
import { block, type Entries, fillBlank } from "./fill";
import { type Air, computeByHand, type Direction, mean, type Run, takeRun } from "./house";

/** How the form types what is in SI, and one unit of each in SI. */
interface Units {
  readonly file: string;
  readonly flow: number;
  readonly length: number;
  readonly barometer: number;
  readonly density: number;
  readonly speed: number;
  readonly fahrenheit: boolean;
}

const foot = 0.3048;
const si: Units = {
  file: "final-test.xlsx",
  flow: 1,
  length: 1,
  barometer: 1,
  density: 1,
  speed: 1,
  fahrenheit: false,
};

const ip: Units = {
  file: "final-test-ip.xlsx",
  flow: foot ** 3 * 60,
  length: foot,
  barometer: 3386.389,
  density: 0.45359237 / foot ** 3,
  speed: 0.44704,
  fahrenheit: true,
};

const day = 46_346;

/** Lengths as they are typed, in the form's unit. */
const plan = { si: [8.2, 6.1, 2.55, 2.4], ip: [26.9, 20, 8.37, 7.87] } as const;

const air: Air = { indoors: 20.5, outdoors: 6, barometer: 100_900, humidityIndoors: 0.45, humidityOutdoors: 0.8 };

const device = { c: 12.4, m: 0.509, density: 1.2041 } as const;

const pressures = [62, 55, 48, 41, 34, 27, 20, 13] as const;

const sheetOf = { depressurization: "Depressurization", pressurization: "Pressurization" } as const;

/** One house: how leaky it is, and the pressure across the envelope without the fan. */
interface House {
  readonly name: string;
  readonly coefficient: number;
  readonly zero: number;
}

const houses = {
  pass: { name: "Heron Lodge", coefficient: 9.1, zero: -1.1 },
  fail: { name: "Gannet Cottage", coefficient: 13.8, zero: -0.8 },
  "not valid": { name: "Storm End", coefficient: 9.1, zero: -8.2 },
} as const satisfies Record<string, House>;

function fillFinalTest(units: Units, { name, coefficient, zero }: House, without = "") {
  const inUnit = (value: number, unit: number, decimals: number) => Number((value / unit).toFixed(decimals));
  const degrees = (celsius: number) => (units.fahrenheit ? Number((celsius * 1.8 + 32).toFixed(1)) : celsius);
  const [length, width, ground, upper] = units.fahrenheit ? plan.ip : plan.si;
  const c = inUnit(device.c, units.flow, 4);
  const density = inUnit(device.density, units.density, units.fahrenheit ? 5 : 4);
  const barometer = inUnit(air.barometer, units.barometer, units.fahrenheit ? 2 : 0);
  // What was typed is what was measured.
  const read: Air = {
    ...air,
    indoors: units.fahrenheit ? (degrees(air.indoors) - 32) / 1.8 : air.indoors,
    outdoors: units.fahrenheit ? (degrees(air.outdoors) - 32) / 1.8 : air.outdoors,
    barometer: barometer * units.barometer,
  };
  const calibration = density * units.density;
  const fanPressure = (flow: number) => Number(((flow / (c * units.flow)) ** (1 / device.m)).toFixed(1));
  const show = (flow: number) => c * units.flow * fanPressure(flow) ** device.m;
  const runs = (["depressurization", "pressurization"] as const).map((direction) =>
    takeRun({ coefficient, n: 0.66 }, direction, { air: read, zero, calibration }, pressures, show),
  ) as [Run, Run];
  const runCells = ({ direction, before, after, readings }: Run): Entries => {
    const sheet = sheetOf[direction];
    const conditions = {
      [`${sheet}!F7`]: degrees(air.indoors),
      [`${sheet}!G7`]: degrees(air.indoors),
      [`${sheet}!F8`]: degrees(air.outdoors),
      [`${sheet}!G8`]: degrees(air.outdoors),
      [`${sheet}!F9`]: air.humidityIndoors,
      [`${sheet}!F10`]: air.humidityOutdoors,
      [`${sheet}!F11`]: barometer,
      [`${sheet}!F12`]: units.fahrenheit ? 4 : 1.8,
    };
    return {
      ...conditions,
      ...block(sheet, [..."DEFGHIJKLM"], 16, [before, after]),
      ...block(
        sheet,
        [..."CDEF"],
        24,
        readings.map(([pressure, flow]) => ["yes", pressure, "N", fanPressure(flow)]),
      ),
    };
  };
  const entries: Entries = {
    ...block("Cover", ["C"], 6, [
      [name],
      ["3 Gull Stair, Upper Ought"],
      ["Wanda Thrift"],
      ["Brick, two storeys"],
      ["Completion"],
    ]),
    ...block("Cover", ["G"], 6, [[day], ["Odo Marsh"], ["Ada Fenn"], ["TF-26-44"], ["method 3, certificate"]]),
    ...block("Rooms", [..."BCDEG"], 7, [
      ["Downstairs", "ground", length, width, ground],
      ["Upstairs", "upper", length, width, upper],
    ]),
    ...block("Rooms", [..."CDFG"], 38, [
      [0, 0, 0, 0],
      [length, 0, length, 0],
      [length, width, length, width],
      [0, width, 0, width],
    ]),
    "Rooms!E28": "room by room",
    "Rooms!E29": inUnit(0.02, units.length, 2),
    "Rooms!E34": inUnit(5.4, units.length, 1),
    "Rooms!F68": ground,
    "Rooms!F69": upper,
    ...block("Firm", ["C"], 6, [
      ["Thrift & Fenn"],
      ["Air tests"],
      ["1 Quay Steps, Upper Ought"],
      ["post@thrift-fenn.example"],
    ]),
    ...block("Firm", [..."CDEFGH"], 13, [
      ["digital, channel 1", "M-88", "±1 %", "K 441", day - 200, day + 165],
      ["digital, channel 2", "M-88", "±1 %", "K 442", day - 200, day + 165],
      ["door fan", "V-12", "±3 %", "K 443", day - 300, day + 400],
    ]),
    ...block("Firm", [..."BCDEFG"], 23, [["N", "narrow", c, device.m, 8, 320]]),
    "Firm!D32": density,
    ...block("Preparation", ["D"], 6, [
      ["the whole house"],
      ["2026, new"],
      ["front door"],
      ["lee side, sheltered"],
      ["foot of the stairs"],
      ["heat pump, off"],
      ["extract fans, sealed"],
      ["hood, sealed"],
      ["clear, light wind"],
      ["near the ground"],
      [1],
    ]),
    ...block("Preparation", [..."BDEF"], 20, [["Windows, twelve", "both floors", "closed", "locked"]]),
    "Criteria!C6": "Passive house, new build",
    ...runCells(runs[0]),
    ...runCells(runs[1]),
  };
  const typed = Object.entries(entries).filter(([place]) => without === "" || !place.startsWith(without));
  return {
    form: fillBlank(units.file, Object.fromEntries(typed)),
    runs,
    sizes: [length, width, ground, upper].map((one) => one * units.length),
  };
}

describe.each([si, ip])("the blank $file, filled in", { timeout: slow }, (units) => {
  it.each(Object.entries(houses))("says %s of the house that is", (verdict, house) => {
    const { form, runs, sizes } = fillFinalTest(units, house);
    const [length = NaN, width = NaN, ground = NaN, upper = NaN] = sizes;
    const volume = length * width * (ground + upper);
    const byHand = (direction: Direction) => computeByHand(runs[direction === "depressurization" ? 0 : 1]);
    const [down, up] = [byHand("depressurization"), byHand("pressurization")];
    expect(form.listErrors(["Air leakage graph"])).toEqual([]);
    expect(form.summary("Air change rate n50, depressurization")).toBeCloseToRelative(down.q50 / volume);
    expect(form.summary("Air change rate n50, pressurization")).toBeCloseToRelative(up.q50 / volume);
    expect(form.summary("Air change rate n50, mean")).toBeCloseToRelative(mean([down.q50, up.q50]) / volume);
    expect(form.summary("Air leakage rate q50, mean")).toBeCloseToRelative(mean([down.q50, up.q50]) / units.flow);
    expect(form.summary("Flow exponent n, depressurization")).toBeCloseToRelative(down.n);
    expect(form.summary("Flow exponent n, pressurization")).toBeCloseToRelative(up.n);
    expect(form.summary("Internal volume, room by room")).toBeCloseToRelative(volume / units.length ** 3);
    expect(form.summary("Verdict")).toBe(verdict);
    expect(form.cell("Cover!B14")).toBe(verdict.toUpperCase());
    expect(form.verify()).toEqual([]);
  });
});

it.each([
  ["the firm’s instruments", "Firm!"],
  ["a criterion", "Criteria!"],
  ["the rooms", "Rooms!"],
])("is evaluated whole while %s are not typed yet, and gives no verdict", { timeout: slow }, (_, without) => {
  const { form } = fillFinalTest(si, houses.pass, without);
  expect(form.listNotEvaluated()).toEqual([]);
  expect(form.cell("Cover!B14")).not.toBe("PASS");
});
