import { profiles, type Direction, type Limits, type TestResult } from "../core/index";
import { degreesOfFreedomRow } from "./degrees-of-freedom";
import type { SheetReadings } from "./pairs";
import { airIn, calibrationDensityIn, type Settings } from "./settings";
import type { TableRow } from "./table";
import { fromMethod, type UnitSystem } from "./units";

/** Names the standard that the tester chose beside a part of it. */
function namedBy({ standard }: Settings): (part: string) => string {
  return (part) => `${profiles[standard].edition}, ${part}`;
}

/** Turns a value and its limits into the user's units. */
function limitsIn(limits: Limits | undefined, measures: keyof UnitSystem, system: UnitSystem): Limits | undefined {
  if (limits === undefined) return undefined;
  const { value, lower, upper } = limits;
  return {
    value: fromMethod(value, measures, system),
    lower: fromMethod(lower, measures, system),
    upper: fromMethod(upper, measures, system),
  };
}

/** Unit of C: "m³/h" gives "m³/(h·Pa^n)", "cfm" gives "cfm/Pa^n". */
export function perPressure(flowUnit: string): string {
  const [amount, time] = flowUnit.split("/");
  return time === undefined ? `${amount}/Pa^n` : `${amount}/(${time}·Pa^n)`;
}

function extremes(values: readonly number[]): [lowest: number, highest: number] {
  return values.reduce(
    ([lowest, highest], value) => [Math.min(lowest, value), Math.max(highest, value)],
    [Infinity, -Infinity],
  );
}

/** The steps before the fit: readings, baseline, pressures, air, flow. */
function inputRows(direction: Direction, result: TestResult, readings: SheetReadings, settings: Settings): TableRow[] {
  const { system } = settings;
  const { baseline, density, points } = result;
  const air = airIn(settings);
  const by = namedBy(settings);
  const { procedure } = profiles[settings.standard];
  const byAltitude = air.altitudeOfFormula !== undefined;
  const densitySource = byAltitude ? "ASTM E779-19, air density from the altitude" : "ISO 9972:2015, air density";
  const [lowestPressure, highestPressure] = extremes(points.map(({ pressure }) => pressure));
  const [lowestFlow, highestFlow] = extremes(points.map(({ flow }) => flow));
  const count = readings.used.length;
  const densityUnit = system.density;
  const inUnits = (value: number, measures: keyof UnitSystem) => fromMethod(value, measures, system);
  const basis = settings["flow basis"];
  const calibration =
    basis === "indicated at calibration density"
      ? `, calibration at ${Number(inUnits(calibrationDensityIn(settings), "density").toPrecision(5))} ${densityUnit}`
      : "";
  return [
    { what: "direction", symbol: "direction", value: direction, source: by(procedure) },
    {
      what: `readings used: ${count} of ${count + readings.excluded.length}`,
      symbol: "count",
      value: count,
      source: by(procedure),
    },
    {
      what: "baseline before the test, mean",
      symbol: "dp01",
      value: baseline.before,
      unit: "Pa",
      source: by("zero-flow pressure"),
    },
    {
      what: "baseline after the test, mean",
      symbol: "dp02",
      value: baseline.after,
      unit: "Pa",
      source: by("zero-flow pressure"),
    },
    {
      what: "baseline of the test",
      symbol: "dp0",
      value: baseline.pressure,
      unit: "Pa",
      source: by("zero-flow pressure"),
    },
    {
      what: "lowest induced pressure",
      symbol: "dp_min",
      value: lowestPressure,
      unit: "Pa",
      source: by("induced pressure"),
    },
    {
      what: "highest induced pressure",
      symbol: "dp_max",
      value: highestPressure,
      unit: "Pa",
      source: by("induced pressure"),
    },
    {
      what: "indoor air density",
      symbol: "rho_i",
      value: inUnits(density.indoor, "density"),
      unit: densityUnit,
      source: densitySource,
    },
    {
      what: "outdoor air density",
      symbol: "rho_e",
      value: inUnits(density.outdoor, "density"),
      unit: densityUnit,
      source: densitySource,
    },
    {
      what: `barometric pressure, ${air.barometerFrom}`,
      symbol: "p_bar",
      value: inUnits(air.barometricPressure, "barometer"),
      unit: system.barometer,
      source: byAltitude
        ? densitySource
        : air.barometerFrom === "from the altitude"
          ? "ASHRAE Fundamentals 2021 ch. 1 eqn. 3"
          : "",
    },
    { what: `flow basis${calibration}`, symbol: "basis", value: basis, source: "stated by the tester" },
    {
      what: "flow through the envelope over flow column",
      symbol: "k_q",
      value: result.flowFactor,
      unit: "–",
      source: by("air leakage rate"),
    },
    {
      what: "lowest flow through the envelope",
      symbol: "q_min",
      value: inUnits(lowestFlow, "flow"),
      unit: system.flow,
    },
    {
      what: "highest flow through the envelope",
      symbol: "q_max",
      value: inUnits(highestFlow, "flow"),
      unit: system.flow,
    },
  ];
}

