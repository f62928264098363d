import type { Finding } from "../finding";
import { findLimitCell, readLimitWords, unitOfLimits } from "../limit-words";
import { listJudgedQuantities } from "../result-steps";
import type { Check } from "../review";

const units: readonly (readonly [unit: RegExp, quantities: RegExp])[] = [
  [unitOfLimits.n, /^n/],
  [unitOfLimits.perArea, /^q[EF]/],
];

/** A limit whose unit belongs to another quantity than the one that is compared with it. */
export const checkLimitUnits: Check = (review) => {
  const { view } = review;
  return review.judgements.flatMap((judgement): Finding[] => {
    const place = findLimitCell(judgement.limit);
    const quantities = listJudgedQuantities(review, judgement);
    const [quantity] = quantities;
    if (!place || quantities.length !== 1 || quantity === undefined) return [];
    const stated = readLimitWords(view, judgement.limit);
    const named = units.filter(([unit]) => unit.test(stated));
    const [only, ...others] = named;
    if (!only || others.length > 0 || only[1].test(quantity)) return [];
    return [
      {
        kind: "limit of another quantity",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The limit is stated in the unit of another quantity (“${stated.trim()}”), but ${quantity} is compared with it in ${view.formatAddress(judgement.place)}.`,
        why: "A limit holds for its own quantity; the figures of air changes and of flows per area differ from house to house.",
        todo: "Compare the quantity that the programme limits.",
      },
    ];
  });
};
