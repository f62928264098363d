import { format } from "numfmt";
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
  return findTypedDates(view).flatMap((place): Finding[] => {
    const day = Math.floor(view.readNumber(place) ?? 0);
    const words = describeDate(view, place);
    const isOver = untilWords.test(words) && day < last;
    const isLater = !isOver && sinceWords.test(words) && !untilWords.test(words) && day > first;
    if (!isOver && !isLater) return [];
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

const formatDay = (day: number): string => format("d mmmm yyyy", day);
