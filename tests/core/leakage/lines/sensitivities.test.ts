import { describe, expect, test } from "vitest";
import { fitLeakage, readingSensitivities, type LeakageReading } from "../../../../src/core";
import { readings, uncertainReadings } from "../../../authorities/support/leakage";
import { pressures, flows, known, sum, textbook, near } from "./readings";

describe("sensitivities", () => {
  const moved = (given: LeakageReading[], index: number, key: "pressure" | "flow", factor: number) =>
    given.map((reading, position) => {
      if (position !== index) return reading;
      const name = `${key}Uncertainty` as const;
      const uncertainty = reading[name];
      // The relative uncertainties are held.
      return {
        ...reading,
        [key]: reading[key] * factor,
        ...(uncertainty !== undefined && { [name]: uncertainty * factor }),
      };
    });

  // Relative uncertainties held, the weights of organic correlation are held too.
  const moving = [
    "ordinary",
    "errors in both",
    "weighted",
    "organic correlation",
    "weighted organic correlation",
  ] as const;
  test.each(moving)("%s: as the fit itself moves, at 50 Pa", (technique) => {
    const given = uncertainReadings(pressures, flows, known);
    const rows = readingSensitivities(fitLeakage(given, technique), given)(Math.log(50));
    const step = 1e-4;
    rows.forEach((row, index) => {
      for (const key of ["flow", "pressure"] as const) {
        const [up, down] = [1, -1].map((sign) => {
          const fit = fitLeakage(moved(given, index, key, Math.exp(sign * step)), technique);
          return { n: fit.exponent, q: fit.logCoefficient + fit.exponent * Math.log(50) };
        });
        const [toFlow, toExponent] =
          key === "flow" ? [row.flowToFlow, row.exponentToFlow] : [row.flowToPressure, row.exponentToPressure];
        expect(Math.abs((up!.q - down!.q) / (2 * step) - toFlow)).toBeLessThan(1e-6);
        expect(Math.abs((up!.n - down!.n) / (2 * step) - toExponent)).toBeLessThan(1e-6);
      }
    });
  });

  test("weights that do not follow the line are held: CGSB's q² among them", () => {
    const given = readings(pressures, flows);
    const rows = readingSensitivities(fitLeakage(given, "weighted"), given)(0);
    const { XX, W, x } = textbook(flows.map((flow) => flow ** 2));
    const meanX = sum(flows.map((flow, i) => flow ** 2 * x[i]!)) / W;
    rows.forEach((row, i) => near(row.exponentToFlow, (flows[i]! ** 2 * (x[i]! - meanX)) / XX));
  });

  test("all pressures wrong alike: ln q_p moves by −n, whatever the flows weigh, and n not at all", () => {
    const given = uncertainReadings(pressures, flows, { flow: known.flow });
    const fit = fitLeakage(given, "weighted");
    const rows = readingSensitivities(fit, given)(Math.log(50));
    near(sum(rows.map(({ flowToPressure }) => flowToPressure)), -fit.exponent);
    near(sum(rows.map(({ flowToFlow }) => flowToFlow)), 1);
    expect(Math.abs(sum(rows.map(({ exponentToPressure }) => exponentToPressure)))).toBeLessThan(1e-12);
  });
});
