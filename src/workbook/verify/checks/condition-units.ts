import type { Finding, FindingKind } from "../finding";
import type { Check, Review } from "../review";
import { findSameUnitSources } from "../units";
import { type EnteredRun, readWord } from "../../book/tests/entered-runs";
import { formatFigure, formatList } from "../../formatting";

interface Condition {
  readonly label: string;
  readonly kind: FindingKind;
  /** What the values can be, by the test's unit system, and what they are taken for when they are not. */
  readonly si: readonly [lowest: number, highest: number];
  readonly ip: readonly [lowest: number, highest: number];
  /** Above this it can be, on a day on which hardly anyone tests a house. */
  readonly doubtful?: { readonly si: number; readonly ip: number };
  slip(value: number, ip: boolean): string;
  readonly why: string;
}

const guessTemperatureSlip = (value: number, ip: boolean): string =>
  ip
    ? value < 40
      ? "°C instead of °F"
      : "not a plausible temperature for a house"
    : value > 40 && value < 120
      ? "°F instead of °C"
      : "not a plausible temperature for a house";

const densityCounts = "It enters the air density, and so the flow of every reading.";

const conditions: readonly Condition[] = [
  {
    label: "indoor temperature",
    kind: "temperature unit",
    si: [-10, 42],
    ip: [40, 108],
    slip: guessTemperatureSlip,
    why: densityCounts,
  },
  {
    label: "outdoor temperature",
    kind: "temperature unit",
    si: [-45, 50],
    ip: [-50, 122],
    doubtful: { si: 42, ip: 108 },
    slip: guessTemperatureSlip,
    why: densityCounts,
  },
  {
    label: "barometric pressure",
    kind: "barometer unit",
    // The highest ever measured, reduced to sea level, is 108 480 Pa.
    si: [50_000, 108_500],
    ip: [15, 32.05],
    slip: (value, ip) =>
      ip
        ? value > 500 && value < 1100
          ? "hPa instead of inHg"
          : value > 50_000
            ? "Pa instead of inHg"
            : "not a plausible air pressure"
        : value > 500 && value < 1100
          ? "hPa instead of Pa"
          : value > 50 && value < 110
            ? "kPa instead of Pa"
            : value > 15 && value < 33
              ? "inHg instead of Pa"
              : "not a plausible air pressure",
    why: densityCounts,
  },
  ...(["indoor humidity", "outdoor humidity"] as const).map((label): Condition => ({
    label,
    kind: "humidity unit",
    si: [0, 1],
    ip: [0, 1],
    slip: (value) =>
      value > 1 && value <= 100 ? "per cent instead of a fraction" : "not a possible relative humidity",
    why: "A humidity of 46 instead of 0.46 is refused, or makes the air impossibly light.",
  })),
];

/** Temperatures, barometric pressure and humidity in a unit other than the test expects. */
export const checkConditionUnits: Check = (review) =>
  review.runs.flatMap((run) => conditions.flatMap((condition) => reviewCondition(review, run, condition)));

function reviewCondition({ view }: Review, run: EnteredRun, condition: Condition): Finding[] {
  const place = run.settings.get(condition.label)?.place;
  if (!place) return [];
  const ip = readWord(view, run, "units") === "ip";
  const [lowest, highest] = ip ? condition.ip : condition.si;
  const usual = condition.doubtful?.[ip ? "ip" : "si"] ?? highest;
  const isOdd = (value: number | undefined): value is number =>
    value !== undefined && !(value >= lowest && value <= usual);
  // The mean of a correct and a faulty reading may look plausible, so check the typed values.
  const sources = [place, ...findSameUnitSources(view, place)].filter((source) => isOdd(view.readNumber(source)));
  const typed = sources.filter((source) => view.isTyped(source));
  const [first] = typed.length > 0 ? typed : sources;
  const value = first && view.readNumber(first);
  if (!first || value === undefined) return [];
  return [
    {
      kind: condition.kind,
      severity: value > usual && value <= highest ? "warning" : "error",
      place: view.formatAddress(first),
      what: `The ${condition.label} for ${run.direction} is ${formatFigure(value, 6)}: ${condition.slip(value, ip)} (${formatList(typed.map((source) => view.formatAddress(source)))}).`,
      why: condition.why,
      todo: `Enter it in the sheet's unit (${ip ? "°F, inHg" : "°C, Pa"}, humidity as a fraction).`,
    },
  ];
}
