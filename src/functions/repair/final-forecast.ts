import {
  allowedFlow,
  finalForecast as forecastOf,
  inTargetQuantity,
  targetPressure,
  type FinalForecast,
  type FlowRange,
} from "../../core/index";
import { isBlankOrZero, numberIn, optionalNumber, plain, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { nameSettings, settingsIn, type Settings } from "../settings/settings";
import { row, rowsIn, table, type TableRow } from "../cells/table";
import { buildingIn, exponentIn, limitScale, targetTermsIn } from "../settings/target";
import { toMethod } from "../cells/units";
import { invalid, missing } from "../cells/rule-codes";

/** Ranges of flows, one per row: one column is the flow, two are low and high, three are likely, low and high. Rows of blanks or zeros do not count. */
function rangesIn(argument: unknown, name: string, settings: Settings): FlowRange[] {
  return rowsOf(argument).flatMap((cells, index) => {
    const row = index + 1;
    if (cells.length > 3) {
      throw invalid(name, "columns", { columns: "flow, low and high, or likely, low and high", got: cells.length });
    }
    const values = cells.map((cell) => plain(cell, name, row));
    if (values.every(isBlankOrZero)) return [];
    const flows = values.map((value) => {
      const flow = numberIn(value, name, row);
      if (flow === undefined) throw missing(name, "partBlank", undefined, row);
      return toMethod(flow, "flow", settings.system);
    });
    const [first, second, third] = flows as [number, number?, number?];
    if (second === undefined) return [{ low: first, high: first, row }];
    if (third === undefined) return [{ low: first, high: second, row }];
    return [{ likely: first, low: second, high: third, row }];
  });
}

/** A single number that a forecast cannot do without. */
function single(argument: unknown, name: string, zeroIsValue: boolean): number {
  const value = optionalNumber(argument, name);
  if (value !== undefined && (zeroIsValue || value !== 0)) return value;
  throw missing(name, zeroIsValue ? "notGivenNorZero" : "notGiven");
}

function forecastRows(forecast: FinalForecast, allowed: number, target: number, settings: Settings): TableRow[] {
  const { system } = settings;
  const terms = targetTermsIn(settings);
  const inUnits = rowsIn(system);
  const perFlow = inTargetQuantity(1, terms, buildingIn(settings), exponentIn(settings));
  const { unit, fromMethod } = limitScale(settings);
  const quantity = (value: number) => fromMethod(value * perFlow);
  const name = `${terms.quantity} at ${targetPressure(terms)} Pa`;
  const { likely, best, worst, expected, lower, upper, degreesOfFreedom } = forecast;
  const isAssumed = settings["flow degrees of freedom"] === undefined;
  const few = 'the setting "flow degrees of freedom" is not given; few readings need it';
  const gum = "JCGM 100:2008 5.1.2";
  const ends = "every range and the measurement at its end";
  return [
    row("outlook, no verdict", "outlook", forecast.outlook, "", "from the probability"),
    row(
      "probability that the final test meets the limit",
      "p_meet",
      forecast.probability,
      "–",
      "JCGM 106:2012 7.2, on ln q",
    ),
    inUnits("flow at 50 Pa, likely", "q50_likely", likely, "flow"),
    inUnits("flow at 50 Pa, best", "q50_best", best, "flow", ends),
    inUnits("flow at 50 Pa, worst", "q50_worst", worst, "flow", ends),
    inUnits("flow at 50 Pa, mean of what can come, 95 %", "q50_mean", { value: expected, lower, upper }, "flow", gum),
    inUnits("standard uncertainty of that mean", "u_q50", forecast.standardUncertainty, "flow", gum),
    row(
      "degrees of freedom of that uncertainty",
      "dof",
      degreesOfFreedom === Infinity ? "infinite" : degreesOfFreedom,
      "",
      isAssumed ? few : "JCGM 100:2008 G.4.1, truncated",
    ),
    row(`${name}, likely`, "likely", quantity(likely), unit),
    row(`${name}, best`, "best", quantity(best), unit, ends),
    row(`${name}, worst`, "worst", quantity(worst), unit, ends),
    row(`limit: ${name}`, "limit", target, unit, "given"),
    inUnits("flow at 50 Pa that the limit allows", "q50_limit", allowed, "flow"),
  ];
}

/**
 * Forecast of the final test from one during construction: flow now, minus planned repairs, plus openings still to
 * come. Gives the likely, best and worst flow and result, the probability p that the final test meets the limit, and an
 * outlook: "meets the limit with a margin" (p from 0.975: the 95 % interval lies below the limit), "probably meets the
 * limit" (from 0.9), "can go either way", "probably misses the limit" (to 0.1), "misses the limit by a margin" (below
 * 0.025). Columns: what it is, symbol, value, lower, upper, unit, source.
 * Equation: q_final = q_now − Σ repairs + Σ openings; p = F(ln(q_limit/q_mean)/(u/q_mean)).
 * Source: JCGM 100:2008 4.3, 5.1.2 and G.4.1; JCGM 106:2012 7.2; ISO 9972:2015, derived quantities.
 * @customfunction FINALFORECAST
 * @param flow Flow at 50 Pa now, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param flow_uncertainty Standard uncertainty of this flow, same unit. 0 is a value: pass blanks as "".
 * @param repairs Flow at 50 Pa that each repair removes, one per row: the flow; or low, high; or likely, low, high. A row of zeros means blank.
 * @param openings Flow at 50 Pa that each opening still to come adds, in the same layout. A row of zeros means blank.
 * @param target The limit, in the unit of its quantity. 0 means blank.
 * @param [settings] Two columns, label and value: it needs "quantity" of the limit and volume or area; optional "flow degrees of freedom" (needed with few readings), "reference pressure", "leakage area definition", "exponent", units, headings.
 * @returns The table.
 * @core repair/final-forecast.ts
 * @check authorities/final-forecast.test.ts
 */
export function finalForecast(
  flow: any[][],
  flow_uncertainty: any[][],
  repairs: any[][],
  openings: any[][],
  target: any[][],
  settings?: any[][],
): any[][] {
  return inCell(() => {
    const given = settingsIn(settings);
    const limit = single(target, "target", false);
    return nameSettings(() => {
      const allowed = allowedFlow(
        limitScale(given).toMethod(limit),
        targetTermsIn(given),
        buildingIn(given),
        exponentIn(given),
      );
      const forecast = forecastOf(
        toMethod(single(flow, "flow", false), "flow", given.system),
        toMethod(single(flow_uncertainty, "flow_uncertainty", true), "flow", given.system),
        rangesIn(repairs, "repairs", given),
        rangesIn(openings, "openings", given),
        allowed,
        given["flow degrees of freedom"],
      );
      return table(forecastRows(forecast, allowed, limit, given), given.headings);
    }, ["flow uncertainty", "openings"]);
  });
}
