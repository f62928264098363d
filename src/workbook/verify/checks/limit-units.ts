import { isSingleCell, type Place } from "../../book/area";
import type { Finding } from "../finding";
import { listJudgedQuantities } from "../result-steps";
import type { Check } from "../review";

/** Units by which a limit names its quantity, as reports write them. */
const units: readonly (readonly [unit: RegExp, quantities: RegExp])[] = [
  [/(^|[\s([])(1\/h|h-1|h⁻¹|ach(50)?|1\/hr)([\s)\],.]|$)/i, /^n/],
  [/m[³3]\/\(?\s*h[·*. ]?\s*m[²2]\)?|m[³3]\/h\/m[²2]|cfm\/ft[²2]|l\/\(?s[·*. ]?m[²2]\)?/i, /^q[EF]/],
];

/** A limit whose unit belongs to another quantity than the one that is compared with it. */
export const checkLimitUnits: Check = (review) => {
  const { view } = review;
  return review.judgements.flatMap((judgement): Finding[] => {
    const { area } = judgement.limit;
    const quantities = listJudgedQuantities(review, judgement);
    const [quantity] = quantities;
    if (!area || !isSingleCell(area) || quantities.length !== 1 || quantity === undefined) return [];
    const place: Place = { sheet: area.sheet, row: area.top, column: area.left };
    const stated = [view.readText({ ...place, column: place.column + 1 }), view.labels.readWordsBefore(place)].join(
      " ",
    );
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
