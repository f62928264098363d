import fc from "fast-check";
import { testResult } from "../../../src/functions";
import type { Cell } from "./sheet";
import { block, column } from "./sheet";

/** One direction as it stands on a sheet; what a law changes is replaced by spreading. */
export interface SheetTest {
  readonly direction: "depressurization" | "pressurization";
  readonly pressures: readonly Cell[];
  readonly flows: readonly Cell[];
  readonly before: readonly Cell[];
  readonly after: readonly Cell[];
  readonly settings: Readonly<Record<string, Cell>>;
  readonly include?: readonly Cell[];
}

type Table = readonly (readonly unknown[])[];

/** TESTRESULT of the sheet; further rows may stand under the settings. */
export function compute(test: SheetTest, furtherSettings: Cell[][] = []): Table {
  return testResult(
    test.direction,
    column(test.pressures),
    column(test.flows),
    column(test.before),
    column(test.after),
    [...block(test.settings), ...furtherSettings],
    ...(test.include ? [column(test.include)] : []),
  ) as Table;
}

const tenths = (low: number, high: number) =>
  fc.integer({ min: Math.round(low * 10), max: Math.round(high * 10) }).map((value) => value / 10);

/** Readings 8 to 75 Pa beyond a baseline of −3 to 3 Pa, flows of a leakage curve with some scatter, settings of every kind. */
export const sheetTests: fc.Arbitrary<SheetTest> = fc
  .record({
    direction: fc.constantFrom("depressurization" as const, "pressurization" as const),
    induced: fc.uniqueArray(tenths(8, 75), { minLength: 3, maxLength: 14 }),
    scatter: fc.array(fc.integer({ min: -30, max: 30 }), { minLength: 14, maxLength: 14 }),
    coefficient: fc.integer({ min: 5, max: 900 }),
    n: fc.integer({ min: 50, max: 95 }).map((value) => value / 100),
    before: fc.array(tenths(-3, 3), { minLength: 1, maxLength: 8 }),
    after: fc.array(tenths(-3, 3), { minLength: 1, maxLength: 8 }),
    volume: fc.integer({ min: 80, max: 9000 }),
    indoor: tenths(10, 28),
    outdoor: tenths(-25, 38),
    barometer: fc.integer({ min: 70000, max: 104000 }),
    basis: fc.constantFrom("indicated at calibration density", "actual at the fan", "through the envelope"),
    standard: fc.constantFrom("ISO 9972", "ASTM E779"),
  })
  .map((made) => {
    const sign = made.direction === "depressurization" ? -1 : 1;
    return {
      direction: made.direction,
      pressures: made.induced.map((pressure) => sign * (pressure + 3)),
      flows: made.induced.map((pressure, index) => {
        const scatter = 1 + (made.scatter[index] ?? 0) / 1000;
        return Math.round(10 * made.coefficient * pressure ** made.n * scatter) / 10;
      }),
      before: made.before,
      after: made.after,
      settings: {
        volume: made.volume,
        "envelope area": 2 * made.volume,
        "floor area": made.volume / 3,
        "indoor temperature": made.indoor,
        "outdoor temperature": made.outdoor,
        "barometric pressure": made.barometer,
        "flow basis": made.basis,
        standard: made.standard,
        "reference pressure": 75,
      },
    };
  });
