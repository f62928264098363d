import {
  baselinePressure,
  inducedPressures,
  twoPointFlow as twoPoint,
  twoStations,
  type LeakageReading,
  type TwoPointFlow,
} from "../../core/index";
import { isOmitted, numbersIn, optionalNumber, rowsOf, wantsHeadings } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { pairedReadings } from "../cells/pairs";
import { row, table, type TableRow } from "../cells/table";
import { invalid } from "../cells/rule-codes";

const e1827 = "ASTM E1827, two-point method";

/** Readings of one column of pressures and flows, less the baseline, signed. */
function inducedReadings(pressures: unknown[][], flows: unknown[][], baseline: number): LeakageReading[] {
  const { used } = pairedReadings(pressures, flows, undefined);
  const signed = used.map(({ pressure, row }) => ({ value: pressure, row }));
  const induced = inducedPressures(signed, baseline, "indoors minus outdoors", undefined, "pressures");
  return used.map(({ flow, row }, index) => ({ flow, row, pressure: induced[index]!.value }));
}

/** Two stations as magnitudes, the higher pressure first. Errors: pressures of both signs. */
function ofOneSign(first: LeakageReading[], second: LeakageReading[]): [LeakageReading[], LeakageReading[]] {
  const { pressure: known = 1, row: knownRow = 1 } = first[0] ?? second[0] ?? {};
  const magnitudes = (readings: LeakageReading[]) =>
    readings.map((reading) => {
      if (reading.pressure * known > 0) return { ...reading, pressure: Math.abs(reading.pressure) };
      throw invalid("pressures", "otherSign", { pressure: reading.pressure, first: knownRow }, reading.row);
    });
  const [high, low] = [magnitudes(first), magnitudes(second)];
  return (high[0]?.pressure ?? 0) < (low[0]?.pressure ?? 0) ? [low, high] : [high, low];
}

/** Two columns are the two pressures, rows their repeats; one column holds both, split where the pressures lie farthest apart. */
function stationsIn(pressures: unknown, flows: unknown, baseline: number): [LeakageReading[], LeakageReading[]] {
  const [pressureRows, flowRows] = [rowsOf(pressures), rowsOf(flows)];
  const [width, flowWidth] = [pressureRows[0]?.length ?? 0, flowRows[0]?.length ?? 0];
  if (width !== flowWidth || pressureRows.length !== flowRows.length) {
    throw invalid("flows", "unlikeSize", {
      count: `${flowRows.length} × ${flowWidth}`,
      others: `${pressureRows.length} × ${width}`,
      of: "pressures",
    });
  }
  if (width !== 2 || pressureRows.length === 1) {
    return twoStations(ofOneSign(inducedReadings(pressureRows, flowRows, baseline), [])[0]);
  }
  const column = (rows: unknown[][], index: number) => rows.map((row) => [row[index]]);
  const station = (index: number) => inducedReadings(column(pressureRows, index), column(flowRows, index), baseline);
  return ofOneSign(station(0), station(1));
}

function twoPointRows(result: TwoPointFlow, at: number): TableRow[] {
  const { flow, exponent, high, low } = result;
  const n = typeof exponent === "number" ? exponent : exponent.value;
  const doubt = n >= 0.5 && n <= 1 ? "" : ", outside 0.5 to 1: repeat the readings";
  const repeats = result.standardUncertainty === undefined ? ", no limits without repeats" : "";
  const unit = "unit of flow";
  const gum = "JCGM 100:2008 5.1.2";
  const means = (name: string, key: string, { pressure, flow, count }: TwoPointFlow["high"]): TableRow[] => [
    row(`${name} pressure, mean`, `dp_${key}`, pressure, "Pa", e1827),
    row(`flow at the ${name} pressure, mean`, `q_${key}`, flow, unit, e1827),
    row(`readings at the ${name} pressure`, `count_${key}`, count),
  ];
  return [
    row(`flow at ${Number(at.toPrecision(6))} Pa${repeats}`, "q_p", flow, unit, e1827),
    row(`flow exponent${doubt}`, "n", exponent, "–", e1827),
    row("leakage coefficient", "C", result.coefficient, `${unit}/Pa^n`, "q = C·Δp^n"),
    row("standard uncertainty of the flow", "u_q", result.standardUncertainty, unit, gum),
    row("standard uncertainty of n", "u_n", result.exponentUncertainty, "–", gum),
    row("degrees of freedom of the flow", "dof", result.degreesOfFreedom, "", "JCGM 100:2008 G.4.1"),
    ...means("higher", "high", high),
    ...means("lower", "low", low),
  ];
}

/**
 * Flow at a reference pressure and measured exponent, from repeated readings at two pressures such as five at 50 and
 * five at 12.5 Pa. A table of flow, n, C, uncertainties and means; the limits at 95 % cover only the scatter of the
 * repeats. Columns: what it is, symbol, value, lower, upper, unit, source.
 * Equation: n = ln(q1/q2)/ln(p1/p2); q_p = q1·(p/p1)^n.
 * Source: ASTM E1827, two-point method; JCGM 100:2008 5.1.2 and G.4.1.
 * @customfunction TWOPOINTFLOW
 * @param flows Flows, in any unit: two columns, one per pressure, with the repeats in rows; or one column with both. 0 beside a blank pressure means blank.
 * @param pressures Pressure differences as read, Pa, laid out like the flows, all of one sign; signed, indoors minus outdoors, if a baseline is given. 0 beside a blank flow means blank.
 * @param [at] Pressure at which the flow is wanted, Pa; 50 if not given. 0 means blank.
 * @param [baseline] Baseline readings, Pa, signed like the readings. 0 is a value: pass blanks as "".
 * @param [headings] "yes" puts a heading row above the table.
 * @returns The table.
 * @core results/quick-test.ts
 * @check authorities/quick-tests.test.ts
 */
export function twoPointFlow(
  flows: any[][],
  pressures: any[][],
  at?: any[][],
  baseline?: any[][],
  headings?: string | null,
): any[][] {
  return inCell(() => {
    const zero = isOmitted(baseline)
      ? 0
      : baselinePressure(numbersIn(baseline, "baseline"), undefined, ["baseline", "baseline"]).pressure;
    const pressure = optionalNumber(at, "at") || 50;
    const result = twoPoint(...stationsIn(pressures, flows, zero), pressure);
    return table(twoPointRows(result, pressure), wantsHeadings(headings));
  });
}
