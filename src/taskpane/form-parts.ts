import { element } from "../views/elements";
import { formatSelected } from "./port/addresses";
import type { SelectedArea } from "./port/port";
import type { Session } from "./session";

export interface FormTools {
  readonly session: Session;
  /** Tells the person something, where a screen reader reads it too. */
  readonly say: (words: string) => void;
}

/** A button that cannot be pressed again while its work runs; what stops the work is said. */
export function createAction(
  { say }: FormTools,
  words: string,
  work: () => Promise<void>,
  attributes: Readonly<Record<string, string>> = {},
): HTMLButtonElement {
  const button = element("button", { type: "button", ...attributes, onclick: () => void run() }, words);
  const run = async (): Promise<void> => {
    button.disabled = true;
    try {
      await work();
    } catch (problem) {
      say(problem instanceof Error ? problem.message : String(problem));
    } finally {
      button.disabled = false;
    }
  };
  return button;
}

/** The selected cells; refused in words where something else is selected. */
export async function requireSelection({ session }: FormTools): Promise<SelectedArea> {
  const selected = await session.port.findSelection();
  if (!selected) throw new Error("Select cells in the sheet first, then press Pick.");
  return selected;
}

/** The first cell of what a form will write: the selection when it was opened, until another is picked. */
export interface PlaceField {
  readonly element: HTMLElement;
  readonly find: () => SelectedArea | undefined;
  readonly require: () => SelectedArea;
}

export function createPlaceField(tools: FormTools, onPick: () => void): PlaceField {
  let place: SelectedArea | undefined;
  const shown = element("output", { class: "place" }, "no cell yet");
  const take = (selected: SelectedArea): void => {
    place = { ...selected, rows: 1, columns: 1 };
    shown.textContent = formatSelected(place);
    onPick();
  };
  const pick = createAction(tools, "Pick", async () => take(await requireSelection(tools)), {
    "aria-label": "Pick the cell to put it in",
  });
  tools.session.port.findSelection().then(
    (selected) => selected && !place && take(selected),
    () => undefined,
  );
  return {
    element: element("p", { class: "put-in" }, "Put it in: ", shown, " ", pick),
    find: () => place,
    require: () => {
      if (!place) throw new Error("Select a cell for it in the sheet, then press Pick beside “Put it in”.");
      return place;
    },
  };
}

/** A list to choose from, each word with what it means. */
export function createChoice(
  choices: readonly { readonly word: string; readonly meaning?: string }[],
  attributes: Readonly<Record<string, string | undefined | (() => void)>>,
  first?: string,
): HTMLSelectElement {
  const options = choices.map(({ word, meaning }) =>
    element("option", { value: word }, meaning === undefined ? word : `${word}: ${meaning}`),
  );
  const blank = first === undefined ? undefined : element("option", { value: "" }, first);
  return element("select", attributes, blank, ...options);
}

/** The first cell that would be in the way of a rectangle. */
export async function findInTheWay(
  { session }: FormTools,
  place: SelectedArea,
  reach: { readonly rows: number; readonly columns: number },
): Promise<string | undefined> {
  const { inTheWay } = await session.preview(place, `=SEQUENCE(${reach.rows},${reach.columns})`);
  return inTheWay[0];
}

/**
 * What was written, for the person.
 * @param hasLooks Looks came with it: further steps where Excel does not merge them.
 */
export function describeWritten(
  { session }: FormTools,
  place: SelectedArea,
  reach: { readonly rows: number; readonly columns: number },
  hasLooks = false,
): string {
  const { canUndo, undoesAtOnce } = session.port.abilities;
  const stepByStep = hasLooks && !undoesAtOnce ? ", step by step" : "";
  return `Written to ${formatSelected({ ...place, ...reach })}.${canUndo ? ` Undo takes it back${stepByStep}.` : ""}`;
}
