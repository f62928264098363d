import {
  allowedFlow,
  directions,
  fanDemand as demandOf,
  fittingOpening,
  type Direction,
  type FanDemand,
  type Opening,
} from "../../core/index";
import { isBlankOrZero, numberIn, plain, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { nameSettings, type Settings, settingsIn, testAirIn } from "../settings/settings";
import { oneNumber } from "../cells/spread";
import { row, rowsIn, table, type TableRow } from "../cells/table";
import { buildingIn, exponentIn, limitScale, targetTermsIn } from "../settings/target";
import { toMethod, type UnitSystem } from "../cells/units";
import { invalid, missing } from "../cells/rule-codes";

/** A row of the table of openings; undefined where it is blank. */
function openingIn(cells: readonly unknown[], row: number, system: UnitSystem): Opening | undefined {
  if (cells.length !== 5) {
    throw invalid("openings", "columns", { columns: "name, c, m, lowest and highest fan pressure", got: cells.length });
  }
  if (cells.every((cell) => isBlankOrZero(plain(cell, "openings", row)))) return undefined;
  const name = plain(cells[0], "openings", row);
  const numberAt = (column: number, what: string): number => {
    const value = numberIn(cells[column], "openings", row);
    if (!value) throw missing("openings", "without", { part: "an opening", lacks: what }, row);
    return value;
  };
  if (isBlankOrZero(name)) throw missing("openings", "without", { part: "an opening", lacks: "name" }, row);
  return {
    name: String(name),
    coefficient: toMethod(numberAt(1, "c"), "flow", system),
    exponent: numberAt(2, "m"),
    lowest: numberIn(cells[3], "openings", row) ?? 0,
    highest: numberAt(4, "highest fan pressure"),
    row,
  };
}

const whyNone = {
  above: "the flow lies above every range",
  below: "the flow lies below every range",
  between: "the flow lies between the ranges",
};

/** What the device must give in one direction, and the opening for it. */
function demandRows(
  direction: Direction,
  demand: FanDemand,
  openings: Opening[] | undefined,
  system: UnitSystem,
): TableRow[] {
  const key = direction === "depressurization" ? "dep" : "pres";
  const certificate = "calibration certificate";
  const flow = (what: string, symbol: string, value: number, source: string) =>
    rowsIn(system)(`${direction}: ${what}`, `${symbol}_${key}`, value, "flow", source);
  const fit = openings && fittingOpening(demand.indicated, openings);
  const none = typeof fit === "string" ? `, none: ${whyNone[fit]}` : "";
  const found = typeof fit === "object" ? fit : undefined;
  const name = found?.opening.name ?? (fit && "none");
  return [
    flow("flow through the envelope, test conditions", "q_env", demand.throughEnvelope, "ISO 9972:2015, C_L"),
    flow("flow that the fan must give", "q_fan", demand.atFan, "ISO 9972:2015, air leakage rate"),
    flow("the same as the device indicates it", "q_ind", demand.indicated, "ISO 9972:2015, flow device"),
    row(`${direction}: opening that fits${none}`, `opening_${key}`, name, "", certificate),
    row(`${direction}: fan pressure with it`, `p_fan_${key}`, found?.fanPressure, "Pa", certificate),
  ];
}

function demandTable(limit: number, highest: number, settings: Settings, openings: Opening[] | undefined): TableRow[] {
  const { system } = settings;
  const terms = targetTermsIn(settings);
  const exponent = exponentIn(settings);
  const at50 = allowedFlow(limitScale(settings).toMethod(limit), terms, buildingIn(settings), exponent);
  const conditions = { standard: settings.standard, calibrationDensity: settings["calibration density"] };
  const air = testAirIn(settings);
  return [
    rowsIn(system)("flow at 50 Pa, reference conditions", "q50", at50, "flow", "ISO 9972:2015, derived quantities"),
    row(`flow exponent${settings.exponent === undefined ? ", assumed" : ""}`, "n", exponent, "–"),
    row("highest induced pressure", "dp_max", highest, "Pa"),
    ...directions.flatMap((direction) =>
      demandRows(direction, demandOf({ at50, exponent }, highest, direction, air, conditions), openings, system),
    ),
  ];
}

/**
 * Flow and fan pressure needed at the highest pressure of a test, in both directions, for a house that just meets its
 * limit or has an expected leakage. A table of 13 rows: flow through the envelope, flow at the fan, flow indicated at
 * its calibration density, the opening that gives it and the fan pressure; fetch a value by its symbol ("q_fan_dep",
 * "opening_dep", "q_fan_pres", …). If several openings would do, it names the smallest. A fan delivers less flow
 * against a higher pressure: see its fan curve.
 * Equation: q = q50·(p/50)^n; f = (q_ind/c)^(1/m).
 * Source: ISO 9972:2015, air leakage rate; the device's calibration certificate.
 * @customfunction FANDEMAND
 * @param target The limit or expected leakage, in 1/h, m³/(h·m²) (SI L/s: L/(s·m²), IP: cfm/ft²) or cm²/m² (IP: in² per 100 ft²). 0 means blank.
 * @param highest Highest induced pressure, Pa, as a magnitude. 0 means blank.
 * @param [settings] Two columns, label and value; it needs "quantity", its size ("volume", …), "indoor temperature" and "outdoor temperature"; optional "exponent", "calibration density", …
 * @param [openings] Openings of the device, one per row: name, c (flow at 1 Pa), m, lowest and highest fan pressure, Pa. 0 is a value for the lowest; other zeros mean blank.
 * @returns The table.
 * @core planning/fan-demand.ts
 * @check authorities/laws/planning/fan-demand.test.ts
 */
export function fanDemand(target: any[][], highest: any[][], settings?: any[][], openings?: any[][]): any[][] {
  return inCell(() => {
    const given = settingsIn(settings);
    const rows = rowsOf(openings);
    const list = rows.flatMap((cells, index) => openingIn(cells, index + 1, given.system) ?? []);
    const limit = oneNumber(target, "target");
    const built = nameSettings(
      () => demandTable(limit, oneNumber(highest, "highest"), given, rows.length === 0 ? undefined : list),
      ["openings"],
    );
    return table(built, given.headings);
  });
}
