import { cellButton, describeFailure, type ViewContext } from "./context";
import type { ComparisonAnswer, Turn } from "./desk/answers";
import { element, listTable, section } from "./elements";
import { listSteps } from "./trial-view";

const mostListed = 100;

/** Questions about the differences, one at a time. */
export interface TurnQuestions {
  readonly count: () => Promise<number>;
  readonly tryOne: (index: number) => Promise<Turn>;
}

/** What differs between two versions of a workbook, and on request which difference changes the verdict. */
export function createComparisonView(
  context: ViewContext,
  comparison: ComparisonAnswer,
  questions: TurnQuestions,
): HTMLElement {
  const told = context.words.compare;
  const { verdicts, inputs, formulas, results, onlyBefore, onlyAfter } = comparison;
  const parts: [string, typeof inputs][] = [
    [told.verdicts, verdicts],
    [told.inputs, inputs],
    [told.formulas, formulas],
    [told.results, results],
  ];
  const shown = parts
    .filter(([, steps]) => steps.length > 0)
    .map(([title, steps]) => section(`${title} (${steps.length})`, listSteps(context, title, steps, mostListed)));
  const sheets = (
    [
      [told.onlyBefore, onlyBefore],
      [told.onlyAfter, onlyAfter],
    ] as const
  )
    .filter(([, names]) => names.length > 0)
    .map(([title, names]) => element("p", {}, `${title}: ${names.join(", ")}`));
  const turns = element("div", { role: "status" });
  const ask = element("button", { type: "button", onclick: () => void showTurns() }, told.turns);

  async function showTurns(): Promise<void> {
    ask.disabled = true;
    let isStopped = false;
    const progress = element("span", {});
    const stop = element("button", { type: "button", onclick: () => (isStopped = true) }, context.words.cancel);
    turns.replaceChildren(progress, " ", stop);
    try {
      const count = await questions.count();
      const found: Turn[] = [];
      // Nobody waits for what is no longer shown.
      while (found.length < count && !isStopped && turns.isConnected) {
        progress.textContent = told.turning(found.length, count);
        found.push(await questions.tryOne(found.length));
      }
      turns.replaceChildren(...listTurns(context, found, count));
    } catch (problem) {
      turns.replaceChildren(describeFailure(context, problem));
    } finally {
      ask.disabled = false;
    }
  }

  const isEqual = shown.length + sheets.length === 0;
  return element(
    "div",
    { class: "view" },
    isEqual && element("p", {}, told.equal),
    inputs.length + formulas.length > 0 && element("p", {}, ask),
    turns,
    ...sheets,
    ...shown,
  );
}

function listTurns(context: ViewContext, turns: readonly Turn[], differences: number): HTMLElement[] {
  const { compare: told, verdict } = context.words;
  const ordered = [...turns].sort((one, other) => Number(other.turns) - Number(one.turns));
  const table = listTable(
    told.turns,
    [verdict.cell, told.label, context.words.trial.before, context.words.trial.after, told.turn, told.effect],
    ordered.map(({ address, label, before, after, words, turns: isTurn }) => [
      cellButton(context, address),
      label,
      before,
      after,
      words,
      isTurn ? told.turned : told.kept,
    ]),
  );
  if (turns.length === differences) return [table];
  return [element("p", { class: "caution" }, told.tried(turns.length, differences)), table];
}
