import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { readSetting, type WholeTest, readWord } from "../../book/whole-tests";
import { formatFigure } from "../../words";

/** The smallest surface enclosing a volume is a sphere's: A ≥ (36π)^(1/3)·V^(2/3), whatever the unit of length. */
const sphere = (36 * Math.PI) ** (1 / 3);

/** Volume over floor area, in metres or in feet. */
const heights = { SI: [1.8, 9], IP: [6, 30] } as const;

/** Volume, envelope area and floor area that cannot belong to one house. */
export const checkSizeUnits: Check = (review) => {
  const findings = review.tests.flatMap((test) => [...checkSurface(review, test), ...checkHeight(review, test)]);
  const seen = new Set<string>();
  return findings.filter(({ what }) => !seen.has(what) && seen.add(what));
};

const readNumber = (review: Review, test: WholeTest, label: string): number | undefined => {
  const value = readSetting(review.view, test, label);
  return typeof value === "number" && value > 0 ? value : undefined;
};

function checkSurface(review: Review, test: WholeTest): Finding[] {
  const [volume, area] = [readNumber(review, test, "volume"), readNumber(review, test, "envelope area")];
  const place = test.settings.get("envelope area")?.place;
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

function checkHeight(review: Review, test: WholeTest): Finding[] {
  const [volume, floor] = [readNumber(review, test, "volume"), readNumber(review, test, "floor area")];
  const place = test.settings.get("floor area")?.place;
  if (volume === undefined || floor === undefined || !place) return [];
  const ip = readWord(review.view, test, "units") === "ip";
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
