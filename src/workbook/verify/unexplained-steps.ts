import { type Place, placeKey } from "../book/area";
import type { EnteredRun } from "../book/tests/entered-runs";
import { formatCount, formatFigure, formatList, showFormula } from "../formatting";
import { shorten } from "../file/problem";
import type { Finding } from "./finding";
import type { Judgement } from "./judgements";
import { findOddLimit, findUnexplainedLimit, type UnexplainedLimit } from "./limit-steps";
import { reviewResult, type UnexplainedResult } from "./result-steps";
import type { Review } from "./review";

/** Kinds that explain why a verdict's result is not the method's. */
const resultTricks: ReadonlySet<Finding["kind"]> = new Set([
  "result altered",
  "one direction decides",
  "verdict depends on rounding",
  "result not from a test",
  "result typed in",
  "hard-coded figure",
]);

/**
 * What no check explains: cells between the figures typed in and a verdict that are neither an input, a call of the method, a formula that gives what the method
 * computes, nor a look-up that leads to the entry shown. Each is reported once, unless a check has named it.
 */
export function findUnexplainedSteps(
  review: Review,
  found: readonly Finding[],
): { readonly steps: Finding[]; readonly explained: number } {
  const named = new Map<string, Finding["kind"]>();
  for (const { severity, place, kind } of found) if (severity !== "note") named.set(place, kind);
  const isNamed = (place: Place): boolean => named.has(review.view.formatAddress(place));
  const isNamedAs = (place: Place, kinds: ReadonlySet<Finding["kind"]>): boolean => {
    const kind = named.get(review.view.formatAddress(place));
    return kind !== undefined && kinds.has(kind);
  };
  const reported = new Set<number>();
  let explained = 0;
  const steps = review.judgements.flatMap((judgement): Finding[] => {
    const findings: Finding[] = [];
    const report = (place: Place, finding: Finding): void => {
      if (reported.has(placeKey(place)) || isNamed(place)) return;
      reported.add(placeKey(place));
      findings.push(finding);
    };
    const reviewed = isJudgedBeside(review, judgement) ? "explained" : reviewResult(review, judgement);
    const result = typeof reviewed === "string" ? undefined : reviewed;
    const [judged] = judgement.result.areas.map(({ sheet, top, left }) => ({ sheet, row: top, column: left }));
    const isTrick = [judgement.place, ...(judged ? [judged] : [])].some((place) => isNamedAs(place, resultTricks));
    const [first] = result?.places ?? [];
    if (result && first && !isTrick && !result.places.some(isNamed))
      report(first, reportResult(review, judgement, result, first));
    const limit = findUnexplainedLimit(review, judgement) ?? findOddLimit(review, judgement);
    if (limit) report(limit.place, reportLimit(review, judgement, limit));
    if (reviewed === "explained" && !limit && !isTrick) explained++;
    return findings;
  });
  return { steps, explained };
}

/** A comparison of one direction beside one of the mean, or of the other direction too: the house is judged by more than this. */
function isJudgedBeside(review: Review, { comparison, result, runs, limit }: Judgement): boolean {
  if (!comparison) return false;
  const [run, ...more] = runs;
  if (!run || more.length > 0) return false;
  const others = new Set(review.tests.findTestOf(run));
  return review.judgements.some(
    (other) =>
      other.result.value !== result.value &&
      other.limit.value === limit.value &&
      other.runs.some((one) => one !== run && others.has(one)),
  );
}

/** What the verdict would be, in the words of a sentence. */
const decide = (result: number, limit: number): string => (result <= limit * (1 + 1e-9) ? "met" : "not met");

function reportResult(
  review: Review,
  judgement: Judgement,
  { places, expected, typed, uses }: UnexplainedResult,
  first: Place,
): Finding {
  const { view } = review;
  const { result, limit } = judgement;
  const unit = expected.unit === "" ? "" : ` ${expected.unit}`;
  const more = places.length > 1 ? ` and ${formatCount(places.length - 1, "further cell")}` : "";
  const given = view.readNumber(first);
  const taken = uses.slice(0, 3).map(({ figure, run, place }) => {
    return `${view.formatAddress(place)} (${figure.symbol} of ${describeRun(review, run)})`;
  });
  const outside = typed.map((place) => `${formatFigure(view.readNumber(place) ?? 0)} in ${view.formatAddress(place)}`);
  const from = [
    ...(taken.length > 0 ? [`it uses ${formatList(taken)}`] : []),
    ...(outside.length > 0 ? [`${formatList(outside)} is typed in, and the method does not take it`] : []),
  ];
  const text = view.findCell(first)?.formula?.text;
  return {
    kind: "step without explanation",
    severity: "warning",
    decides: decide(expected.value, limit.value) !== decide(result.value, limit.value),
    place: view.formatAddress(first),
    what:
      `${text === undefined ? "The figure" : showFormula(text)}${more} gives ${given === undefined ? "a figure" : formatFigure(given, 5)}, which the method does not compute from the readings` +
      `${from.length > 0 ? `: ${from.join("; ")}` : ""}. The verdict in ${view.formatAddress(judgement.place)} (${describeWord(review, judgement)}) uses ` +
      `${expected.quantity} = ${formatFigure(result.value, 5)}${unit}; the method gives ${formatFigure(expected.value, 5)}${unit} ` +
      `(${expected.runs.map((run) => describeRun(review, run)).join(", ")}), with which the limit ${formatFigure(limit.value, 5)} is ${decide(expected.value, limit.value)}.`,
    why: "Every cell between the readings and the verdict should be an input, a figure of the method or a look-up; this one changes the result in the house's favour.",
    todo: "Ask for the reason for the step, or replace it by the figure of the test's own table.",
  };
}

function reportLimit(review: Review, judgement: Judgement, { place, what, without }: UnexplainedLimit): Finding {
  const { view } = review;
  const { result } = judgement;
  const effect =
    without === undefined
      ? ""
      : ` Without this step the limit ${formatFigure(without, 5)} is ${decide(result.value, without)}.`;
  return {
    kind: "step without explanation",
    severity: "warning",
    decides: without !== undefined && decide(result.value, without) !== decide(result.value, judgement.limit.value),
    place: view.formatAddress(place),
    what: `${what}. The verdict in ${view.formatAddress(judgement.place)} (${describeWord(review, judgement)}) compares ${formatFigure(result.value, 5)} with it.${effect}`,
    why: "A limit should be the entry that the sheet names, or a figure with its source beside it.",
    todo: "Restore the look-up, or state the reason for the other limit.",
  };
}

const describeRun = ({ view }: Review, run: EnteredRun): string =>
  `${run.direction} in ${view.formatAddress(run.call.place)}`;

function describeWord({ view }: Review, { place }: Judgement): string {
  const value = view.readValue(place);
  return typeof value === "string" ? `“${shorten(value)}”` : value === true ? "TRUE" : "FALSE";
}
