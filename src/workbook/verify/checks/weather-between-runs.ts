import { type EnteredRun, readSetting, readWord } from "../../book/tests/entered-runs";
import { formatFigure } from "../../formatting";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";

/** The air outdoors changes by less within the hours of one test, K: common practice, no source. */
const mostChange = 15;

/** Runs of one house on one day whose outdoor temperatures cannot all be right. */
export const checkWeatherBetweenRuns: Check = (review) => {
  const { view } = review;
  const days = new Map<string, EnteredRun[]>();
  for (const run of review.runs) {
    const [date, volume] = ["test date", "volume"].map((label) => readSetting(view, run, label));
    if (typeof date !== "number" || readOutdoors(review, run) === undefined) continue;
    const key = `${Math.floor(date)} ${typeof volume === "number" ? volume : ""}`;
    days.set(key, [...(days.get(key) ?? []), run]);
  }
  return [...days.values()].flatMap((runs): Finding[] => {
    const sorted = runs.sort((one, other) => (readOutdoors(review, one) ?? 0) - (readOutdoors(review, other) ?? 0));
    const [coldest, warmest] = [sorted[0], sorted.at(-1)];
    if (!coldest || !warmest) return [];
    const change = (readOutdoors(review, warmest) ?? 0) - (readOutdoors(review, coldest) ?? 0);
    return change > mostChange ? [report(review, warmest, coldest)] : [];
  });
};

/** °C. */
function readOutdoors({ view }: Review, run: EnteredRun): number | undefined {
  const value = readSetting(view, run, "outdoor temperature");
  if (typeof value !== "number") return undefined;
  return readWord(view, run, "units") === "ip" ? (value - 32) / 1.8 : value;
}

function report(review: Review, one: EnteredRun, other: EnteredRun): Finding {
  const { view } = review;
  const describe = (run: EnteredRun): string => {
    const place = run.settings.get("outdoor temperature")?.place;
    return `${formatFigure(readOutdoors(review, run) ?? 0, 3)} °C for ${run.direction} (${place ? view.formatAddress(place) : ""})`;
  };
  const place = other.settings.get("outdoor temperature")?.place ?? other.call.place;
  return {
    kind: "weather differs",
    severity: "warning",
    place: view.formatAddress(place),
    what: `Outdoors it was ${describe(one)} and ${describe(other)}, in runs of one house on one day.`,
    why: "The density of the air outdoors enters the flow of every reading; a wrong temperature in one direction shifts the mean.",
    todo: "Compare with the site record and the weather of that day.",
  };
}
