import { ensure, requireNotNegative, requirePositive, type Term } from "../errors";
import { atMost } from "../numbers";

/** What ISO 13528 makes of a zeta score: 2.0 or less, between, 3.0 or more, without its sign. */
const zetaSignals = ["acceptable", "warning signal", "action signal"] as const;

/** A result, its expanded uncertainty in the same unit, and the coverage factor of that. */
interface StatedResult {
  readonly value: number;
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
}

interface EnScore {
  readonly en: number;
  readonly zeta: number;
  /** In % of the other result. */
  readonly differencePercent: number;
  readonly agrees: boolean;
  readonly signal: (typeof zetaSignals)[number];
}

/**
 * Two results of the same house, by E_n = D/√(U² + U'² − 2·U_k·U_k') and ζ = D/√(u² + u'² − 2·u_k·u_k'), D the first less the other, u = U/k. What both share, such as the volume or the
 * flow device, is correlated and cancels: u_k is its relative standard uncertainty times each result, U_k is k·u_k. They agree where |E_n| is 1 or less, a slack of 1e-9 included.
 * @param common Relative standard uncertainty of what both share, 0 where they share nothing.
 * Errors: a result, an uncertainty or a coverage factor not above 0; a common part that is no fraction or larger than the whole; nothing left to explain a difference.
 * Source: ISO 13528:2022 9.6 (zeta) and 9.7 (E_n), ISO/IEC 17043; JCGM 100:2008 5.2.2 for the correlation.
 * Example: enScore({ value: 0.6, expandedUncertainty: 0.03, coverageFactor: 2 }, { value: 0.55, expandedUncertainty: 0.04, coverageFactor: 2 })
 *   → { en: 1.000, zeta: 2.000, differencePercent: 9.09, agrees: true, signal: "acceptable" }
 */
export function enScore(result: StatedResult, other: StatedResult, common = 0): EnScore {
  const named = [
    [result, "result", "expanded uncertainty", "coverage factor"],
    [other, "other result", "other expanded uncertainty", "other coverage factor"],
  ] as const;
  for (const [{ value, expandedUncertainty, coverageFactor }, ofValue, ofUncertainty, ofFactor] of named) {
    requirePositive(value, ofValue);
    requirePositive(expandedUncertainty, ofUncertainty);
    requirePositive(coverageFactor, ofFactor);
  }
  requireCommonShare(common);
  const difference = result.value - other.value;
  /** D over its uncertainty: the own parts in squares, and what is left of the common ones. */
  const score = (scale: (one: StatedResult) => number) => {
    const shared = [result, other].map((one) => scale(one) * one.coverageFactor * common * one.value) as [
      number,
      number,
    ];
    const own = named.map(([one, , term], index) =>
      ownPart(scale(one) * one.expandedUncertainty, shared[index]!, term),
    );
    const uncertainty = Math.hypot(...own, shared[0] - shared[1]);
    if (difference === 0) return 0;
    ensure(uncertainty > 0, "common uncertainty", "allCommon");
    return difference / uncertainty;
  };
  const en = score(() => 1);
  const zeta = score(({ coverageFactor }) => 1 / coverageFactor);
  const size = Math.abs(zeta);
  return {
    en,
    zeta,
    differencePercent: (100 * difference) / other.value,
    agrees: atMost(Math.abs(en), 1),
    signal: zetaSignals[atMost(size, 2) ? 0 : atMost(3, size) ? 2 : 1],
  };
}

/** Refuses a common relative uncertainty that is no fraction. */
export function requireCommonShare(common: number): void {
  ensure(common >= 0 && common < 1, "common uncertainty", "smallFraction", { got: common });
}

/** What is left of an uncertainty without the part that two results share. Errors: below 0, or less than the common part in it. */
export function ownPart(uncertainty: number, commonPart: number, term: Term): number {
  requireNotNegative(uncertainty, term);
  ensure(atMost(commonPart, uncertainty), term, "belowCommonPart", { uncertainty, common: commonPart });
  return Math.sqrt(Math.max(0, (uncertainty - commonPart) * (uncertainty + commonPart)));
}
