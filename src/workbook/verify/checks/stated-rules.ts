import { shorten } from "../../file/problem";
import type { Place } from "../../book/area";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import type { Verdict } from "../verdicts";

/** The rules of PASSFAIL, and what JCGM 106:2012 8.2 to 8.3 calls them. */
const rules: readonly (readonly [rule: string, words: RegExp])[] = [
  ["plain", /^plain$|simple acceptance|shared risk/i],
  ["guarded acceptance", /guarded acceptance/i],
  ["guarded rejection", /guarded rejection/i],
];

const ruleLabel = /(decision|acceptance) rule|rule of (decision|acceptance)|entscheidungsregel|règle de décision/i;

/** A decision rule that the sheet states, by its label or in a sentence, and that no verdict uses. */
export const checkStatedRules: Check = (review) => {
  const used = review.verdicts.flatMap((verdict) => {
    const rule = readRule(review, verdict);
    return rule === undefined ? [] : [{ verdict, rule }];
  });
  const [first] = used;
  if (!first) return [];
  return listStatements(review).flatMap(({ place, text, stated }): Finding[] => {
    if (used.some(({ rule }) => rule === stated)) return [];
    const { view } = review;
    const verdict = view.formatAddress(first.verdict.call.place);
    const other = decide(review, first.verdict, stated);
    const word = first.verdict.cells[0]?.word;
    const decides = other !== undefined && word !== undefined && other !== word;
    return [
      {
        kind: "verdict depends on its rule",
        severity: "warning",
        decides,
        place: view.formatAddress(place),
        what: `“${shorten(text)}” is stated as the rule, but the verdict in ${verdict} uses “${first.rule}”${decides ? `; by the stated rule it would be “${other}”` : ""}.`,
        why: "A result near its limit passes by one rule and not by another.",
        todo: "Let the verdict read the cell that states the rule, or correct the statement.",
      },
    ];
  });
};

/** The rule by which a verdict decides; undefined where it cannot be read. */
function readRule({ view }: Review, { call }: Verdict): string | undefined {
  const argument = call.arguments[3];
  if (!argument) return "plain";
  const [value, ...more] = view.evaluateNode(argument.node, call.place) ?? [];
  if (more.length > 0) return undefined;
  if (value === null || value === "") return "plain";
  return typeof value === "string" ? value.trim().toLowerCase() : undefined;
}

interface Statement {
  readonly place: Place;
  readonly text: string;
  readonly stated: string;
}

/** Texts that name one rule and say that it is the rule of the decision; a list of them names several. */
function listStatements({ view }: Review): Statement[] {
  return view.listTexts().flatMap(({ place, text }): Statement[] => {
    const named = rules.filter(([, words]) => words.test(text.trim()));
    const [only, ...more] = named;
    if (!only || more.length > 0) return [];
    if (!ruleLabel.test(text) && !ruleLabel.test(view.labels.readWordsBefore(place))) return [];
    return [{ place, text, stated: only[0] }];
  });
}

/** The verdict by another rule, from the same result, limit and uncertainty; undefined where it needs more than these. */
function decide({ view, addIn }: Review, { call }: Verdict, rule: string): string | undefined {
  const [result, limit, uncertainty] = call.arguments
    .slice(0, 3)
    .map((argument) => (argument ? view.evaluateNode(argument.node, call.place)?.[0] : null));
  try {
    const answer: unknown = addIn.get("PASSFAIL")?.compute(result, limit, uncertainty, rule, null, "valid");
    return typeof answer === "string" ? answer : undefined;
  } catch {
    // A guarded rule without an uncertainty is an error of the call.
    return undefined;
  }
}
