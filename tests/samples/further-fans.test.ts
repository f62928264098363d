import { describe, expect, it } from "vitest";
import { depressurization, larchHouse } from "../../sample-workbooks/final-test/houses";
import { density, mean } from "./by-hand";
import "./look-up";
import { cell, condition, summary, typed } from "./typed";

const [, , c = NaN, m = NaN] = larchHouse.openings.find(([name]) => name === "C") ?? [];

/** Fans 2 and 3 beside the first one in depressurization, every reading; the third one rests at the last three. */
const fan2 = [250, 240, 230, 180, 160, 130, 100, 80, 55, 33];
const fan3 = [120, 110, 100, 90, 80, 60, 40];
const further = Object.fromEntries([
  ...fan2.flatMap((pressure, index) => [
    [`Depressurization!D${42 + index}`, "C"],
    [`Depressurization!E${42 + index}`, pressure],
  ]),
  ...fan3.flatMap((pressure, index) => [
    [`Depressurization!G${42 + index}`, "C"],
    [`Depressurization!H${42 + index}`, pressure],
  ]),
]) as Record<string, string | number>;

const withFans = typed(further);

/** n and q50 of the sum of all fans by the published formulas. */
function byHand() {
  const { indoorTemperature, outdoorTemperature, barometer, indoorHumidity, outdoorHumidity, readings } =
    depressurization;
  const inside = density(mean(indoorTemperature), barometer, indoorHumidity);
  const outside = density(mean(outdoorTemperature), barometer, outdoorHumidity);
  const baseline = (mean(depressurization.baselineBefore) + mean(depressurization.baselineAfter)) / 2;
  const points = readings.map(([pressure, , fan], index) => {
    const fans = [fan, fan2[index], fan3[index]].filter((one) => one !== undefined);
    const flow = fans.reduce((sum, one) => sum + c * one ** m, 0);
    const through = flow * Math.sqrt(larchHouse.calibrationDensity / inside) * (inside / outside);
    return [Math.log(Math.abs(pressure - baseline)), Math.log(through)] as const;
  });
  const [x, y] = [mean(points.map(([one]) => one)), mean(points.map(([, one]) => one))];
  const n =
    points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0) / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  return { n, q50: Math.exp(y - n * x) * (outside / 1.2041) ** (1 - n) * 50 ** n };
}

describe("several flow devices at a time", () => {
  it("add their flows, reading by reading", () => {
    expect(cell(withFans, "Depressurization!L24")).toBeCloseToRelative(
      [depressurization.readings[0]?.[2] ?? NaN, 250, 120].reduce((sum, one) => sum + c * one ** m, 0),
    );
    expect(cell(withFans, "Depressurization!L33")).toBeCloseToRelative(
      [depressurization.readings[9]?.[2] ?? NaN, 33].reduce((sum, one) => sum + c * one ** m, 0),
    );
    const { n, q50 } = byHand();
    const symbols = Array.from({ length: 36 }, (_, index) => cell(withFans, `Depressurization!AA${7 + index}`));
    const value = (symbol: string) => cell(withFans, `Depressurization!AB${7 + symbols.indexOf(symbol)}`);
    expect(value("n")).toBeCloseToRelative(n);
    expect(value("q50")).toBeCloseToRelative(q50);
  });

  it("are confirmed by the native formulas, and by the steps", () => {
    expect(condition(withFans, "Native formulas")[2]).toBe("met");
    expect(condition(withFans, "Steps of the readings")[2]).toBe("met");
  });

  it("are not missed while none is typed in", () => {
    expect(cell(typed({}), "Depressurization!M42")).toBe("");
    expect(cell(typed({}), "Depressurization 2!F42")).toBe("");
  });

  it.each<[string, Parameters<typeof typed>[0]]>([
    ["has no opening", { "Depressurization!D44": null }],
    ["has no fan pressure", { "Depressurization!E44": null }],
    ["is outside its certified range", { "Depressurization!E44": 310 }],
    ["is text", { "Depressurization!E44": "230 Pa" }],
    ["has an opening that is not in the table", { "Depressurization!D44": "Z" }],
    ["stands where the first fan has no reading", { "Depressurization!F26": null }],
  ])("leave the flow and the verdict open where one %s", (_, change) => {
    const test = typed({ ...further, ...change });
    expect(cell(test, "Depressurization!L26")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("do not get a range without end from a certificate that is not complete", () => {
    const test = typed({ ...further, "Depressurization!D44": "B", "Firm!F24": null });
    expect(cell(test, "Depressurization!F44")).toMatchObject({ code: "#N/A" });
  });
});
