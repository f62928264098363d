import { type BudgetPart, directions, openingsInBudget } from "../../core/index";
import type { Settings } from "../settings/settings";
import { differenceToMethod, toMethod } from "../cells/units";

/** The texts shown with one source. */
export interface SourceWords {
  readonly symbol: string;
  readonly what: string;
  /** The opening that it is of, counted from 0. */
  readonly opening?: number;
  /** The label that sets it. */
  readonly label?: keyof Settings | undefined;
  /** What it is measured in; a fraction where nothing is named. */
  readonly measures?: "Pa" | "temperature" | "barometer" | undefined;
  readonly note?: string | undefined;
  /** The label without which the source is not counted. */
  readonly needs?: keyof Settings | undefined;
  readonly part?: BudgetPart | undefined;
  /** True for what another row contains already. */
  readonly contained?: true | undefined;
  /** True where each run has an independent error. */
  readonly ofOneRun?: true | undefined;
}

const words = (
  symbol: string,
  what: string,
  label?: keyof Settings,
  measures?: SourceWords["measures"],
  note?: string,
): SourceWords => ({ symbol, what, label, measures, note });

const wordsOfOpenings = (symbol: string, what: string, label: keyof Settings) =>
  Array.from({ length: openingsInBudget }, (_, index) => {
    const letter = String.fromCharCode(65 + index);
    return { ...words(`${symbol}_${letter}`, `${what} of opening ${letter}`, label), opening: index };
  });

/** What a source is; an opening has the name that the settings list, else its letter. */
export function nameSource({ what, opening }: SourceWords, { "opening names": names }: Settings): string {
  const name = opening === undefined ? undefined : names?.[opening];
  return name ? what.slice(0, -1) + name : what;
}

export function markOf(direction: string): string {
  return direction.slice(0, 1);
}

const baselineBefore = words("B1", "baseline before", "baseline before uncertainty", "Pa");
const baselineAfter = words("B2", "baseline after", "baseline after uncertainty", "Pa");

/** Sources of one direction. */
function own(direction: string): SourceWords[] {
  const rows: SourceWords[] = [
    baselineBefore,
    baselineAfter,
    { ...words("B", "baseline, course between unknown", undefined, "Pa", "movement/√12"), part: "movement" },
    {
      ...words(
        "drift",
        "baseline, drift left in the readings",
        undefined,
        "Pa",
        "the movement; 0 where the times are given",
      ),
      part: "movement",
    },
    { ...words("wind", "wind pressure left in the readings", "wind speed", "Pa"), needs: "wind speed" },
    { ...words("scatter", "random errors of the readings"), part: "scatter" },
    { ...words("stated", "the same, had they exactly the noise u_P and u_q"), contained: true },
  ];
  return rows.map((row) => ({
    ...row,
    symbol: `${row.symbol}_${markOf(direction)}`,
    what: `${row.what}, ${direction}`,
    ofOneRun: true,
  }));
}

/** Every source of the table, in its order; the symbols never change. */
export const sourceWords: readonly SourceWords[] = [
  words("g_e", "pressure gauge, gain", "gauge accuracy"),
  words("o_e", "pressure gauge, zero shift after the baseline", "gauge zero", "Pa"),
  words("g_f", "fan gauge, gain", "fan gauge accuracy"),
  { ...words("o_f", "fan gauge, zero", "fan gauge zero", "Pa"), needs: "fan pressure at lowest flow" },
  words("gamma_0", "flow calibration, all openings", "flow calibration uncertainty"),
  ...wordsOfOpenings("gamma", "calibration", "opening calibration uncertainty"),
  ...wordsOfOpenings("m", "exponent", "fan exponent uncertainty"),
  words("theta_i", "indoor temperature", "indoor temperature uncertainty", "temperature"),
  words("theta_e", "outdoor temperature", "outdoor temperature uncertainty", "temperature"),
  words("p_bar", "barometric pressure", "barometer uncertainty", "barometer"),
  words("phi_i", "indoor humidity", "humidity accuracy"),
  words("phi_e", "outdoor humidity", "humidity accuracy"),
  { ...words("stack", "stack pressure left in the readings", "building height", "Pa"), needs: "building height" },
  words("size", "volume or area"),
  words(
    "model",
    "curve beyond the readings, bend dn/d ln Δp",
    "extrapolation allowance",
    undefined,
    "acts beyond the readings only",
  ),
  words("prior", "expected exponent of houses", undefined, undefined, "of the technique that expects one"),
  ...[baselineBefore, baselineAfter].map((row) => ({ ...row, what: `${row.what}, of both directions` })),
  ...directions.flatMap(own),
];

/** The unit in which a source is shown, and how many of the method's units one of it is. */
export function unitOf({ measures }: SourceWords, { system }: Settings): { unit: string; inMethod: number } {
  if (measures === "temperature") return { unit: system.temperature, inMethod: differenceToMethod(1, system) };
  if (measures === "barometer") return { unit: system.barometer, inMethod: toMethod(1, "barometer", system) };
  return { unit: measures ?? "–", inMethod: 1 };
}
