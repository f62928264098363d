import { cellButton, type ViewContext } from "./context";
import type { FindingGroup, ReviewAnswer } from "./desk/answers";
import { element } from "./elements";

/** What a review does, and the button that starts it, which cannot be pressed again while it runs. */
export function createReviewOffer({ words }: ViewContext, run: () => Promise<void>): HTMLElement {
  const start = element(
    "button",
    {
      type: "button",
      class: "main",
      onclick: () => {
        start.disabled = true;
        void run().finally(() => (start.disabled = false));
      },
    },
    words.findings.start,
  );
  return element("div", { class: "view" }, element("p", {}, words.findings.about), element("p", {}, start));
}

/** The findings of a review, worst first, each with its cells, why it matters and what to do. */
export function createFindingsView(context: ViewContext, review: ReviewAnswer): HTMLElement {
  const { words } = context;
  const told = words.findings;
  const { groups, counts, basis } = review;
  const list = element("ol", { class: "findings" });
  const show = (sheet: string): void =>
    list.replaceChildren(
      ...groups
        .filter((group) => sheet === "" || listSheets(group).includes(sheet))
        .map((group) => showGroup(context, group)),
    );
  show("");
  const sheets = [...new Set(groups.flatMap(listSheets))];
  const filter = element(
    "select",
    { onchange: ({ target }) => show((target as HTMLSelectElement).value) },
    element("option", { value: "" }, told.all),
    ...sheets.map((sheet) => element("option", { value: sheet }, told.bySheet(sheet))),
  );
  return element(
    "div",
    { class: "view" },
    element(
      "p",
      { class: "lead" },
      counts.error + counts.warning === 0 ? told.none : told.counts(counts.error, counts.warning, counts.note),
    ),
    words.inEnglish !== "" && element("p", { class: "soft" }, words.inEnglish),
    element("p", { lang: "en" }, basis),
    sheets.length > 1 && element("label", { class: "filter" }, `${told.filter} `, filter),
    list,
    showLines(told.checked, review.checked),
    showLines(told.beyond, review.beyondPrograms),
    element("p", { class: "soft" }, told.legend),
  );
}

/** Lines in English under a heading that opens. */
const showLines = (heading: string, lines: readonly string[]): HTMLElement | undefined =>
  lines.length > 0
    ? element(
        "details",
        {},
        element("summary", {}, heading),
        element("ul", { lang: "en" }, ...lines.map((line) => element("li", {}, line))),
      )
    : undefined;

const listSheets = ({ first, places, related }: FindingGroup): string[] =>
  [first.place, ...places, ...related.map(({ place }) => place)].flatMap(
    (place) => /^'?(.+?)'?![^!]+$/.exec(place)?.[1]?.replaceAll("''", "'") ?? [],
  );

function showGroup(context: ViewContext, group: FindingGroup): HTMLElement {
  const told = context.words.findings;
  const { first, severity, turnsVerdict, figure, places, related } = group;
  const { kind, place, what, why, todo } = first;
  return element(
    "li",
    { "data-severity": severity },
    element(
      "p",
      { class: "head" },
      element("span", { class: "severity" }, told.severities[severity]),
      " ",
      element("strong", {}, kind),
      " ",
      cellButton(context, place),
      turnsVerdict && element("strong", { class: "turns" }, ` ${told.turns}`),
    ),
    figure !== "" && element("p", { class: "soft" }, figure),
    element("p", {}, what),
    severity !== "note" && element("p", { class: "soft" }, `${told.why}: ${why}`),
    severity !== "note" && element("p", {}, `${told.todo}: ${todo}`),
    places.length > 0 &&
      element(
        "details",
        {},
        element("summary", {}, told.also(places.length)),
        element("ul", { class: "cells" }, ...places.map((one) => element("li", {}, cellButton(context, one)))),
      ),
    related.length > 0 &&
      element(
        "details",
        {},
        element("summary", {}, told.related(related.length)),
        element(
          "ul",
          {},
          ...related.map((one) => element("li", {}, `${one.kind} `, cellButton(context, one.place), ` ${one.what}`)),
        ),
      ),
  );
}
