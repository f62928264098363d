import { convertUnits as convert, unitNamed, unitNames } from "../../core/index";
import { plain, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { nearest } from "../cells/text";
import { numbers, spread } from "../cells/spread";
import { invalid, missing } from "../cells/rule-codes";

/** A unit's name from a single cell, letter case as given. Errors: none given; an unknown one, with those like it. */
function unitIn(argument: unknown, name: string): string {
  const value = plain(rowsOf(argument)[0]?.[0], name);
  if (typeof value !== "string" || value.trim() === "") throw missing(name, "notGiven");
  const unit = value.trim();
  if (unitNamed(unit) !== undefined) return unit;
  throw invalid(name, "unknownUnit", { unit, like: nearest(unit, unitNames()) });
}

/**
 * Converts a value between units of flow, volume, area, length, pressure, temperature, speed, density, viscosity,
 * permeability or leakage area per area. "m3/h" means "m³/h"; inches of water are named with their temperature ("inH2O
 * 4 °C", "inH2O 60 °F").
 * Equation: y = x·f_from/f_to, temperatures with their offset.
 * Source: NIST SP 811 (2008), appendix B.
 * @customfunction CONVERTUNITS
 * @param value The value or values. 0 is a value.
 * @param from Unit of the value: m³/h, m³/s, L/s, cfm, m³, L, ft³, m², cm², ft², in², m, cm, mm, ft, in, Pa, hPa, kPa, mbar, inHg, mmHg, psi, °C, K, °F, m/s, km/h, mph, kn, kg/m³, lb/ft³, m³/(h·m²), L/(s·m²), cfm/ft², …
 * @param to Unit of the result, of the same quantity.
 * @returns The value in the other unit.
 * @core units/units.ts
 * @check authorities/unit-conversions.test.ts
 */
export function convertUnits(value: any[][], from: string, to: string): any[][] {
  const inputs = { value: numbers("value", value) };
  return inCell(() => {
    const [source, target] = [unitIn(from, "from"), unitIn(to, "to")];
    return spread(inputs, ({ value }) => convert(value, source, target));
  });
}
