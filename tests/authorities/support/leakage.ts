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

/** What is known of the errors of readings, in the units of the readings; each list may be absent. */
export interface ReadingErrors {
  readonly pressure?: readonly number[];
  readonly flow?: readonly number[];
  readonly correlation?: readonly number[];
}

/** Readings with their standard uncertainties. */
export function uncertainReadings(
  pressures: readonly number[],
  flows: readonly number[],
  errors: ReadingErrors,
): LeakageReading[] {
  return readings(pressures, flows).map((reading, index) => {
    const [pressureUncertainty, flowUncertainty] = [errors.pressure?.[index], errors.flow?.[index]];
    const correlation = errors.correlation?.[index];
    return {
      ...reading,
      ...(pressureUncertainty !== undefined && { pressureUncertainty }),
      ...(flowUncertainty !== undefined && { flowUncertainty }),
      ...(correlation !== undefined && { correlation }),
    };
  });
}

/** Plain x, y data raised to readings as fitPlainData does; the uncertainties u_x, u_y of the data become those of e^(x/scale), e^(y/scale). */
export function plainReadings(
  x: readonly number[],
  y: readonly number[],
  scale: number,
  errors: { readonly x?: readonly number[]; readonly y?: readonly number[] },
): LeakageReading[] {
  const raised = (values: readonly number[]) => values.map((value) => Math.exp(value / scale));
  const [pressures, flows] = [raised(x), raised(y)];
  const relative = (own: readonly number[] | undefined, values: readonly number[]) =>
    own?.map((uncertainty, index) => (uncertainty / scale) * (values[index] ?? NaN));
  const [pressure, flow] = [relative(errors.x, pressures), relative(errors.y, flows)];
  return uncertainReadings(pressures, flows, { ...(pressure && { pressure }), ...(flow && { flow }) });
}
