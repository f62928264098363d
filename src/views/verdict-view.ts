import { cellButton, formatNumber, nameVerdict, type ViewContext } from "./context";
import type { Condition, ConditionTable, VerdictAnswer, WorkbookAnswer } from "./desk/answers";
import { element, listFolded, listTable, section } from "./elements";

/** The verdicts of a workbook with result, limit, uncertainty and conditions, then what the recalculation showed. */
export function createVerdictView(context: ViewContext, workbook: WorkbookAnswer): HTMLElement {
  const { words } = context;
  const { verdicts, cautions, issued } = workbook;
  const told = words.verdict;
  return element(
    "div",
    { class: "view" },
    ...showVerdicts(context, verdicts),
    showSummary(context, workbook),
    section(
      told.recalculation,
      element("p", {}, told.recomputed(workbook.evaluatedCells, workbook.formulaCells)),
      issued && element("p", {}, told.issued(issued.day, issued.methodVersion)),
      ...cautions.map((caution) => element("p", { class: "caution" }, `${caution}.`)),
      showDifferences(context, workbook),
      showNotEvaluated(context, workbook),
      element("p", { class: "soft" }, told.responsibility),
    ),
  );
}

/** More verdicts than these, as of the houses of a programme, are a table whose rows open one by one. */
const mostAtLength = 3;

function showVerdicts(context: ViewContext, verdicts: readonly VerdictAnswer[]): HTMLElement[] {
  const told = context.words.verdict;
  if (verdicts.length === 0) return [element("p", {}, told.none)];
  if (verdicts.length <= mostAtLength) return verdicts.map((one) => showVerdict(context, one));
  const counts = new Map<string, number>();
  for (const { word } of verdicts) counts.set(word, (counts.get(word) ?? 0) + 1);
  const opened = element("div", { role: "status" });
  const listed = verdicts.filter(({ word }) => word !== "");
  const levels = [...new Set(listed.map((verdict) => formatLevel(context, verdict)))];
  const interval = told.interval(levels.length === 1 ? levels[0]! : "");
  const rows = listed.map((verdict) =>
    listVerdict(context, verdict, () => opened.replaceChildren(showVerdict(context, verdict))),
  );
  const heads = [told.cell, told.verdict, context.words.compare.label, told.result, interval, told.limit];
  return [
    element(
      "p",
      { class: "lead" },
      [...counts].map(([word, count]) => `${count} ${nameVerdict(context, word)}`).join(", "),
    ),
    opened,
    element(
      "div",
      { class: "verdicts" },
      listed.length > 0 && listFolded(told.verdicts(verdicts.length), heads, rows, told.more),
    ),
  ];
}

function listVerdict(context: ViewContext, verdict: VerdictAnswer, open: () => void): (Node | string)[] {
  const figures = new Map(listFigures(context, verdict).map(({ name, text }) => [name, text]));
  const { result, interval, limit } = context.words.verdict;
  const names = [result, interval(formatLevel(context, verdict)), limit];
  return [
    cellButton(context, verdict.address),
    element("button", { type: "button", class: "link", onclick: open }, nameVerdict(context, verdict.word)),
    verdict.result?.label ?? "",
    ...names.map((name) => figures.get(name) ?? ""),
  ];
}

/** The confidence level of the interval as a person reads it; "" where it is not known. */
const formatLevel = (context: ViewContext, { confidence }: VerdictAnswer): string =>
  confidence === undefined ? "" : `${formatNumber(context, 100 * confidence)} %`;

function listFigures(context: ViewContext, verdict: VerdictAnswer): { name: string; text: string; address: string }[] {
  const told = context.words.verdict;
  const { result, limit, interval } = verdict;
  const unit = result?.unit ?? limit?.unit ?? "";
  const withUnit = (value: number): string => `${formatNumber(context, value)} ${unit}`.trim();
  const name = told.interval(formatLevel(context, verdict));
  return [
    ...(result ? [{ name: told.result, text: withUnit(result.value), address: result.address }] : []),
    ...(interval ? [{ name, text: interval.map(withUnit).join(" – "), address: "" }] : []),
    ...(limit ? [{ name: told.limit, text: withUnit(limit.value), address: limit.address }] : []),
  ];
}

function showVerdict(context: ViewContext, verdict: VerdictAnswer): HTMLElement {
  const told = context.words.verdict;
  const { word, result, limit, interval, address, tables } = verdict;
  const unit = result?.unit ?? limit?.unit ?? "";
  const withUnit = (value: number): string => `${formatNumber(context, value)} ${unit}`.trim();
  return element(
    "article",
    { class: "verdict", "data-verdict": word === "" ? "open" : word },
    element("p", { class: "of" }, told.of(result?.label ?? ""), " ", cellButton(context, address)),
    element("p", { class: "word" }, nameVerdict(context, word)),
    element(
      "dl",
      {},
      ...listFigures(context, verdict).flatMap(({ name, text, address: cell }) => [
        element("dt", {}, name),
        element("dd", {}, text, " ", cell === "" ? "" : cellButton(context, cell)),
      ]),
    ),
    result && limit ? drawBar(context, verdict, withUnit) : undefined,
    result && limit
      ? element("p", { class: "soft key" }, interval ? told.barKey(formatLevel(context, verdict)) : told.barKeyWithout)
      : undefined,
    result && !interval ? element("p", { class: "soft" }, told.noInterval) : undefined,
    ...showConditions(context, tables),
  );
}

const svgNamespace = "http://www.w3.org/2000/svg";

