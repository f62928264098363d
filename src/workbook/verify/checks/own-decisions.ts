import { areaOf, isInside, type Place, placeKey } from "../../book/area";
import { collectDescendants, listDescendants, type Node } from "../../formula/parse/syntax";
import { shorten } from "../../file/problem";
import { formatCellValue, formatFigure, formatList, showFormula } from "../../formatting";
import type { Finding } from "../finding";
import type { Judgement } from "../judgements";
import { findJudgedRuns } from "../result-steps";
import type { Check, Review } from "../review";
import { claimsPass, escapePattern, isPassMark, mentionsPass, verdictLabel } from "../verdicts";
import { listBrokenChecks } from "./verdict-validity";

/** Comparisons of a result with a limit, in any words, that say otherwise than the figures, or pass a test that is not valid. */
export const checkOwnDecisions: Check = (review) =>
  review.judgements.flatMap((judgement) => reviewOne(review, judgement));

/** The texts that a comparison chooses between, as far as its formula writes them beside it. */
interface Words {
  readonly pass: string;
  readonly fail: string;
}

function reviewOne(review: Review, judgement: Judgement): Finding[] {
  const { view } = review;
  if (!judgement.comparison) return [];
  const shown = findShown(review, judgement);
  if (!shown) return [];
  const words = findWords(review, judgement, shown.place);
  const text = view.readText(shown.place);
  const isPass = words ? text === words.pass : claimsPass(text);
  const { result, limit } = judgement;
  const place = view.formatAddress(shown.place);
  if (!isPass) {
    if (!words) return [];
    const turned = explainTurned(review, judgement, shown.place, words);
    if (text !== words.fail || turned === undefined) return findOtherClaims(review, judgement, shown.place, words);
    return [
      {
        kind: "verdict misreported",
        severity: "error",
        decides: true,
        place,
        what: `${formatCellValue(text)} is shown here (${showFormulaAt(review, shown.place)}) where ${formatFigure(result.value, 6)} exceeds the limit ${formatFigure(limit.value, 6)}, but ${turned}.`,
        why: "The reader is not shown what the figures say.",
        todo: "Turn the comparison or its words round, or repeat the verdict of PASSFAIL.",
      },
    ];
  }
  if (result.value > limit.value * (1 + 1e-9)) {
    return [
      {
        kind: "verdict misreported",
        severity: "error",
        decides: true,
        place,
        what: `${formatCellValue(text)} is shown here (${showFormulaAt(review, shown.place)}), but ${formatFigure(result.value, 6)} exceeds the limit ${formatFigure(limit.value, 6)}.`,
        why: "The reader is not shown what the figures say.",
        todo: "Let the comparison alone decide, or compute the verdict with PASSFAIL.",
      },
    ];
  }
  return findJudgedRuns(review, judgement).flatMap((run): Finding[] => {
    const broken = listBrokenChecks(review, run);
    if (broken.length === 0) return [];
    return [
      {
        kind: "verdict on an invalid test",
        severity: "error",
        decides: true,
        place,
        what: `The verdict is “${shorten(text)}”, but ${run.direction} in ${view.formatArea(run.pressures)} is not valid under its own standard: ${formatList(broken)}.`,
        why: "The standard's conditions are not met, so the number is not a valid result.",
        todo: "Let the verdict depend on the checks of both directions; retest, or state the deviation and its reason.",
      },
    ];
  });
}

const showFormulaAt = ({ view }: Review, place: Place): string =>
  showFormula(view.findCell(place)?.formula?.text ?? "");

/** The cell that shows the decision in words: the comparison's own, or the one that reads its TRUE or FALSE; none where a further cell says something else. */
function findShown({ view }: Review, { place }: Judgement): { readonly place: Place } | undefined {
  const readers = view
    .listFormulaPlaces()
    .filter((reader) =>
      view.listPrecedents(reader).some((area) => area.sheet === place.sheet && isInside(area, place.row, place.column)),
    )
    .filter((reader) => view.readText(reader) !== "" && placeKey(reader) !== placeKey(place));
  if (typeof view.readValue(place) === "boolean") return readers[0] && { place: readers[0] };
  const text = view.readText(place);
  const isSaidOtherwise = readers.some(
    (reader) => !view.readText(reader).includes(text) && !claimsPass(view.readText(reader)),
  );
  return text === "" || isSaidOtherwise ? undefined : { place };
}

