import { readSetting } from "../../book/tests/entered-runs";
import type { Finding } from "../finding";
import type { Judgement } from "../judgements";
import { findLimitCell, readLimitWords, unitOfLimits } from "../limit-words";
import { listJudgedQuantities } from "../result-steps";
import type { Check, Review } from "../review";

const units: readonly (readonly [unit: RegExp, quantities: RegExp])[] = [
  [unitOfLimits.n, /^n/],
  [unitOfLimits.perArea, /^q[EF]/],
];

/** A limit whose unit, symbol or pressure belongs to another quantity than the one that is compared with it. */
export const checkLimitUnits: Check = (review) => {
  const { view } = review;
  return review.judgements.flatMap((judgement): Finding[] => {
    const place = findLimitCell(judgement.limit);
    const quantities = listJudgedQuantities(review, judgement);
    const [quantity] = quantities;
    if (!place || quantity === undefined) return [];
    const label = view.labels.readWordsBefore(place);
    const stated = readLimitWords(view, judgement.limit).trim();
    const otherwise =
      (quantities.length === 1 && isUnitOfOther(stated, quantity) && `in the unit of another quantity (“${stated}”)`) ||
      (isLabelOfOther(review, judgement, quantities, label) && `for another quantity (“${label}”)`);
    if (!otherwise) return [];
    return [
      {
        kind: "limit of another quantity",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The limit is stated ${otherwise}, but ${quantity} is compared with it in ${view.formatAddress(judgement.place)}.`,
        why: "A limit holds for its own quantity and pressure; the figures of air changes and of flows per area differ from house to house.",
        todo: "Compare the quantity that the programme limits.",
      },
    ];
  });
};

function isUnitOfOther(stated: string, quantity: string): boolean {
  const [only, ...others] = units.filter(([unit]) => unit.test(stated));
  return only !== undefined && others.length === 0 && !only[1].test(quantity);
}

/** "n50", "ACH25", "q_E50"; programmes write q50 or w50 where ISO 9972 has qE50 or qF50. */
const symbolInLabel = /(?<![\p{L}\d])(?<letter>n|ach|[qvw])_?[ef]?_?(?<pressure>\d{1,3})(?![\p{L}\d])/giu;
const pressureInLabel = /(?<![\d.,])(?<pressure>\d{1,3})\s*Pa(?!\p{L})/gu;

/** Whether the symbols and pressures of a label are others than those of each quantity. */
function isLabelOfOther({ view }: Review, { runs }: Judgement, quantities: readonly string[], label: string): boolean {
  const symbols = [...label.matchAll(symbolInLabel)];
  const pressures = [...symbols, ...label.matchAll(pressureInLabel)].map(({ groups }) => Number(groups?.["pressure"]));
  const references = runs.map((run) => Number(readSetting(view, run, "reference pressure")));
  return quantities.every((quantity) => {
    const own = /\d+$/.exec(quantity)?.[0];
    const known = (own === undefined ? references : [Number(own)]).filter((pressure) => pressure > 0);
    const isSameKind = ({ groups }: RegExpExecArray): boolean =>
      /^(n|ach)$/i.test(groups?.["letter"] ?? "") === quantity.startsWith("n");
    return (
      (symbols.length > 0 && !symbols.some(isSameKind)) ||
      (pressures.length > 0 && known.length > 0 && !pressures.some((pressure) => known.includes(pressure)))
    );
  });
}