/** The result with its interval against the limit, on one axis from zero. */
function drawBar(context: ViewContext, verdict: VerdictAnswer, withUnit: (value: number) => string): Element {
  const { result, limit, interval } = verdict;
  const told = context.words.verdict;
  const [value, most] = [result?.value ?? 0, limit?.value ?? 0];
  const [lower, upper] = interval ?? [value, value];
  const room = 1.15 * Math.max(value, most, upper);
  const place = (at: number): string => ((1000 * Math.max(0, at)) / room).toFixed(1);
  const draw = (name: string, attributes: Readonly<Record<string, string>>): Element => {
    const made = document.createElementNS(svgNamespace, name);
    for (const [key, text] of Object.entries(attributes)) made.setAttribute(key, text);
    return made;
  };
  const label = interval
    ? told.bar(withUnit(value), formatLevel(context, verdict), withUnit(lower), withUnit(upper), withUnit(most))
    : told.barWithout(withUnit(value), withUnit(most));
  const picture = draw("svg", {
    viewBox: "0 0 1000 60",
    class: "bar",
    role: "img",
    "aria-label": label,
    preserveAspectRatio: "none",
  });
  picture.append(
    draw("line", { x1: "0", x2: "1000", y1: "30", y2: "30", class: "axis" }),
    draw("rect", {
      x: place(lower),
      width: String(Math.max(4, Number(place(upper)) - Number(place(lower)))),
      y: "20",
      height: "20",
      class: "interval",
    }),
    draw("line", { x1: place(value), x2: place(value), y1: "12", y2: "48", class: "result" }),
    draw("line", { x1: place(most), x2: place(most), y1: "2", y2: "58", class: "limit" }),
  );
  return picture;
}

function showConditions(context: ViewContext, tables: readonly ConditionTable[]): HTMLElement[] {
  const told = context.words.verdict;
  if (tables.length === 0) return [element("p", { class: "soft" }, told.noConditions)];
  const binding = tables.flatMap(({ conditions }) => conditions.filter(({ isBinding }) => isBinding));
  const met = binding.filter(({ outcome }) => outcome === "met").length;
  const unmet = gatherUnmet(tables);
  return [
    element("h4", {}, told.conditions),
    element("p", {}, told.metCount(met, binding.length)),
    element(
      "ul",
      { class: "unmet" },
      ...unmet.map(({ condition: { check, outcome, isBinding, advice }, runs }) =>
        element(
          "li",
          { "data-binding": String(isBinding) },
          element("strong", {}, `${check}: ${told.outcomes[outcome] ?? outcome}`),
          ` (${isBinding ? told.binding : told.advisory}; ${runs.join("; ")})`,
          advice !== "" && `: ${advice}`,
        ),
      ),
    ),
    ...tables.map((table) =>
      element(
        "details",
        {},
        element("summary", {}, `${table.title}: ${told.allConditions(table.conditions.length)}`),
        listTable(
          `${told.conditions}: ${table.title}`,
          [told.condition, told.measured, told.required, told.outcome],
          table.conditions.map((condition) => listCondition(context, condition)),
        ),
      ),
    ),
  ];
}

/** Conditions that are not met, each once with what was measured in the runs that miss it. */
function gatherUnmet(tables: readonly ConditionTable[]): { condition: Condition; runs: string[] }[] {
  const gathered = new Map<string, { condition: Condition; runs: string[] }>();
  for (const { title, conditions } of tables)
    for (const condition of conditions.filter(({ outcome }) => outcome !== "met")) {
      const { check, outcome, advice, measured, unit } = condition;
      const key = [check, outcome, advice].join("\n");
      const { runs } = gathered.get(key) ?? gathered.set(key, { condition, runs: [] }).get(key)!;
      runs.push(measured === "" ? title : `${title}: ${measured} ${unit}`.trimEnd());
    }
  return [...gathered.values()];
}

function listCondition({ words: { verdict: told } }: ViewContext, condition: Condition): string[] {
  const { check, symbol, measured, limit, unit, outcome, isBinding } = condition;
  const withUnit = (text: string): string => (text === "" ? "" : `${text} ${unit}`.trim());
  const name = symbol === "" ? check : `${check} (${symbol})`;
  return [
    name,
    withUnit(measured),
    withUnit(limit),
    `${told.outcomes[outcome] ?? outcome}${isBinding ? "" : `, ${told.advisory}`}`,
  ];
}

function showSummary({ words: { verdict: told } }: ViewContext, { summary }: WorkbookAnswer): HTMLElement | undefined {
  if (summary.length === 0) return undefined;
  const rows = summary.map(({ label, text, unit }) => [label, text, unit]);
  return section(told.summary, listTable(told.summary, [told.quantity, told.value, told.unit], rows, [1]));
}

function showDifferences(context: ViewContext, { differences }: WorkbookAnswer): HTMLElement {
  const told = context.words.verdict;
  if (differences.length === 0) return element("p", {}, told.same);
  const rows = differences.map(({ address, stored, computed }) => [cellButton(context, address), stored, computed]);
  return listFolded(told.differ(differences.length), [told.cell, told.stored, told.computed], rows, told.more);
}

function showNotEvaluated(context: ViewContext, { notEvaluated }: WorkbookAnswer): HTMLElement | undefined {
  const told = context.words.verdict;
  if (notEvaluated.length === 0) return undefined;
  const rows = notEvaluated.map(({ address, reason }) => [cellButton(context, address), reason]);
  return listFolded(told.notEvaluated(notEvaluated.length), [told.cell, told.why], rows, told.more);
}
