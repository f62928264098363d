import { cellButton, describeFailure, nameVerdict, type ViewContext } from "./context";
import type { FileAnswer, InputAnswer, Step, TrialAnswer, TypedChange } from "./desk/answers";
import { element, listFolded, listTable } from "./elements";
import { createFilesView } from "./files-view";

/** What a person can do with changes: try them, or ask for a copy. */
interface TrialActions {
  readonly run: (changes: readonly TypedChange[]) => Promise<TrialAnswer>;
  readonly make: (changes: readonly TypedChange[]) => Promise<FileAnswer>;
}

const mostListed = 40;

/**
 * Inputs found by their labels, changes side by side with what is there now, and what they would change.
 * @param changes What is typed, by the address of the cell, kept by the caller for a view made later.
 */
export function createTrialView(
  context: ViewContext,
  inputs: readonly InputAnswer[],
  actions: TrialActions,
  changes: Map<string, string>,
): HTMLElement {
  const told = context.words.trial;
  if (inputs.length === 0) return element("div", { class: "view" }, element("p", {}, told.none));
  const changedInputs = (): InputAnswer[] =>
    [...changes.keys()].flatMap((address) => inputs.find((input) => input.address === address) ?? []);
  const outcome = element("div", { role: "status" });
  const found = element("ul", { class: "inputs" });
  const changed = element("div", {});
  const count = element("p", { class: "soft", role: "status" });
  let asked = 0;

  const listTyped = (): TypedChange[] =>
    changedInputs().map(({ sheet, row, column, address }) => ({ sheet, row, column, text: changes.get(address)! }));

  function search(words: string): void {
    const wanted = words.trim().toLowerCase();
    const matches = inputs.filter(({ label, address }) => `${label} ${address}`.toLowerCase().includes(wanted));
    count.textContent = told.found(matches.length);
    found.replaceChildren(
      ...matches
        .slice(0, mostListed)
        .map((input) =>
          element(
            "li",
            {},
            element("span", { class: "name" }, nameInput(input)),
            element("span", { class: "value" }, `${input.shown} ${input.unit}`),
            element("button", { type: "button", onclick: () => add(input) }, told.add),
          ),
        ),
    );
  }

  function add(input: InputAnswer): void {
    if (!changes.has(input.address)) changes.set(input.address, input.shown);
    showChanges();
    changed.querySelector<HTMLElement>("li:last-child :is(input,select)")?.focus();
  }

  /** What was found, and the copy that is offered, belong to the changes as they were. */
  function forgetOutcome(): void {
    asked += 1;
    outcome.replaceChildren();
  }

  function showChanges(): void {
    forgetOutcome();
    const shown = changedInputs();
    if (shown.length === 0) {
      changed.replaceChildren();
      return;
    }
    changed.replaceChildren(
      element("h3", {}, told.changes),
      element("ul", { class: "changes" }, ...shown.map(showChange)),
      element("p", {}, element("button", { type: "button", class: "main", onclick: () => void run() }, told.run)),
    );
  }

  function showChange(input: InputAnswer): HTMLElement {
    const note = ({ target }: Event): void => {
      changes.set(input.address, (target as HTMLInputElement).value);
      forgetOutcome();
    };
    const value = changes.get(input.address) ?? "";
    const field =
      input.choices.length > 0
        ? element(
            "select",
            { onchange: note },
            ...[...new Set([value, ...input.choices])].map((text) =>
              element("option", { value: text, selected: text === value }, text),
            ),
          )
        : element("input", { type: "text", value, oninput: note });
    const remove = (): void => {
      changes.delete(input.address);
      showChanges();
    };
    return element(
      "li",
      {},
      element(
        "label",
        {},
        element("span", { class: "name" }, nameInput(input)),
        field,
        element("span", { class: "unit" }, input.unit),
      ),
      element("span", { class: "soft" }, `${told.now} ${input.shown}`),
      element("button", { type: "button", onclick: remove }, told.remove),
    );
  }

  async function run(): Promise<void> {
    const typed = listTyped();
    forgetOutcome();
    const mine = asked;
    outcome.replaceChildren(context.words.working);
    let made: Node[];
    try {
      made = [
        showTrial(context, await actions.run(typed)),
        createFilesView(context, [{ words: told.save, make: () => actions.make(typed) }]),
      ];
    } catch (problem) {
      made = [describeFailure(context, problem)];
    }
    if (mine === asked) outcome.replaceChildren(...made);
  }

  search("");
  showChanges();
  return element(
    "div",
    { class: "view" },
    element("p", { class: "soft" }, told.about),
    element(
      "label",
      { class: "find" },
      told.find,
      element("input", { type: "search", oninput: ({ target }) => search((target as HTMLInputElement).value) }),
    ),
    count,
    found,
    changed,
    outcome,
  );
}

const nameInput = ({ label, address }: InputAnswer): string => (label === "" ? address : `${label} (${address})`);

function showTrial(context: ViewContext, { summary, verdicts, changed, cautions }: TrialAnswer): DocumentFragment {
  const { trial: told, verdict } = context.words;
  const rows = [
    ...verdicts.map(({ label, before, after }) => ({
      label: `${told.verdict}: ${label}`,
      before: nameVerdict(context, before),
      after: nameVerdict(context, after),
      unit: "",
    })),
    ...summary.map(({ label, before, after, unit }) => ({ label, before, after, unit })),
  ];
  const moved = rows.filter(({ before, after }) => before !== after);
  const made = document.createDocumentFragment();
  made.append(
    element("p", {}, told.changed(changed)),
    ...cautions.map((caution) => element("p", { class: "caution" }, caution)),
    moved.length === 0
      ? element("p", {}, told.same)
      : listTable(
          told.changes,
          [verdict.quantity, told.before, told.after, verdict.unit],
          moved.map(({ label, before, after, unit }) => [label, before, after, unit]),
          [1, 2],
        ),
  );
  return made;
}

/** Differences as a table: cell, what it is, before, after. */
export function listSteps(context: ViewContext, caption: string, steps: readonly Step[], most: number): HTMLElement {
  const { trial, compare, verdict } = context.words;
  const rows = steps
    .slice(0, most)
    .map(({ address, label, before, after }) => [cellButton(context, address), label, before, after]);
  const table = listFolded(caption, [verdict.cell, compare.label, trial.before, trial.after], rows, verdict.more);
  if (steps.length > most) table.append(element("p", { class: "soft" }, compare.more(steps.length - most)));
  return table;
}
