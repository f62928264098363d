import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import { stepAlong } from "../../book/like-formulas";
import { shorten } from "../../file/problem";
import type { Finding } from "../finding";
import type { Check } from "../review";

const testedWords = /^(tested|measured|geprüft|gemessen|mesuré|testé|essayé)/i;
const chosenWords = /\b(chosen|selected|picked|drawn|gewählt|ausgewählt|choisi)/i;
const yes = /^(yes|ja|oui)$/i;
const no = /^(no|nein|non)$/i;
const reach = 5;

/** Units of a sample for which the list says how they were chosen for a test, and also that they were not tested. */
export const findChosenUnits: Check = ({ view, runs }) => {
  if (runs.length === 0) return [];
  return view.listFormulaPlaces().flatMap((place): Finding[] => {
    if (!no.test(view.readText(place)) || !testedWords.test(view.labels.readWordsAbove(place))) return [];
    const reason = findReasonBeside(view, place);
    if (!reason) return [];
    return [
      {
        kind: "chosen and not tested",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The list says that ${shorten(view.labels.readWordsBefore(place)) || "this unit"} was chosen for a test (“${shorten(view.readText(reason))}” in ${view.formatAddress(reason)}), but there is no run of it.`,
        why: "A sample from which a leaky unit is left out speaks for a tighter building.",
        todo: "Ask what became of the test of this unit.",
      },
    ];
  });
};

/** How a unit was chosen, where tested units have such an entry in the same column. */
function findReasonBeside(view: Inspector, place: Place): Place | undefined {
  const top = findFirstEntry(view, place);
  for (let step = -reach; step <= reach; step++) {
    const beside = stepAlong(place, "row", step);
    if (step === 0 || beside.column < 0 || !view.isTyped(beside) || view.readText(beside) === "") continue;
    if (chosenWords.test(view.labels.readWordsAbove({ ...beside, row: top })) && isForTested(view, place, step))
      return beside;
  }
  return undefined;
}

/** The first row of the list: above it, the headings are no entries of other units. */
function findFirstEntry(view: Inspector, { sheet, row, column }: Place): number {
  let top = row;
  while (top > 0 && /^(yes|no|ja|nein|oui|non)$/i.test(view.readText({ sheet, row: top - 1, column }))) top--;
  return top;
}

/** Whether some unit that was tested has an entry in that column. */
function isForTested(view: Inspector, place: Place, step: number): boolean {
  return view
    .listTexts()
    .some(
      ({ place: other, text }) =>
        other.sheet === place.sheet &&
        other.column === place.column &&
        yes.test(text) &&
        view.readText(stepAlong(other, "row", step)) !== "",
    );
}
