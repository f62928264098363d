import { flowWithLimits, type FlowResult, type Limits, type TestResult } from "../../core/index";
import { fromMethod } from "../../functions/cells/units";
import { wholeTest, type WholeTest } from "../../functions/results/whole-test";
import type { Settings } from "../../functions/settings/settings";
import type { ComparedResult, DrawnTest } from "./drawn-test";

/** Where a call stands. */
export interface CallPlace {
  readonly cell: string;
  readonly sheetName: string;
}

/**
 * A call of TESTRESULT or RESULTCARD computed once more from the arguments that it was given, for its graph.
 * Errors: MethodError, as the functions themselves.
 */
export function wholeTestOf(place: CallPlace, given: readonly unknown[]): DrawnTest {
  const [direction, pressures, flows, before, after, settings, include] = given;
  return drawn(place, wholeTest([direction, pressures, flows, before, after, settings, include]));
}

function drawn(place: CallPlace, { direction, settings, result }: WholeTest): DrawnTest {
  const { system, confidence = 0.95 } = settings;
  const flow = (value: number) => fromMethod(value, "flow", system);
  const limits = ({ value, lower, upper }: Limits) => ({ value: flow(value), lower: flow(lower), upper: flow(upper) });
  return {
    ...place,
    direction,
    flowUnit: system.flow,
    confidence,
    atReference: true,
    fit: result.fit,
    line: {
      name: direction,
      look: direction,
      used: result.points.map((point) => ({ pressure: point.pressure, flow: flow(point.flow) })),
      excluded: result.excludedPoints.map((point) => ({ pressure: point.pressure, flow: flow(point.flow) })),
      exponent: result.exponent,
      coefficient: flow(result.fit.coefficient),
      determination: result.fit.determination,
      q50: limits(result.at50.flow),
      flowAt: (pressure) => limits(flowWithLimits(result.fit, pressure, confidence)),
    },
    results: comparedResults(result, settings),
  };
}

/** Every result that a sheet may hold against a limit. */
function comparedResults(result: TestResult, settings: Settings): ComparedResult[] {
  const { system, "reference pressure": other } = settings;
  const at = (one: FlowResult): ComparedResult[] => {
    const { pressure } = one;
    const flow = fromMethod(one.flow.value, "flow", system);
    const shared = { pressure, flow };
    const per = (quantity: string, limits: Limits | undefined, unit: string, value: number): ComparedResult[] =>
      limits === undefined ? [] : [{ quantity: `${quantity}${pressure}`, unit, value, ...shared }];
    const perArea = (limits: Limits | undefined) => fromMethod(limits?.value ?? 0, "permeability", system);
    return [
      ...per("n", one.airChangeRate, "1/h", one.airChangeRate?.value ?? 0),
      ...per("q", one.flow, system.flow, flow),
      ...per("qE", one.perEnvelopeArea, system.permeability, perArea(one.perEnvelopeArea)),
      ...per("qF", one.perFloorArea, system.permeability, perArea(one.perFloorArea)),
    ];
  };
  return [...at(result.at50), ...(other === undefined || other === 50 ? [] : at(result.at(other)))];
}