/** The leakage curve and its reference conditions. */
function curveRows(result: TestResult, settings: Settings, t: number): TableRow[] {
  const { system, standard } = settings;
  const { fit } = result;
  const percent = `${Number((100 * (settings.confidence ?? 0.95)).toPrecision(6))} %`;
  const coefficientUnit = perPressure(system.flow);
  const { correction, edition, technique } = profiles[standard];
  const by = namedBy(settings);
  const reference = by(correction.clause);
  const ofStandard = technique.value === fit.technique ? `, ${edition}` : "";
  const regression = fit.technique === "ordinary" ? by("regression") : `technique "${fit.technique}"${ofStandard}`;
  return [
    degreesOfFreedomRow(fit),
    { what: `Student's t, ${percent} two-sided`, symbol: "t", value: t, unit: "–", source: by("confidence limits") },
    { what: "flow exponent", symbol: "n", value: result.exponent, unit: "–", source: regression },
    {
      what: "standard error of n",
      symbol: "s_n",
      value: fit.standardErrorOfExponent,
      unit: "–",
      source: regression,
    },
    {
      what: "leakage coefficient, test conditions",
      symbol: "C",
      value: limitsIn(result.coefficient, "flow", system),
      unit: coefficientUnit,
      source: regression,
    },
    {
      what: "standard error of ln C",
      symbol: "s_lnC",
      value: fit.standardErrorOfLogCoefficient,
      unit: "–",
      source: regression,
    },
    {
      what: "coefficient of determination of the logarithms",
      symbol: "r2",
      value: fit.determination,
      unit: "–",
      source: regression,
    },
    { what: "reference conditions of", symbol: "standard", value: standard, source: "20 °C, 101 325 Pa, dry air" },
    {
      what: "density of the air through the leaks",
      symbol: "rho_leak",
      value: fromMethod(result.densityAtLeaks, "density", system),
      unit: system.density,
      source: reference,
    },
    {
      what: "leakage coefficient, reference conditions",
      symbol: "C_L",
      value: limitsIn(result.coefficientAtReference, "flow", system),
      unit: coefficientUnit,
      source: reference,
    },
  ];
}

/** What the house is judged by, at reference conditions. */
function resultRowsAtReference(result: TestResult, settings: Settings): TableRow[] {
  const { system } = settings;
  const { at50, leakageAreas } = result;
  const pressure = settings["reference pressure"];
  const other = pressure === undefined ? undefined : result.at(pressure);
  const flow = (limits: Limits | undefined) => limitsIn(limits, "flow", system);
  const perArea = (limits: Limits | undefined) => limitsIn(limits, "permeability", system);
  const area = (limits: Limits) => limitsIn(limits, "leakageArea", system);
  const perAreaUnit = system.permeability;
  const rates = namedBy(settings)("derived quantities");
  return [
    { what: "flow at 50 Pa", symbol: "q50", value: flow(at50.flow), unit: system.flow, source: rates },
    { what: "air change rate at 50 Pa", symbol: "n50", value: at50.airChangeRate, unit: "1/h", source: rates },
    {
      what: "flow at 50 Pa per envelope area",
      symbol: "qE50",
      value: perArea(at50.perEnvelopeArea),
      unit: perAreaUnit,
      source: rates,
    },
    {
      what: "flow at 50 Pa per floor area",
      symbol: "qF50",
      value: perArea(at50.perFloorArea),
      unit: perAreaUnit,
      source: rates,
    },
    { what: "another reference pressure", symbol: "p_r", value: pressure, unit: "Pa", source: "setting" },
    { what: "flow at that pressure", symbol: "q_pr", value: flow(other?.flow), unit: system.flow, source: rates },
    {
      what: "air change rate at that pressure",
      symbol: "n_pr",
      value: other?.airChangeRate,
      unit: "1/h",
      source: rates,
    },
    {
      what: "flow at that pressure per envelope area",
      symbol: "qE_pr",
      value: perArea(other?.perEnvelopeArea),
      unit: perAreaUnit,
      source: rates,
    },
    {
      what: "flow at that pressure per floor area",
      symbol: "qF_pr",
      value: perArea(other?.perFloorArea),
      unit: perAreaUnit,
      source: rates,
    },
    {
      what: "effective leakage area, 4 Pa, C_d 1",
      symbol: "ELA4",
      value: area(leakageAreas["effective 4 Pa"]),
      unit: system.leakageArea,
      source: "ASTM E779-19",
    },
    {
      what: "leakage area by ISO 9972, 10 Pa, C_d 1",
      symbol: "AL10",
      value: area(leakageAreas["ISO 9972 10 Pa"]),
      unit: system.leakageArea,
      source: rates,
    },
    {
      what: "equivalent leakage area, 10 Pa, C_d 0.611",
      symbol: "EqLA10",
      value: area(leakageAreas["equivalent 10 Pa"]),
      unit: system.leakageArea,
      source: "CAN/CGSB-149.10",
    },
  ];
}

/** The rows of TESTRESULT, in the order of the calculation; their number and symbols never change. */
export function resultRows(
  direction: Direction,
  result: TestResult,
  readings: SheetReadings,
  settings: Settings,
  t: number,
): TableRow[] {
  return [
    ...inputRows(direction, result, readings, settings),
    ...curveRows(result, settings, t),
    ...resultRowsAtReference(result, settings),
  ];
}