/** The two texts of the IF that the comparison decides. */
function findWords({ view }: Review, { comparison, place, result }: Judgement, shown: Place): Words | undefined {
  const root = placeKey(place) === placeKey(shown) ? view.parseFormulaAt(place)?.root : undefined;
  if (!root || !comparison) return undefined;
  const contains = (node: Node, part: Node): boolean => collectDescendants(node).includes(part);
  for (const node of listDescendants(root)) {
    if (node.type !== "call" || node.name !== "IF") continue;
    const [condition, whenTrue, whenFalse] = node.arguments;
    if (!condition || !whenTrue || !whenFalse || !contains(condition, comparison)) continue;
    const isTurned = collectDescendants(condition).some((one) => one.type === "call" && one.name === "NOT");
    const isResultLeft = comparison.left === result.node;
    const isMetWhenTrue = comparison.operator.startsWith("<") === isResultLeft;
    const [met, missed] = (isMetWhenTrue !== isTurned ? [whenTrue, whenFalse] : [whenFalse, whenTrue]).map(
      (part) => view.evaluateNode(part, place)?.[0],
    );
    if (typeof met === "string" && typeof missed === "string" && met.trim() !== missed.trim())
      return { pass: met.trim(), fail: missed.trim() };
  }
  return undefined;
}

/** Colours that stand for a pass whatever is asked. */
const approvals = /^(green|grün|vert|verde|groen|zielon[yae]|zelen[áý]|grön|vihreä)$/iu;

/** Answers that stand for a pass where the label asks whether the limit is met. */
const answers = /^(yes|ja|oui|s[íiì]|sim|tak|ano|kyllä|true|wahr|vrai)$/iu;

/** What is asked where an approval means the contrary. */
const ofExcess =
  /\bnot\b|nicht|fail|exceed|above|over|too (high|leaky)|überschr|dépass|excede|overschr|przekr|překro|över|ylitt/iu;

/** Why the word for a limit that is not met stands for a pass: it says so itself, or other comparisons use it so. */
function explainTurned(review: Review, { place }: Judgement, shown: Place, { pass, fail }: Words): string | undefined {
  const { view, judgements } = review;
  const label = view.labels.readWordsBefore(shown);
  const asksForPass = verdictLabel.test(label) || mentionsPass(label) || /\bmet\b/i.test(label);
  const isApproval = (word: string): boolean =>
    claimsPass(word) || isPassMark(word) || approvals.test(word) || (asksForPass && answers.test(word));
  if (ofExcess.test(label)) return undefined;
  if (isApproval(fail) && !isApproval(pass)) return "the word stands for a pass";
  // Of two honest answers one may be to the contrary question.
  if (answers.test(pass) || answers.test(fail)) return undefined;
  const others = judgements.flatMap((other) => {
    const words = placeKey(other.place) === placeKey(place) ? undefined : findWords(review, other, other.place);
    return words ? [{ ...words, at: other.place }] : [];
  });
  const turned = others.filter((other) => other.pass === fail && other.fail === pass);
  const alike = others.filter((other) => other.pass === pass && other.fail === fail);
  const [first] = turned;
  if (!first || turned.length <= alike.length) return undefined;
  return `${view.formatAddress(first.at)} shows it where the limit is met`;
}

/** Text computed from the same readings that uses the verdict's own word for a pass without reading the verdict. */
function findOtherClaims(review: Review, judgement: Judgement, shown: Place, { pass, fail }: Words): Finding[] {
  const { view } = review;
  const word = new RegExp(`(?<!\\p{L})${escapePattern(pass)}(?!\\p{L})`, "iu");
  const readings = findJudgedRuns(review, judgement).flatMap(({ readings: own }) =>
    own.map(({ pressure }) => placeKey(pressure)),
  );
  return view.listFormulaPlaces().flatMap((place): Finding[] => {
    const text = view.readText(place);
    if (!word.test(text) || text.toLowerCase().includes(fail.toLowerCase()) || placeKey(place) === placeKey(shown))
      return [];
    const behind = view.findUpstream([areaOf(place)]);
    const isDecided = review.judgements.some((other) => behind.has(placeKey(other.place)));
    if (isDecided || !readings.some((key) => behind.has(key))) return [];
    return [
      {
        kind: "verdict misreported",
        severity: "error",
        decides: true,
        place: view.formatAddress(place),
        what: `${formatCellValue(text)} is shown here (${showFormulaAt(review, place)}), but the verdict in ${view.formatAddress(shown)} is “${shorten(view.readText(shown))}”.`,
        why: "The reader is not shown the actual verdict.",
        todo: "Reference the verdict's cell.",
      },
    ];
  });
}
