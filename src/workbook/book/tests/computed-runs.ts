import {
  type Direction,
  exponentWithLimits,
  fitLeakage,
  type FlowResult,
  flowWithLimits,
  type LeakageFit,
  type Limits,
  MethodError,
  techniques,
  type TestResult,
  usualConfidence,
} from "../../../core/index";
import { describeError } from "../../../functions/cells/error-sentences";
import { choice, optionalNumber } from "../../../functions/cells/cells";
import { asMagnitudes, pairedReadings } from "../../../functions/cells/pairs";
import { fromMethod } from "../../../functions/cells/units";
import { withUncertainties } from "../../../functions/leakage/fit";
import { wholeTest, type WholeTest } from "../../../functions/results/whole-test";
import type { Settings } from "../../../functions/settings/settings";
import { formatFullAddress } from "../address";
import type { AddInCall } from "../../formula/calls/add-in";
import type { Book } from "../../model";
import type { Place } from "../area";

/** A result of a test as shown on its sheet, with its flow, in the test's unit of flow. */
export interface ComparedResult {
  /** "n50", "qE50", "q75", … */
  readonly quantity: string;
  readonly unit: string;
  readonly value: number;
  readonly flow: number;
  readonly pressure: number;
}

/** One reading as computed: induced pressure as a magnitude, Pa, and flow through the envelope, in the run's unit of flow. */
export interface ComputedReading {
  readonly pressure: number;
  readonly flow: number;
}

/** The line through the readings of a run. */
export interface LeakageCurve {
  readonly used: readonly ComputedReading[];
  /** Readings kept but excluded from the fit. */
  readonly excluded: readonly ComputedReading[];
  readonly exponent: Limits;
  /** C at the conditions of the test, in the run's unit of flow. */
  readonly coefficient: number;
  /** r² of the logarithms. */
  readonly determination: number;
  /** Flow at 50 Pa with its limits, as reported. */
  readonly q50: Limits;
  /** The line and its confidence band at a pressure, at the conditions of the test. */
  flowAt(pressure: number): Limits;
}

/** One run of a test, computed from the arguments of its call. */
export interface ComputedRun {
  /** The cell of the call, also written with its sheet. */
  readonly place: Place;
  readonly cell: string;
  readonly sheetName: string;
  /** Undefined if the sheet does not say: induced pressures as magnitudes. */
  readonly direction: Direction | undefined;
  /** Undefined if the sheet does not say: a fit has no units. */
  readonly flowUnit: string | undefined;
  readonly curve: LeakageCurve;
  /** How the line was fitted. */
  readonly fit: Pick<LeakageFit, "technique" | "prior">;
  /** Two-sided confidence of the limits, a fraction. */
  readonly confidence: number;
  /** Whether its results are at reference conditions. */
  readonly atReference: boolean;
  readonly results: readonly ComparedResult[];
}

/** A call without a result, with the reason shown on its cell. */
export interface RefusedRun {
  readonly cell: string;
  readonly reason: string;
}

/** Computes the runs among the add-in calls of an evaluation; one computed several times is listed once. */
export function computeRuns(
  book: Book,
  recorded: readonly AddInCall[],
): { runs: ComputedRun[]; refused: RefusedRun[] } {
  const runs: ComputedRun[] = [];
  const refused: RefusedRun[] = [];
  const seen = new Set<string>();
  for (const call of sortCalls(recorded)) {
    const compute = recomputations[call.id];
    if (!compute) continue;
    const { sheet, row, column } = call;
    const sheetName = book.sheets[sheet]?.name ?? "";
    const cell = formatFullAddress(sheetName, row, column);
    const key = `${compute === recomputeFittedCurve ? "fit" : "test"} ${JSON.stringify(call.given)}`;
    if (seen.has(key)) continue;
    seen.add(key);
    try {
      const run = compute({ place: { sheet, row, column }, cell, sheetName }, call.given);
      if (!runs.some((known) => haveSameReadings(known, run))) runs.push(run);
    } catch (problem) {
      if (!(problem instanceof MethodError)) throw problem;
      refused.push({ cell, reason: describeError(problem) });
    }
  }
  return { runs, refused };
}

const recomputations: Readonly<Record<string, typeof recomputeWholeTest>> = {
  TESTRESULT: recomputeWholeTest,
  RESULTCARD: recomputeWholeTest,
  LEAKAGEFIT: recomputeFittedCurve,
};

/** Whole tests before fits, which may be a part of them. */
function sortCalls(calls: readonly AddInCall[]): AddInCall[] {
  const rank = ({ id }: AddInCall) => (id === "LEAKAGEFIT" ? 1 : 0);
  return [...calls].sort(
    (one, other) =>
      rank(one) - rank(other) || one.sheet - other.sheet || one.row - other.row || one.column - other.column,
  );
}

