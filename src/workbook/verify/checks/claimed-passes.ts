import { shorten } from "../../file/problem";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { claimsPass, containsClaim, ofHouse } from "../verdicts";

/** Longer texts explain something. */
const mostWords = 30;
const ofResult =
  /(?<!\p{L})(n_?50|q_?50|limit|requirement|criterion|test|grenzwert|anforderung|prüfung|exigence|limite|essai|requisito|prueba|prova|eis|wymaganie)(?!\p{L})/iu;
/** What was, will be or would be says nothing of the verdict. */
const ofAnotherTime =
  /(?<!\p{L})(before|after|once|earlier|previous|first|then|will|would|plan\p{L}*|aim\p{L}*|target|forecast|expect\p{L}*|example|früher|vorher|nach|wird|ziel|après|avant|sera|prévu)(?!\p{L})/iu;

/** Sentences typed somewhere in a workbook that say the house passes, while every computed verdict says that it does not. */
export const findClaimedPasses: Check = ({ view, verdicts }) => {
  const cells = verdicts.flatMap((verdict) => verdict.cells);
  const [first] = cells;
  if (!first || cells.some(({ word }) => claimsPass(word))) return [];
  return view.listTexts().flatMap(({ place, text }): Finding[] => {
    const isSentence = view.isTyped(place) && !claimsPass(text) && text.split(/\s+/).length <= mostWords;
    if (!isSentence || !containsClaim(text) || !ofHouse.test(text) || !ofResult.test(text)) return [];
    if (ofAnotherTime.test(`${text} ${view.labels.readWordsBefore(place)}`)) return [];
    return [
      {
        kind: "verdict misreported",
        severity: "warning",
        place: view.formatAddress(place),
        what: `“${shorten(text)}” is typed here, but the verdict in ${view.formatAddress(first.place)} is “${shorten(first.word)}”.`,
        why: "A reader who believes the sentence is not told the verdict.",
        todo: "Correct the sentence, or have it repeat the verdict’s cell.",
      },
    ];
  });
};
