import { cellButton, formatNumber, type ViewContext } from "./context";
import type { Condition, ConditionTable, VerdictAnswer, WorkbookAnswer } from "./desk/answers";
import { element, listTable, section } from "./elements";

/** The verdicts of a workbook with result, limit, uncertainty and conditions, then what the recalculation showed. */
export function createVerdictView(context: ViewContext, workbook: WorkbookAnswer): HTMLElement {
  const { words } = context;
  const { verdicts, cautions, issued } = workbook;
  const told = words.verdict;
  return element(
    "div",
    { class: "view" },
    ...(verdicts.length === 0 ? [element("p", {}, told.none)] : verdicts.map((one) => showVerdict(context, one))),
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

function showVerdict(context: ViewContext, verdict: VerdictAnswer): HTMLElement {
  const told = context.words.verdict;
  const { word, result, limit, address, tables } = verdict;
  const shown = word === "" ? told.open : (told.words[word] ?? word);
  const unit = result?.unit ?? limit?.unit ?? "";
  const withUnit = (value: number): string => `${formatNumber(context, value)} ${unit}`.trim();
  const facts: [string, string, string][] = [
    ...(result ? [[told.result, withUnit(result.value), result.address] as [string, string, string]] : []),
    ...(verdict.interval
      ? [[told.interval, verdict.interval.map(withUnit).join(" – "), ""] as [string, string, string]]
      : []),
    ...(limit ? [[told.limit, withUnit(limit.value), limit.address] as [string, string, string]] : []),
  ];
  return element(
    "article",
    { class: "verdict", "data-verdict": word === "" ? "open" : word },
    element("p", { class: "of" }, told.of(result?.label ?? ""), " ", cellButton(context, address)),
    element("p", { class: "word" }, shown),
    element(
      "dl",
      {},
      ...facts.flatMap(([name, value, cell]) => [
        element("dt", {}, name),
        element("dd", {}, value, " ", cell === "" ? "" : cellButton(context, cell)),
      ]),
    ),
    result && limit ? drawBar(context, verdict, withUnit) : undefined,
    result && !verdict.interval ? element("p", { class: "soft" }, told.noInterval) : undefined,
    ...showConditions(context, tables),
  );
}

const svgNamespace = "http://www.w3.org/2000/svg";

/** The result with its interval against the limit, on one axis from zero. */
function drawBar(
  { words }: ViewContext,
  { result, limit, interval }: VerdictAnswer,
  withUnit: (value: number) => string,
): Element {
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
    ? words.verdict.bar(withUnit(value), withUnit(lower), withUnit(upper), withUnit(most))
    : words.verdict.barWithout(withUnit(value), withUnit(most));
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
  const unmet = tables.flatMap(({ title, conditions }) =>
    conditions.filter(({ outcome }) => outcome !== "met").map((condition) => ({ title, condition })),
  );
  return [
    element("h4", {}, told.conditions),
    element("p", {}, told.metCount(met, binding.length)),
    element(
      "ul",
      { class: "unmet" },
      ...unmet.map(({ title, condition: { check, outcome, isBinding, advice, measured, unit } }) =>
        element(
          "li",
          { "data-binding": isBinding },
          element("strong", {}, `${check}: ${told.outcomes[outcome] ?? outcome}`),
          ` (${isBinding ? told.binding : told.advisory}, ${title}${measured === "" ? "" : `, ${measured} ${unit}`.trimEnd()}). ${advice}`,
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
  return listTable(
    told.differ(differences.length),
    [told.cell, told.stored, told.computed],
    differences.map(({ address, stored, computed }) => [cellButton(context, address), stored, computed]),
  );
}

function showNotEvaluated(context: ViewContext, { notEvaluated }: WorkbookAnswer): HTMLElement | undefined {
  const told = context.words.verdict;
  if (notEvaluated.length === 0) return undefined;
  const rows = notEvaluated.map(({ address, reason }) => [cellButton(context, address), reason]);
  return listTable(told.notEvaluated(notEvaluated.length), [told.cell, told.why], rows);
}
