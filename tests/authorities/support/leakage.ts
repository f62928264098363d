import type { LeakageFit, LeakageReading } from "../../../src/core";
import { fitLeakage } from "../../../src/core";

/** Readings by row, as the core takes them. */
export function readings(pressures: readonly number[], flows: readonly number[]): LeakageReading[] {
  return pressures.map((pressure, index) => {
    const flow = flows[index];
    if (flow === undefined) throw new Error(`no flow in row ${index + 1}`);
    return { pressure, flow, row: index + 1 };
  });
}

export function ordinaryFit(pressures: readonly number[], flows: readonly number[]): LeakageFit {
  return fitLeakage(readings(pressures, flows), "ordinary");
}

/**
 * The leakage curve fitted to a plain x, y data set: the core fits ln q on ln Δp, so it is given e^(x/scale) and e^(y/scale). The slope is that of
 * the data; intercept and deviations come back divided by the scale.
 */
export function fitPlainData(x: readonly number[], y: readonly number[], scale: number): LeakageFit {
  const raised = (values: readonly number[]) => values.map((value) => Math.exp(value / scale));
  return ordinaryFit(raised(x), raised(y));
}
