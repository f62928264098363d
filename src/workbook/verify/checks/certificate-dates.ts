import { format } from "numfmt";
import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { testDatesIn, findTypedDates, describeDate } from "../stated-facts";
import { shorten } from "../../file/problem";

const untilWords = /valid until|valid to|expir|next calibration|calibration due|due (on|date)/i;
const sinceWords =
  /calibrated( on)?$|calibration date|date of (the )?(calibration|certificate)|certificate (date|of)|issued/i;

/** Calibration certificates that do not cover the date of the test. */
export const checkCertificateDates: Check = ({ view, runs }) => {
  const days = testDatesIn(view, runs);
  if (days.length === 0) return [];
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const dates = findTypedDates(view);
  return dates.flatMap((place): Finding[] => {
    const day = Math.floor(view.readNumber(place) ?? 0);
    const words = describeDate(view, place);
    const isOver = untilWords.test(words) && day < last;
    const isLater = !isOver && sinceWords.test(words) && !untilWords.test(words) && day > first;
    if (!isOver && !isLater) return reportLongValidity(view, place, dates);
    return [
      {
        kind: "certificate date",
        severity: "error",
        place: view.formatAddress(place),
        what: isOver
          ? `“${shorten(words)}” is ${formatDay(day)}, before the test of ${formatDay(last)}: the certificate had expired.`
          : `“${shorten(words)}” is ${formatDay(day)}, after the test of ${formatDay(first)}: on the day of the test this calibration had not been done.`,
        why: "A certifier cannot accept readings from an instrument without a valid certificate.",
        todo: "Ask for the certificate that was valid on the day of the test.",
      },
    ];
  });
};

/** Days for which an instrument's calibration is accepted at most, five years and a half: common practice is one to five. */
const longestValidity = 5.5 * 365;

/** A certificate that is said to hold for longer than any is accepted. */
function reportLongValidity(view: Inspector, place: Place, dates: readonly Place[]): Finding[] {
  if (!untilWords.test(describeDate(view, place))) return [];
  const until = view.readNumber(place) ?? 0;
  const since = dates
    .filter(({ sheet, row }) => sheet === place.sheet && row === place.row)
    .filter((other) => sinceWords.test(describeDate(view, other)) && !untilWords.test(describeDate(view, other)))
    .map((other) => view.readNumber(other) ?? 0)[0];
  if (since === undefined || until - since <= longestValidity) return [];
  const years = Math.round((until - since) / 365.25);
  return [
    {
      kind: "certificate date",
      severity: "warning",
      place: view.formatAddress(place),
      what: `The certificate of ${formatDay(since)} is said to be valid until ${formatDay(until)}, ${years} years later.`,
      why: "No programme accepts a calibration for so long; the date may have been changed.",
      todo: "Compare with the certificate itself.",
    },
  ];
}

const formatDay = (day: number): string => format("d mmmm yyyy", day);
