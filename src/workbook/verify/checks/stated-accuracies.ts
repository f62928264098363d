import { areaOf, type Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import { stepAlong } from "../../book/like-formulas";
import { formatFigure } from "../../formatting";
import type { Finding } from "../finding";
import type { Check } from "../review";

/** Settings of the budget with the instrument whose accuracy limits them, and how many standard uncertainties that accuracy is at most. */
const settings: readonly (readonly [label: string, instrument: RegExp, not: RegExp, deviations: number])[] = [
  ["gauge accuracy", /gauge|manometer|druckmess|manomètre/i, /(?!)/, 1],
  ["fan gauge accuracy", /gauge|manometer|druckmess|manomètre/i, /(?!)/, 1],
  ["flow calibration uncertainty", /flow|fan|device|nozzle|gebläse|ventilat/i, /gauge|manometer|pressure/i, 2],
];
/** A certificate may be better than the data sheet, but not by more than this factor. */
const mostBetter = 4;

/** Uncertainties typed into a budget that are far smaller than the accuracy that the workbook states for the instrument. */
export const checkStatedAccuracies: Check = ({ view, calls }) => {
  if (!calls.some(({ id }) => id === "UNCERTAINTYBUDGET")) return [];
  const stated = listStatedAccuracies(view);
  return view.listTexts().flatMap(({ place, text }): Finding[] => {
    const rule = settings.find(([label]) => label === text.toLowerCase());
    const beside = stepAlong(place, "row", 1);
    const value = rule && view.isTyped(beside) ? view.readNumber(beside) : undefined;
    if (!rule || value === undefined || !(value > 0)) return [];
    const [label, instrument, not, deviations] = rule;
    const own = stated.filter(({ words }) => instrument.test(words) && !not.test(words));
    const best = own.reduce<Stated | undefined>(
      (least, one) => (least && least.share <= one.share ? least : one),
      undefined,
    );
    if (!best || value * deviations * mostBetter >= best.share) return [];
    return [
      {
        kind: "uncertainty too small",
        severity: "warning",
        place: view.formatAddress(beside),
        what: `The ${label} is ${formatFigure(value * 100, 3)} %, though ${view.formatArea(areaOf(best.place))} states an accuracy of ±${formatFigure(best.share * 100, 3)} %.`,
        why: "With an uncertainty too small, a rule that counts it lets a house pass that it should not.",
        todo: "Take the figure from the certificate, and state its clause beside it.",
      },
    ];
  });
};

/** An accuracy written as text: "±3 %". */
interface Stated {
  readonly place: Place;
  /** A fraction. */
  readonly share: number;
  /** What the row is about. */
  readonly words: string;
}

function listStatedAccuracies(view: Inspector): Stated[] {
  return view.listTexts().flatMap(({ place, text }): Stated[] => {
    const [, figure] = /^±\s*(\d+(?:[.,]\d+)?)\s*%/.exec(text) ?? [];
    if (figure === undefined || !view.isTyped(place)) return [];
    return [{ place, share: Number(figure.replace(",", ".")) / 100, words: view.labels.readWordsBefore(place) }];
  });
}
