import {
  countExactZeros,
  largest,
  methodVersion,
  profiles,
  smallest,
  studentT,
  type Direction,
  type TestResult,
} from "../../core/index";
import { degreesOfFreedomRow, expectedExponentRows } from "../leakage/fit";
import type { SheetReadings } from "../cells/pairs";
import { airIn, type Settings } from "../settings/settings";
import { percent, row, rowsIn, type TableRow } from "../cells/table";
import { fromMethod, perPressure } from "../cells/units";
import type { WholeTest } from "./whole-test";

/** Names the standard that the tester chose beside a part of it. */
function namedBy({ standard }: Settings): (part: string) => string {
  return (part) => `${profiles[standard].edition}, ${part}`;
}

function extremes(values: readonly number[]): [lowest: number, highest: number] {
  return [smallest(values), largest(values)];
}

/** What the flow column holds; where the device was calibrated, if that counts. */
function flowBasisRow(settings: Settings): TableRow {
  const { system, "flow basis": basis } = settings;
  const density = Number(fromMethod(settings["calibration density"], "density", system).toPrecision(5));
  const calibration =
    basis === "indicated at calibration density" ? `, calibration at ${density} ${system.density}` : "";
  return row(`flow basis${calibration}`, "basis", basis, "", "stated by the tester");
}

/** The steps before the fit: readings, baseline, pressures, air, flow. */
function inputRows(direction: Direction, result: TestResult, readings: SheetReadings, settings: Settings): TableRow[] {
  const { baseline, density, points } = result;
  const air = airIn(settings);
  const by = namedBy(settings);
  const procedure = by(profiles[settings.standard].procedure ?? "procedure");
  const byAltitude = air.altitudeOfFormula !== undefined;
  const ofDensity = byAltitude ? "ASTM E779-19, air density from the altitude" : "ISO 9972:2015, air density";
  const ofAltitude = air.barometerFrom === "from the altitude" ? "ASHRAE Fundamentals 2021 ch. 1 eqn. 3" : "";
  const [lowestPressure, highestPressure] = extremes(points.map(({ pressure }) => pressure));
  const [lowestFlow, highestFlow] = extremes(points.map(({ flow }) => flow));
  const count = readings.used.length;
  const inUnits = rowsIn(settings.system);
  const zeroFlow = by("zero-flow pressure");
  const isTimed = points.some(({ time }) => time !== undefined);
  const induced = by("induced pressure");
  return [
    row("direction", "direction", direction, "", procedure),
    row(`readings used: ${count} of ${count + readings.excluded.length}`, "count", count, "", procedure),
    row("baseline before the test, mean", "dp01", baseline.before, "Pa", zeroFlow),
    row("baseline after the test, mean", "dp02", baseline.after, "Pa", zeroFlow),
    row(
      isTimed ? "baseline of the test, mean; each reading's follows its time" : "baseline of the test",
      "dp0",
      baseline.pressure,
      "Pa",
      zeroFlow,
    ),
    row("lowest induced pressure", "dp_min", lowestPressure, "Pa", induced),
    row("highest induced pressure", "dp_max", highestPressure, "Pa", induced),
    inUnits("indoor air density", "rho_i", density.indoor, "density", ofDensity),
    inUnits("outdoor air density", "rho_e", density.outdoor, "density", ofDensity),
    inUnits(
      `barometric pressure, ${air.barometerFrom}`,
      "p_bar",
      air.barometricPressure,
      "barometer",
      byAltitude ? ofDensity : ofAltitude,
    ),
    flowBasisRow(settings),
    row("flow through the envelope over flow column", "k_q", result.flowFactor, "–", by("air leakage rate")),
    inUnits("lowest flow through the envelope", "q_min", lowestFlow, "flow"),
    inUnits("highest flow through the envelope", "q_max", highestFlow, "flow"),
  ];
}

