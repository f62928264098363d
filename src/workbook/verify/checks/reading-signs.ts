import type { Finding } from "../finding";
import { pairHouseTests } from "../compared-tests";
import type { Check, Review } from "../review";
import { type WholeTest, readWord } from "../../book/whole-tests";
import { formatCount, formatCellValue } from "../../words";
import { shorten } from "../../file/problem";

/** Readings whose sign contradicts the direction of their test: unsigned readings, stray ones, and swapped directions. */
export const checkReadingSigns: Check = (review) => {
  const contrary = new Map(review.tests.map((test) => [test, listContraryReadings(review, test)]));
  const isWhollyContrary = (test: WholeTest): boolean =>
    test.readings.length > 0 && contrary.get(test)?.length === test.readings.length;
  const swapped = new Set<WholeTest>();
  const findings: Finding[] = [];
  for (const pair of pairHouseTests(review.view, review.twins, review.tests)) {
    if (!pair.every(isWhollyContrary)) continue;
    pair.forEach((test) => swapped.add(test));
    findings.push(swap(review, pair));
  }
  for (const [test, places] of contrary) {
    if (places.length > 0 && !swapped.has(test)) findings.push(reportWrongSign(review, test));
  }
  return findings;
};

function listContraryReadings({ view }: Review, test: WholeTest) {
  const sign = readSign(view, test);
  if (sign === "magnitude") return [];
  const isBelow = (test.direction === "depressurization") === (sign === "indoors minus outdoors");
  return test.readings.filter(({ pressure }) => {
    const value = view.readNumber(pressure);
    return value !== undefined && (isBelow ? value > 0 : value < 0);
  });
}

function swap({ view }: Review, pair: readonly [WholeTest, WholeTest]): Finding {
  const where = pair.map((test) => `${test.direction} in ${view.formatArea(test.pressures)}`).join(", ");
  return {
    kind: "swapped directions",
    severity: "error",
    place: view.formatArea(pair[0].pressures),
    what: `Both directions hold readings of the opposite sign (${where}): they have been swapped.`,
    why: "The density corrections and leakage of one direction are then applied to the other.",
    todo: "Move each direction's readings, baselines and conditions to where they belong.",
  };
}

function reportWrongSign(review: Review, test: WholeTest): Finding {
  const { view } = review;
  const contrary = listContraryReadings(review, test);
  const [first] = contrary;
  const all = contrary.length === test.readings.length;
  return {
    kind: "sign of the readings",
    severity: "error",
    place: all || !first ? view.formatArea(test.pressures) : view.formatAddress(first.pressure),
    what: `${formatCount(contrary.length, "reading")} of ${test.readings.length} in ${test.direction} have the wrong sign for “${shorten(readSign(view, test))}” (${formatCellValue(first && view.readValue(first.pressure))} Pa first).`,
    why: "Unsigned readings with a signed baseline reverse the baseline correction: a true 0.640 became 0.596 and passed, with r² 0.9985.",
    todo: all
      ? "Give the readings their sign, or set the pressure sign to “magnitude”."
      : "Compare the reading with the tester's notes and enter it with its sign.",
  };
}

const readSign = (view: Review["view"], test: WholeTest): string =>
  readWord(view, test, "pressure sign") || "indoors minus outdoors";