/** The same readings fitted again, as a step shown alongside the whole test. */
function haveSameReadings(known: ComputedRun, run: ComputedRun): boolean {
  const [one, other] = [known.curve.used, run.curve.used];
  if (run.flowUnit !== undefined || one.length !== other.length) return false;
  return one.every((point, index) => {
    const twin = other[index];
    return twin !== undefined && isNear(point.pressure, twin.pressure) && isNear(point.flow, twin.flow);
  });
}

/** Equal except for rounding differences. */
export function isNear(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
}

/** The place of a call. */
type CallPlace = Pick<ComputedRun, "place" | "cell" | "sheetName">;

/**
 * A call of TESTRESULT or RESULTCARD recomputed from its arguments.
 * Errors: MethodError, as the functions themselves.
 */
function recomputeWholeTest(at: CallPlace, given: readonly unknown[]): ComputedRun {
  const [direction, pressures, flows, before, after, settings, include] = given;
  return prepareRun(at, wholeTest([direction, pressures, flows, before, after, settings, include]));
}

function prepareRun(at: CallPlace, { direction, settings, result }: WholeTest): ComputedRun {
  const { system, confidence = usualConfidence } = settings;
  const convertFlow = (value: number) => fromMethod(value, "flow", system);
  const convertLimits = ({ value, lower, upper }: Limits) => ({
    value: convertFlow(value),
    lower: convertFlow(lower),
    upper: convertFlow(upper),
  });
  return {
    ...at,
    direction,
    flowUnit: system.flow,
    confidence,
    atReference: true,
    fit: result.fit,
    curve: {
      used: result.points.map((point) => ({ pressure: point.pressure, flow: convertFlow(point.flow) })),
      excluded: result.excludedPoints.map((point) => ({ pressure: point.pressure, flow: convertFlow(point.flow) })),
      exponent: result.exponent,
      coefficient: convertFlow(result.fit.coefficient),
      determination: result.fit.determination,
      q50: convertLimits(result.at50.flow),
      flowAt: (pressure) => convertLimits(flowWithLimits(result.fit, pressure, confidence)),
    },
    results: listComparedResults(result, settings),
  };
}

/** Every result that a sheet may compare with a limit. */
function listComparedResults(result: TestResult, settings: Settings): ComparedResult[] {
  const { system, "reference pressure": other } = settings;
  const compareAt = (one: FlowResult): ComparedResult[] => {
    const { pressure } = one;
    const flow = fromMethod(one.flow.value, "flow", system);
    const shared = { pressure, flow };
    const compareResult = (
      quantity: string,
      limits: Limits | undefined,
      unit: string,
      value: number,
    ): ComparedResult[] =>
      limits === undefined ? [] : [{ quantity: `${quantity}${pressure}`, unit, value, ...shared }];
    const convertPermeability = (limits: Limits | undefined) => fromMethod(limits?.value ?? 0, "permeability", system);
    return [
      ...compareResult("n", one.airChangeRate, "1/h", one.airChangeRate?.value ?? 0),
      ...compareResult("q", one.flow, system.flow, flow),
      ...compareResult("qE", one.perEnvelopeArea, system.permeability, convertPermeability(one.perEnvelopeArea)),
      ...compareResult("qF", one.perFloorArea, system.permeability, convertPermeability(one.perFloorArea)),
    ];
  };
  return [...compareAt(result.at50), ...(other === undefined || other === 50 ? [] : compareAt(result.at(other)))];
}

/**
 * A call of LEAKAGEFIT recomputed from its arguments: induced pressures and flows through the envelope, in the sheet's unit.
 * Errors: MethodError, as the function itself.
 */
function recomputeFittedCurve(at: CallPlace, given: readonly unknown[]): ComputedRun {
  const [pressures, flows, technique, confidence, include, ofPressure, ofFlow] = given;
  const named = choice(technique, techniques, "technique", "ordinary");
  const signed = pairedReadings(pressures, flows, include);
  const readings = asMagnitudes(signed);
  const fit = fitLeakage(withUncertainties(readings, named, ofPressure, ofFlow), named);
  const level = optionalNumber(confidence, "confidence") || usualConfidence;
  // Signed pressures are indoors minus outdoors; those above 0 may be magnitudes.
  const direction: Direction | undefined = (signed.used[0]?.pressure ?? 0) < 0 ? "depressurization" : undefined;
  const computeFlow = (pressure: number) => flowWithLimits(fit, pressure, level);
  const q50 = computeFlow(50);
  return {
    ...at,
    direction,
    flowUnit: undefined,
    confidence: level,
    atReference: false,
    fit,
    curve: {
      used: readings.used,
      excluded: readings.excluded.filter(({ pressure, flow }) => pressure > 0 && flow > 0),
      exponent: exponentWithLimits(fit, level),
      coefficient: fit.coefficient,
      determination: fit.determination,
      q50,
      flowAt: computeFlow,
    },
    results: [{ quantity: "q50", unit: "", value: q50.value, flow: q50.value, pressure: 50 }],
  };
}
