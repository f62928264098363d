import { cellButton, type ViewContext } from "./context";
import type { TraceAnswer, TraceStep } from "./desk/answers";
import { element } from "./elements";

/**
 * One step of a trace at a time: what the figure is, how it comes about, what it reads, and the path on which the reader came.
 * @param path The steps of the path, kept by the caller for a view of the same trace made later.
 */
export function createTraceView(context: ViewContext, trace: TraceAnswer, path: number[]): HTMLElement {
  const told = context.words.trace;
  const place = element("div", { class: "step", tabindex: -1 });
  const crumbs = element("ol", { class: "path" });

  function open(step: number): void {
    const known = path.indexOf(step);
    path.splice(known < 0 ? path.length : known, path.length, step);
    crumbs.hidden = path.length < 2;
    crumbs.replaceChildren(...path.map((one, at) => showCrumb(one, at === path.length - 1)));
    const shown = trace.steps[step];
    if (shown) place.replaceChildren(showStep(context, trace, shown, open));
    place.focus({ preventScroll: true });
  }

  function showCrumb(step: number, isHere: boolean): HTMLElement {
    const words = nameStep(trace.steps[step]);
    const button = element("button", { type: "button", class: "link", onclick: () => open(step) }, words);
    return element("li", {}, isHere ? element("span", { "aria-current": "step" }, words) : button);
  }

  const { inEnglish } = context.words;
  const view = element(
    "div",
    { class: "view" },
    inEnglish !== "" && element("p", { class: "soft" }, inEnglish),
    element("nav", { "aria-label": told.path }, crumbs),
    place,
    element(
      "details",
      {},
      element("summary", {}, told.inputs(trace.inputs.length)),
      element(
        "ul",
        { class: "cells" },
        ...trace.inputs.map((address) => element("li", {}, cellButton(context, address))),
      ),
    ),
  );
  open(path.at(-1) ?? 0);
  return view;
}

const nameStep = (step: TraceStep | undefined): string =>
  step === undefined ? "" : step.title === "" ? step.address : step.title;

function showStep(
  context: ViewContext,
  { steps }: TraceAnswer,
  step: TraceStep,
  open: (step: number) => void,
): DocumentFragment {
  const told = context.words.trace;
  const { address, title, kind, value, withNumbers, details, members, table, branches } = step;
  const made = document.createDocumentFragment();
  made.append(
    element("h3", {}, title === "" ? address : title),
    element("p", { class: "value" }, value),
    element(
      "p",
      { class: "soft" },
      [address, kind].filter((part) => part !== "").join(", "),
      " ",
      element(
        "button",
        { type: "button", class: "link", onclick: () => context.showInSheet(address) },
        told.showInSheet,
      ),
    ),
  );
  if (withNumbers !== "") made.append(element("p", { class: "numbers" }, withNumbers));
  if (details.length > 0)
    made.append(
      element("dl", {}, ...details.flatMap(([name, text]) => [element("dt", {}, name), element("dd", {}, fold(text))])),
    );
  if (branches.length > 0) made.append(element("h4", {}, told.reads), listBranches(steps, branches, open));
  if (table.length > 0) made.append(foldTable(told.table, table));
  if (members.length > 0)
    made.append(
      foldTable(
        told.cells,
        members.map((member) => [member.address, member.value]),
      ),
    );
  return made;
}

const longestText = 200;

/** A long formula or sentence opens on demand. */
function fold(text: string): HTMLElement | string {
  if (text.length <= longestText) return text;
  const beginning = text.slice(0, text.indexOf(" ", longestText / 2) + 1 || longestText / 2).slice(0, longestText);
  return element(
    "details",
    { class: "long" },
    element("summary", {}, ...breakAtSeparators(`${beginning.trimEnd()} …`)),
    ...breakAtSeparators(text),
  );
}

/** A formula has no spaces; without places where a line may end, its first word would leave the line of the mark before it. */
const breakAtSeparators = (text: string): (Node | string)[] =>
  text.split(/(?<=[,;(])(?=\S)/).flatMap((part, index) => (index === 0 ? [part] : [element("wbr"), part]));

function listBranches(
  steps: readonly TraceStep[],
  branches: TraceStep["branches"],
  open: (step: number) => void,
): HTMLElement {
  return element(
    "ul",
    { class: "branches" },
    ...branches.map(({ role, step }) => {
      const to = steps[step];
      return element(
        "li",
        {},
        element(
          "button",
          { type: "button", onclick: () => open(step) },
          element(
            "span",
            { class: "name" },
            role === "" ? nameStep(to) : role === nameStep(to) ? role : `${role}: ${nameStep(to)}`,
          ),
          element("span", { class: "value" }, to?.value ?? ""),
        ),
      );
    }),
  );
}

function foldTable(title: string, rows: readonly (readonly string[])[]): HTMLElement {
  const body = rows.map((cells) =>
    element(
      "tr",
      {},
      ...cells.map((text, at) => element(at === 0 ? "th" : "td", at === 0 ? { scope: "row" } : {}, text)),
    ),
  );
  return element(
    "details",
    {},
    element("summary", {}, title),
    element(
      "div",
      { class: "scroll", tabindex: 0, role: "region", "aria-label": title },
      element("table", { class: "list" }, element("tbody", {}, ...body)),
    ),
  );
}
