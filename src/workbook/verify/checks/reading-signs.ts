import type { Finding } from "../finding";
import type { DirectionPair } from "../../book/tests/direction-pairs";
import type { Check, Review } from "../review";
import { type EnteredRun, readWord } from "../../book/tests/entered-runs";
import { formatCount, formatCellValue } from "../../formatting";
import { shorten } from "../../file/problem";

/** Readings whose sign contradicts the direction of their test: unsigned readings, stray ones, and swapped directions. */
export const checkReadingSigns: Check = (review) => {
  const contrary = new Map(review.runs.map((run) => [run, listContraryReadings(review, run)]));
  const isWhollyContrary = (run: EnteredRun): boolean =>
    run.readings.length > 0 && contrary.get(run)?.length === run.readings.length;
  const swapped = new Set<EnteredRun>();
  const findings: Finding[] = [];
  for (const pair of review.tests.pairs) {
    if (!pair.every(isWhollyContrary)) continue;
    pair.forEach((run) => swapped.add(run));
    findings.push(swap(review, pair));
  }
  for (const [run, places] of contrary) {
    if (places.length > 0 && !swapped.has(run)) findings.push(reportWrongSign(review, run));
  }
  return findings;
};

function listContraryReadings({ view }: Review, run: EnteredRun) {
  const sign = readSign(view, run);
  if (sign === "magnitude") return [];
  const isBelow = (run.direction === "depressurization") === (sign === "indoors minus outdoors");
  return run.readings.filter(({ pressure }) => {
    const value = view.readNumber(pressure);
    return value !== undefined && (isBelow ? value > 0 : value < 0);
  });
}

function swap({ view }: Review, pair: DirectionPair): Finding {
  const where = pair.map((run) => `${run.direction} in ${view.formatArea(run.pressures)}`).join(", ");
  return {
    kind: "swapped directions",
    severity: "error",
    place: view.formatArea(pair[0].pressures),
    what: `Both directions hold readings of the opposite sign (${where}): they have been swapped.`,
    why: "The density corrections and leakage of one direction are then applied to the other.",
    todo: "Move each direction's readings, baselines and conditions to where they belong.",
  };
}

function reportWrongSign(review: Review, run: EnteredRun): Finding {
  const { view } = review;
  const contrary = listContraryReadings(review, run);
  const [first] = contrary;
  const all = contrary.length === run.readings.length;
  return {
    kind: "sign of the readings",
    severity: "error",
    place: all || !first ? view.formatArea(run.pressures) : view.formatAddress(first.pressure),
    what: `${formatCount(contrary.length, "reading")} of ${run.readings.length} in ${run.direction} have the wrong sign for “${shorten(readSign(view, run))}” (${formatCellValue(first && view.readValue(first.pressure))} Pa first).`,
    why: "Unsigned readings with a signed baseline reverse the baseline correction: a true 0.640 became 0.596 and passed, with r² 0.9985.",
    todo: all
      ? "Give the readings their sign, or set the pressure sign to “magnitude”."
      : "Compare the reading with the tester's notes and enter it with its sign.",
  };
}

const readSign = (view: Review["view"], run: EnteredRun): string =>
  readWord(view, run, "pressure sign") || "indoors minus outdoors";
