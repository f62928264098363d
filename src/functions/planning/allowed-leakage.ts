import {
  allowedLeakage as allowed,
  leakageAreaDefinitions,
  type AllowedLeakage,
  type TargetQuantity,
} from "../../core/index";
import { isOmitted } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { nameSettings, needed, settingsIn } from "../settings/settings";
import { headed, optional, sizes, spread } from "../cells/spread";
import { buildingIn, exponentIn, limitScale, targetTermsIn } from "../settings/target";
import { fromMethod, toMethod, type UnitSystem } from "../cells/units";

/** The columns of sizes, by the name under which the method knows them. */
const columns = { volume: "volumes", "envelope area": "envelope_areas", "floor area": "floor_areas" } as const;

/** Which column a quantity divides by, so that a blank there leaves the row blank. */
const columnOfQuantity: Record<TargetQuantity, (typeof columns)[keyof typeof columns]> = {
  "air change rate": "volumes",
  "per envelope area": "envelope_areas",
  "per floor area": "floor_areas",
  "leakage area per envelope area": "envelope_areas",
};

/** The columns of the result, in the user's units; their order never changes. */
function cells(result: AllowedLeakage, system: UnitSystem): (number | string)[] {
  const { at50, atTargetPressure, airChangeRate = "", perEnvelopeArea, perFloorArea, leakageAreas } = result;
  const perArea = (value: number | undefined) => fromMethod(value, "permeability", system) ?? "";
  return [
    fromMethod(at50, "flow", system),
    fromMethod(atTargetPressure, "flow", system),
    airChangeRate,
    perArea(perEnvelopeArea),
    perArea(perFloorArea),
    ...leakageAreaDefinitions.map((definition) => fromMethod(leakageAreas[definition], "leakageArea", system)),
  ];
}

function headings({ flow, permeability, leakageArea }: UnitSystem): string[] {
  return [
    `q50, ${flow}`,
    `flow at the limit's pressure, ${flow}`,
    "n50, 1/h",
    `qE50, ${permeability}`,
    `qF50, ${permeability}`,
    ...leakageAreaDefinitions.map((definition) => `leakage area, ${definition}, ${leakageArea}`),
  ];
}

/**
 * Largest leakage that a limit allows, one row per size. Eight columns: flow at 50 Pa (q50), flow at the limit's own
 * pressure, n50, q_E50, q_F50, and leakage area by "effective 4 Pa", "ISO 9972 10 Pa" and "equivalent 10 Pa". Results
 * that need a size not given stay blank. Between pressures the flow follows Δp^n, with the setting "exponent" or 0.65.
 * Equation: q = limit·size; q50 = q·(50/p)^n.
 * Source: ISO 9972:2015, derived quantities.
 * @customfunction ALLOWEDLEAKAGE
 * @param target One limit or several, in 1/h, m³/(h·m²) (SI L/s: L/(s·m²), IP: cfm/ft²) or cm²/m² (IP: in² per 100 ft²). 0 means blank.
 * @param [settings] Two columns, label and value: it needs "quantity" ("air change rate", "per envelope area", "per floor area", "leakage area per envelope area"), optional "reference pressure", "leakage area definition", "exponent", sizes.
 * @param [volumes] Volumes, m³ (IP: ft³), instead of the setting "volume". 0 means blank.
 * @param [envelope_areas] Envelope areas, m² (IP: ft²), instead of the setting. 0 means blank.
 * @param [floor_areas] Floor areas, m² (IP: ft²), instead of the setting. 0 means blank.
 * @returns Eight columns.
 * @core planning/allowed-leakage.ts judgement/target.ts
 * @check authorities/planning-figures.test.ts
 */
export function allowedLeakage(
  target: any[][],
  settings?: any[][],
  volumes?: any[][],
  envelope_areas?: any[][],
  floor_areas?: any[][],
): any[][] {
  const ranges = { volumes, envelope_areas, floor_areas };
  /** Evaluated once, not in each of ten thousand rows. */
  const given = {
    volumes: !isOmitted(volumes),
    envelope_areas: !isOmitted(envelope_areas),
    floor_areas: !isOmitted(floor_areas),
  };
  /** What the sizes are called that come from a column; the others are settings. */
  const givenColumns = Object.fromEntries(Object.entries(columns).filter(([, column]) => given[column]));
  return inCell(() => {
    const set = settingsIn(settings);
    const { system } = set;
    const needs = columnOfQuantity[needed(set, "quantity")];
    const column = (name: keyof typeof given) => {
      const input = sizes(name, ranges[name]);
      return name === needs && given[name] ? input : optional(input);
    };
    const inputs = {
      target: sizes("target", target),
      volume: column("volumes"),
      envelope: column("envelope_areas"),
      floor: column("floor_areas"),
    };
    const terms = targetTermsIn(set);
    const scale = limitScale(set);
    const exponent = exponentIn(set);
    const { volume: itsVolume, envelopeArea: itsEnvelope, floorArea: itsFloor } = buildingIn(set);
    /** A column takes the place of the setting, blanks included. */
    const size = (name: keyof typeof given, cell: number | undefined, setting: number | undefined) =>
      given[name] ? toMethod(cell, name === "volumes" ? "volume" : "area", system) : setting;
    const rows = spread(
      inputs,
      ({ target, volume, envelope, floor }) => {
        const building = {
          volume: size("volumes", volume, itsVolume),
          envelopeArea: size("envelope_areas", envelope, itsEnvelope),
          floorArea: size("floor_areas", floor, itsFloor),
        };
        return cells(
          nameSettings(() => allowed(scale.toMethod(target), terms, building, exponent), [], givenColumns),
          system,
        );
      },
      8,
    );
    return headed(headings(system), rows, set.headings);
  });
}
