import { targetGap as gapOf, targetPressure, type TargetGap } from "../../core/index";
import { rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { nameSettings, settingsIn, type Settings } from "../settings/settings";
import { sizes, spread } from "../cells/spread";
import { row, table } from "../cells/table";
import { buildingIn, exponentIn, limitScale, targetTermsIn } from "../settings/target";
import { fromMethod, toMethod, type UnitSystem } from "../cells/units";

const symbols = [
  "state",
  "q50",
  "q50_limit",
  "result",
  "limit",
  "q_remove",
  "remove_pct",
  "ELA4",
  "AL10",
  "EqLA10",
  "A_hole",
  "d_hole",
  "q_hand",
  "hand_pct",
] as const;

type Symbol = (typeof symbols)[number];

function valuesOf(gap: TargetGap, flow: number, target: number, settings: Settings): Record<Symbol, number | string> {
  const inUnits = (value: number, measures: keyof UnitSystem) => fromMethod(value, measures, settings.system);
  const areas = gap.leakageAreas;
  return {
    state: gap.isMet ? "limit met" : "limit not met",
    q50: flow,
    q50_limit: inUnits(gap.allowed, "flow"),
    result: limitScale(settings).fromMethod(gap.inQuantity),
    limit: target,
    q_remove: inUnits(gap.toRemove, "flow"),
    remove_pct: gap.toRemovePercent,
    ELA4: inUnits(areas["effective 4 Pa"], "leakageArea"),
    AL10: inUnits(areas["ISO 9972 10 Pa"], "leakageArea"),
    EqLA10: inUnits(areas["equivalent 10 Pa"], "leakageArea"),
    A_hole: inUnits(gap.realArea, "leakageArea"),
    d_hole: inUnits(gap.realDiameter, "diameter"),
    q_hand: inUnits(gap.inHand, "flow"),
    hand_pct: gap.inHandPercent,
  };
}

/** What each symbol is, in which unit, after which source. */
function wordsFor(settings: Settings): Record<Symbol, [what: string, unit: string, source: string]> {
  const { flow, leakageArea, diameter } = settings.system;
  const terms = targetTermsIn(settings);
  const pressure = targetPressure(terms);
  const limit = limitScale(settings).unit;
  const { exponent } = settings;
  const n = `n ${exponent === undefined ? "0.65 assumed" : Number(exponent.toPrecision(4))}`;
  const carried = pressure === 50 ? "" : `q50·(Δp/50)^n, ${n}`;
  const atPressure = `${terms.quantity} at ${pressure} Pa`;
  const sealed = "leakage area to seal";
  const orifice = "orifice equation; C_d common practice";
  return {
    state: ["the flow and its limit", "", "compared unrounded"],
    q50: ["flow at 50 Pa", flow, "given"],
    q50_limit: ["flow at 50 Pa that the limit allows", flow, carried],
    result: [atPressure, limit, carried],
    limit: [`limit: ${atPressure}`, limit, "given"],
    q_remove: ["flow to remove at 50 Pa", flow, ""],
    remove_pct: ["of the flow", "%", ""],
    ELA4: [`${sealed}, effective, 4 Pa, C_d 1`, leakageArea, `ASTM E779-19; ${n}`],
    AL10: [`${sealed} by ISO 9972, 10 Pa, C_d 1`, leakageArea, `ISO 9972:2015; ${n}`],
    EqLA10: [`${sealed}, equivalent, 10 Pa, C_d 0.611`, leakageArea, `CAN/CGSB-149.10; ${n}`],
    A_hole: ["real hole that passes this flow at 50 Pa, C_d 0.6", leakageArea, orifice],
    d_hole: ["its diameter if it is one round hole", diameter, orifice],
    q_hand: ["flow in hand below the limit", flow, ""],
    hand_pct: ["of what the limit allows", "%", ""],
  };
}

/**
 * How far a flow at 50 Pa is from its limit: flow to remove and %, leakage area by each definition, area and diameter
 * of the real hole; or the margin in hand. Columns: what it is, symbol, value, lower, upper, unit, source. With several
 * flows or limits the result is one row for each instead, with the values in the order of the symbols.
 * Equation: gap = q50 − limit·size.
 * Source: ISO 9972:2015, derived quantities; ASTM E779-19; CAN/CGSB-149.10.
 * @customfunction TARGETGAP
 * @param flow Flow at 50 Pa, q50, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param target The limit, in 1/h, m³/(h·m²) (SI L/s: L/(s·m²), IP: cfm/ft²) or cm²/m² (IP: in² per 100 ft²). 0 means blank.
 * @param [settings] Two columns, label and value: it needs "quantity" of the limit and volume or area; optional "reference pressure", "leakage area definition", "exponent", units, headings.
 * @returns The table.
 * @core repair/target-gap.ts
 * @check authorities/target-gap.test.ts
 */
export function targetGap(flow: any[][], target: any[][], settings?: any[][]): any[][] {
  return inCell(() => {
    const given = settingsIn(settings);
    const inputs = { flow: sizes("flow", flow), target: sizes("target", target) };
    return nameSettings(() => {
      const terms = targetTermsIn(given);
      const words = wordsFor(given);
      const { headings } = given;
      const rows = spread(
        inputs,
        ({ flow, target }) =>
          nameSettings(() => {
            const q50 = toMethod(flow, "flow", given.system);
            const gap = gapOf(q50, limitScale(given).toMethod(target), terms, buildingIn(given), exponentIn(given));
            const values = valuesOf(gap, flow, target, given);
            return symbols.map((symbol) => values[symbol]);
          }),
        symbols.length,
      );
      const isSingle = [flow, target].every((range) => rowsOf(range).flat().length === 1);
      if (!isSingle) return headings === "yes" ? [[...symbols], ...rows] : rows;
      const tableRows = symbols.map((symbol, index) => {
        const [what, unit, source] = words[symbol];
        return row(what, symbol, rows[0]![index] as number | string, unit, source);
      });
      return table(tableRows, headings);
    });
  });
}
