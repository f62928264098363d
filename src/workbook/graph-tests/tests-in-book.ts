import { MethodError } from "../../core/index";
import type { AddInCall } from "../formula/calls/add-in";
import { fullAddress } from "../book/address";
import type { Book } from "../model";
import type { DrawnTest, UndrawnTest } from "./drawn-test";
import { fittedCurveOf } from "./fitted-curve";
import { wholeTestOf } from "./whole-test";

/** What a workbook computes that can be drawn, in the order in which its sheets hold it. */
export interface TestsInBook {
  readonly tests: readonly DrawnTest[];
  readonly undrawn: readonly UndrawnTest[];
}

/** Finds the tests among the add-in calls that an evaluation made; a test that is computed several times is found once. */
export function testsInBook(book: Book, calls: readonly AddInCall[]): TestsInBook {
  const tests: DrawnTest[] = [];
  const undrawn: UndrawnTest[] = [];
  const seen = new Set<string>();
  for (const call of inOrder(calls)) {
    const draw = drawers[call.id];
    if (!draw) continue;
    const sheetName = book.sheets[call.sheet]?.name ?? "";
    const cell = fullAddress(sheetName, call.row, call.column);
    const key = `${draw === fittedCurveOf ? "fit" : "test"} ${JSON.stringify(call.given)}`;
    if (seen.has(key)) continue;
    seen.add(key);
    try {
      const test = draw({ cell, sheetName }, call.given);
      if (!tests.some((known) => sameReadings(known, test))) tests.push(test);
    } catch (problem) {
      if (!(problem instanceof MethodError)) throw problem;
      undrawn.push({ cell, reason: problem.message });
    }
  }
  return { tests, undrawn };
}

const drawers: Readonly<Record<string, typeof wholeTestOf>> = {
  TESTRESULT: wholeTestOf,
  RESULTCARD: wholeTestOf,
  LEAKAGEFIT: fittedCurveOf,
};

/** Whole tests before fits, which may be a part of them. */
function inOrder(calls: readonly AddInCall[]): AddInCall[] {
  const rank = ({ id }: AddInCall) => (id === "LEAKAGEFIT" ? 1 : 0);
  return [...calls].sort(
    (one, other) =>
      rank(one) - rank(other) || one.sheet - other.sheet || one.row - other.row || one.column - other.column,
  );
}

/** The same readings fitted again, as a step that a sheet shows beside the whole test. */
function sameReadings(known: DrawnTest, test: DrawnTest): boolean {
  const [one, other] = [known.line.used, test.line.used];
  if (test.flowUnit !== undefined || one.length !== other.length) return false;
  return one.every((point, index) => {
    const twin = other[index];
    return twin !== undefined && isNear(point.pressure, twin.pressure) && isNear(point.flow, twin.flow);
  });
}

/** Equal but for rounding on another way of calculating. */
export function isNear(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
}
