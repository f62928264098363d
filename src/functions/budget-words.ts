import { directions, openingsInBudget } from "../core/index";
import type { Settings } from "./settings";
import { differenceToMethod, toMethod } from "./units";

/** What a tester reads beside one source. */
export interface SourceWords {
  readonly symbol: string;
  readonly what: string;
  /** What its uncertainty is measured in; a fraction where nothing is named. */
  readonly measures?: "Pa" | "temperature" | "barometer";
  /** The label that sets it, and what to say where no label does. */
  readonly label?: keyof Settings;
  readonly note?: string;
}

const words = (
  symbol: string,
  what: string,
  label?: keyof Settings,
  measures?: SourceWords["measures"],
  note?: string,
): SourceWords => ({ symbol, what, ...(label && { label }), ...(measures && { measures }), ...(note && { note }) });

const letters = Array.from({ length: openingsInBudget }, (_, index) => String.fromCharCode(65 + index));

/** Sources that act in both directions. */
const shared: readonly SourceWords[] = [
  words("g_e", "pressure gauge, gain", "gauge accuracy"),
  words("o_e", "pressure gauge, zero shift after the baseline", "gauge zero", "Pa"),
  words("g_f", "fan gauge, gain", "fan gauge accuracy"),
  words("o_f", "fan gauge, zero", "fan gauge zero", "Pa"),
  words("gamma_0", "flow calibration, all openings", "flow calibration uncertainty"),
  ...letters.map((letter) =>
    words(`gamma_${letter}`, `calibration of opening ${letter}`, "opening calibration uncertainty"),
  ),
  ...letters.map((letter) => words(`m_${letter}`, `exponent of opening ${letter}`, "fan exponent uncertainty")),
  words("theta_i", "indoor temperature", "indoor temperature uncertainty", "temperature"),
  words("theta_e", "outdoor temperature", "outdoor temperature uncertainty", "temperature"),
  words("p_bar", "barometric pressure", "barometer uncertainty", "barometer"),
  words("phi_i", "indoor humidity", "humidity accuracy"),
  words("phi_e", "outdoor humidity", "humidity accuracy"),
  words("stack", "stack pressure left in the readings", "building height", "Pa"),
  words("size", "volume or area"),
  words("model", "power law beyond the readings", undefined, undefined, "0 at pressures among the readings"),
];

/** Sources of one direction, once for each. */
const own = directions.flatMap((direction) => {
  const mark = markOf(direction);
  return [
    words(`B1_${mark}`, "baseline before", "baseline uncertainty", "Pa", "from its readings, taken as independent"),
    words(`B2_${mark}`, "baseline after", "baseline uncertainty", "Pa", "from its readings, taken as independent"),
    words(`B_${mark}`, "baseline, course between unknown", undefined, "Pa", "movement/√12"),
    words(
      `drift_${mark}`,
      "baseline, drift left in the readings",
      undefined,
      "Pa",
      "movement/√3; readings evenly spaced in time",
    ),
    words(`wind_${mark}`, "wind pressure left in the readings", "wind speed", "Pa"),
    words(`scatter_${mark}`, "random, from the scatter about the line"),
    words(`stated_${mark}`, "random, as stated of the readings"),
  ].map((row) => ({ ...row, what: `${row.what}, ${direction}` }));
});

export function markOf(direction: string): string {
  return direction.slice(0, 1);
}

/** Every source of the table, in its order; the symbols never change. */
export const sourceWords: readonly SourceWords[] = [...shared, ...own];

/** The unit in which a source is shown, and how many of the method's units one of it is. */
export function unitOf({ measures }: SourceWords, { system }: Settings): { unit: string; inMethod: number } {
  if (measures === "temperature") return { unit: system.temperature, inMethod: differenceToMethod(1, system) };
  if (measures === "barometer") return { unit: system.barometer, inMethod: toMethod(1, "barometer", system) };
  return { unit: measures ?? "–", inMethod: 1 };
}