/** The leakage curve and its reference conditions. */
function curveRows(result: TestResult, settings: Settings, t: number): TableRow[] {
  const { system, standard } = settings;
  const { fit } = result;
  const { correction, edition, technique } = profiles[standard];
  const by = namedBy(settings);
  const reference = by(correction.clause);
  const ofStandard = technique.value === fit.technique ? `, ${edition}` : "";
  const regression = fit.technique === "ordinary" ? by("regression") : `technique "${fit.technique}"${ofStandard}`;
  const level = percent(settings.confidence);
  const unitOfC = perPressure(system.flow);
  const inUnits = rowsIn(system);
  const { coefficient, coefficientAtReference } = result;
  return [
    degreesOfFreedomRow(fit),
    row(`Student's t, ${level} two-sided`, "t", t, "–", by("confidence limits")),
    row("flow exponent", "n", result.exponent, "–", regression),
    row("standard error of n", "s_n", fit.standardErrorOfExponent, "–", regression),
    inUnits("leakage coefficient, test conditions", "C", coefficient, "flow", regression, unitOfC),
    row("standard error of ln C", "s_lnC", fit.standardErrorOfLogCoefficient, "–", regression),
    row("coefficient of determination of the logarithms", "r2", fit.determination, "–", regression),
    row("reference conditions of", "standard", standard, "", "20 °C, 101 325 Pa, dry air"),
    inUnits("density of the air through the leaks", "rho_leak", result.densityAtLeaks, "density", reference),
    inUnits("leakage coefficient, reference conditions", "C_L", coefficientAtReference, "flow", reference, unitOfC),
  ];
}

/** What the house is judged by, at reference conditions. */
function resultRowsAtReference(result: TestResult, settings: Settings): TableRow[] {
  const { at50, leakageAreas } = result;
  const pressure = settings["reference pressure"];
  const other = pressure === undefined ? undefined : result.at(pressure);
  const rates = namedBy(settings)("derived quantities");
  const inUnits = rowsIn(settings.system);
  const rate = (what: string, symbol: string, value: TableRow["value"]) => row(what, symbol, value, "1/h", rates);
  const area = (what: string, symbol: string, definition: keyof typeof leakageAreas, source: string) =>
    inUnits(what, symbol, leakageAreas[definition], "leakageArea", source);
  return [
    inUnits("flow at 50 Pa", "q50", at50.flow, "flow", rates),
    rate("air change rate at 50 Pa", "n50", at50.airChangeRate),
    inUnits("flow at 50 Pa per envelope area", "qE50", at50.perEnvelopeArea, "permeability", rates),
    inUnits("flow at 50 Pa per floor area", "qF50", at50.perFloorArea, "permeability", rates),
    row("another reference pressure", "p_r", pressure, "Pa", "setting"),
    inUnits("flow at that pressure", "q_pr", other?.flow, "flow", rates),
    rate("air change rate at that pressure", "n_pr", other?.airChangeRate),
    inUnits("flow at that pressure per envelope area", "qE_pr", other?.perEnvelopeArea, "permeability", rates),
    inUnits("flow at that pressure per floor area", "qF_pr", other?.perFloorArea, "permeability", rates),
    area("effective leakage area, 4 Pa, C_d 1", "ELA4", "effective 4 Pa", "ASTM E779-19"),
    area("leakage area by ISO 9972, 10 Pa, C_d 1", "AL10", "ISO 9972 10 Pa", rates),
    area("equivalent leakage area, 10 Pa, C_d 0.611", "EqLA10", "equivalent 10 Pa", "CAN/CGSB-149.10"),
  ];
}

/** Baseline readings that may be blank cells sent as 0. */
function zerosRow([before, after = []]: WholeTest["baselines"]): TableRow {
  const readings = [...before, ...after];
  const zeros = countExactZeros(readings);
  const found = zeros === 0 ? "" : `: ${zeros} of ${readings.length}; blank cells arrive as 0 in some hosts`;
  return row(`baseline readings that are exactly 0${found}`, "zeros_dp0", zeros, "", "common practice, no source");
}

/**
 * The rows of TESTRESULT, in the order of the calculation, then what a reviewer asks of the whole table. A row never changes its place or its symbol; new
 * ones come last, so that a formula which counts rows still finds what it found.
 */
export function resultRows({ direction, result, readings, settings, baselines }: WholeTest): TableRow[] {
  const t = studentT(settings.confidence, result.fit.degreesOfFreedom);
  return [
    ...inputRows(direction, result, readings, settings),
    ...curveRows(result, settings, t),
    ...resultRowsAtReference(result, settings),
    ...expectedExponentRows(result.fit),
    row(
      "lower and upper hold the scatter only; for the full interval see the uncertainty budget",
      "limits",
      "scatter only",
      "",
      "UNCERTAINTYBUDGET",
    ),
    zerosRow(baselines),
    row("version of the calculation method", "method", methodVersion),
  ];
}
