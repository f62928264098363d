import { element, listTable } from "../views/elements";
import type { PreviewAnswer } from "../views/desk/answers";
import { composeCall, findMissing } from "./call-text";
import type { ArgumentEntry, FunctionEntry } from "./entries";
import {
  createAction,
  createChoice,
  createPlaceField,
  describeWritten,
  type FormTools,
  requireSelection,
} from "./form-parts";
import { formatSelected } from "./port/addresses";
import type { SelectedArea } from "./port/port";

interface Field {
  readonly element: HTMLElement;
  readonly read: () => string;
}

/** What would be written, and where. */
interface Insertion {
  readonly at: SelectedArea;
  readonly text: string;
}

/** A form for one call: its arguments picked or typed, its result shown before it is put into the sheet. */
export function createFunctionForm(entry: FunctionEntry, tools: FormTools): HTMLElement {
  const { session, say } = tools;
  const formula = element("code", { class: "formula" });
  const result = element("div", { class: "result" });
  const update = (): void => {
    formula.textContent = composeCall(entry, readTexts(), place.find()?.sheet ?? "");
    result.replaceChildren();
  };
  const fields = entry.arguments.map((argument) =>
    createField(`${entry.id}-${argument.name}`, argument, tools, update),
  );
  const readTexts = (): string[] => fields.map(({ read }) => read());
  const place = createPlaceField(tools, update);

  const tryOut = async (): Promise<Insertion & PreviewAnswer> => {
    const missing = findMissing(entry, readTexts());
    if (missing) throw new Error(`“${missing.name}” is missing: ${missing.description}`);
    const tried = { at: place.require(), text: formula.textContent };
    const answer = await session.preview(tried.at, tried.text);
    // What was typed meanwhile has another result.
    if (tried.text === formula.textContent) result.replaceChildren(showPreview(answer));
    return { ...tried, ...answer };
  };
  const insert = async (): Promise<void> => {
    const { at, text, rowCount, columnCount, inTheWay } = await tryOut();
    if (inTheWay.length > 0) throw new Error(`Nothing was written: ${describeObstacles(inTheWay)}`);
    const reach = { rows: rowCount, columns: columnCount };
    await session.port.write({ sheet: at.sheet, row: at.row, column: at.column, cells: [[text]], reach });
    say(describeWritten(tools, at, reach));
  };

  const needed = fields.filter((_, index) => !entry.arguments[index]?.isOptional);
  const optional = fields.filter((_, index) => entry.arguments[index]?.isOptional);
  update();
  return element(
    "form",
    { class: "function-form", "aria-label": entry.id, onsubmit: (event) => event.preventDefault() },
    element("p", {}, entry.brief),
    ...needed.map((field) => field.element),
    optional.length > 0 &&
      element(
        "details",
        { class: "optional" },
        element("summary", {}, `Optional: ${optional.length}`),
        ...optional.map((field) => field.element),
      ),
    place.element,
    element("p", {}, formula),
    element(
      "p",
      { class: "actions" },
      createAction(tools, "Try", async () => void (await tryOut())),
      " ",
      createAction(tools, "Insert", insert),
    ),
    result,
  );
}

/** Says where a choice is taken from a cell; no function knows such a word. */
const fromCell = "from a cell…";

function createField(id: string, argument: ArgumentEntry, tools: FormTools, update: () => void): Field {
  const { name, description, choices, isRange, isOptional } = argument;
  const described = `${id}-description`;
  const text = element("input", {
    id,
    type: "text",
    autocomplete: "off",
    spellcheck: "false",
    "aria-describedby": described,
    "aria-required": isOptional ? undefined : "true",
    oninput: update,
  });
  const pick = createAction(
    tools,
    "Pick",
    async () => {
      text.value = formatSelected(await requireSelection(tools));
      update();
    },
    { "aria-label": `Pick cells for ${name}` },
  );
  const typed = element("span", { class: "pick" }, text, " ", pick);
  const head = element("label", { for: id }, element("code", {}, name));
  const tail = element("small", { id: described }, description);
  if (choices.length === 0) {
    text.placeholder = isRange ? "cells, or a value" : "a cell, or a value";
    return { element: element("div", { class: "field" }, head, typed, tail), read: () => text.value };
  }
  text.id = `${id}-cell`;
  text.setAttribute("aria-label", `${name}, a cell`);
  typed.hidden = true;
  const select = createChoice(
    [...choices, { word: fromCell }],
    {
      id,
      "aria-describedby": described,
      onchange: () => {
        typed.hidden = select.value !== fromCell;
        update();
      },
    },
    isOptional ? "not given" : "choose…",
  );
  return {
    element: element("div", { class: "field" }, head, select, typed, tail),
    read: () => (select.value === fromCell ? text.value : select.value),
  };
}

const mostRows = 12;

function showPreview({ rows, rowCount, columnCount, problem, inTheWay }: PreviewAnswer): HTMLElement {
  const size = rowCount * columnCount === 1 ? "1 cell" : `${rowCount} rows × ${columnCount} columns`;
  const shown = rows.slice(0, mostRows);
  const more = rowCount > shown.length && `The first ${shown.length} of ${rowCount} rows.`;
  return element(
    "div",
    {},
    problem !== "" && element("p", { class: "problem" }, problem),
    inTheWay.length > 0 && element("p", { class: "problem" }, describeObstacles(inTheWay)),
    problem === "" && listTable(`Result: ${size}`, [], shown),
    problem === "" && more && element("p", {}, more),
  );
}

const describeObstacles = (cells: readonly string[]): string =>
  `${cells.join(", ")} ${cells.length === 1 ? "already holds" : "already hold"} something. Pick another place.`;
