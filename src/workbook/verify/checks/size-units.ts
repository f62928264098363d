import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { readSetting, type EnteredRun, readWord } from "../../book/tests/entered-runs";
import { formatFigure } from "../../formatting";

/** The smallest surface enclosing a volume is a sphere's: A ≥ (36π)^(1/3)·V^(2/3), whatever the unit of length. */
const sphere = (36 * Math.PI) ** (1 / 3);

/** Volume over floor area, in metres or in feet. */
const heights = { SI: [1.8, 9], IP: [6, 30] } as const;

/** Volume, envelope area and floor area that cannot belong to one house. */
export const checkSizeUnits: Check = (review) => {
  const findings = review.runs.flatMap((run) => [...checkSurface(review, run), ...checkHeight(review, run)]);
  const seen = new Set<string>();
  return findings.filter(({ what }) => !seen.has(what) && seen.add(what));
};

const readNumber = (review: Review, run: EnteredRun, label: string): number | undefined => {
  const value = readSetting(review.view, run, label);
  return typeof value === "number" && value > 0 ? value : undefined;
};

function checkSurface(review: Review, run: EnteredRun): Finding[] {
  const [volume, area] = [readNumber(review, run, "volume"), readNumber(review, run, "envelope area")];
  const place = run.settings.get("envelope area")?.place;
  if (volume === undefined || area === undefined || !place) return [];
  const least = sphere * volume ** (2 / 3);
  if (area >= least) return [];
  return [
    {
      kind: "size unit",
      severity: "error",
      place: review.view.formatAddress(place),
      what: `An envelope of ${formatFigure(area)} cannot enclose a volume of ${formatFigure(volume)}: even a sphere needs ${formatFigure(least)}.`,
      why: "Air change rate and specific leakage rate are divided by these sizes.",
      todo: "Check both: ft³ or ft² among metric units, a storey missing from the area, or a mistyped length.",
    },
  ];
}

function checkHeight(review: Review, run: EnteredRun): Finding[] {
  const [volume, floor] = [readNumber(review, run, "volume"), readNumber(review, run, "floor area")];
  const place = run.settings.get("floor area")?.place;
  if (volume === undefined || floor === undefined || !place) return [];
  const ip = readWord(review.view, run, "units") === "ip";
  const [lowest, highest] = heights[ip ? "IP" : "SI"];
  const mean = volume / floor;
  if (mean >= lowest && mean <= highest) return [];
  return [
    {
      kind: "size unit",
      severity: "warning",
      place: review.view.formatAddress(place),
      what: `Volume over floor area gives a mean room height of ${formatFigure(mean, 3)} ${ip ? "ft" : "m"}.`,
      why: "Air change rate and specific leakage rate are divided by these sizes.",
      todo: "Check the units and what counts as floor.",
    },
  ];
}
