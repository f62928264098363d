import { usualConfidence } from "../../core/index";
import {
  areaOf,
  type Argument,
  type Call,
  ErrorValue,
  findFilledArea,
  findVerdicts,
  placeKey,
  type Verdict,
} from "../../workbook/index";
import type { CellPlace, Condition, ConditionTable, Figure, Step, VerdictAnswer } from "./answers";
import { type Desktop, formatPlace, labelCell, showCell } from "./opened";

/** Every verdict of a workbook with what it judged and the validity checks it depends on; a call over several houses or units gives one for each. */
export function describeVerdicts(desktop: Desktop): VerdictAnswer[] {
  const { view, tests } = desktop;
  return findVerdicts(view, tests.calls).flatMap((verdict): VerdictAnswer[] => {
    const { call } = verdict;
    const cells =
      verdict.cells.length > 0 ? verdict.cells : [{ place: call.place, word: nameError(desktop, call.place) }];
    const tables = listConditions(desktop, verdict);
    const confidence = readConfidence(desktop, call.arguments[2]);
    return cells.map(({ place, word }) => {
      const read = (argument: Argument | undefined): Figure | undefined => readFigure(desktop, call, argument, place);
      const result = read(verdict.result);
      const expanded = read(call.arguments[2])?.value;
      return {
        address: formatPlace(desktop, place),
        word,
        result,
        limit: read(verdict.target),
        interval: result && expanded !== undefined && expanded > 0 ? limitsOf(result.value, expanded) : undefined,
        confidence,
        tables,
      };
    });
  });
}

/** An error is no test still to be made; #N/A is one, where readings are missing. */
function nameError({ view }: Desktop, place: CellPlace): string {
  const value = view.readValue(place);
  return value instanceof ErrorValue && value.code !== "#N/A" ? value.code : "";
}

/** The limits of UNCERTAINTYBUDGET: symmetric on the logarithm. */
function limitsOf(result: number, expanded: number): readonly [number, number] {
  const factor = Math.exp(expanded / result);
  return [result / factor, result * factor];
}

/** The level that the settings of every budget behind an expanded uncertainty state; undefined where one does not tell it, or where they differ. */
function readConfidence({ view, tests }: Desktop, uncertainty: Argument | undefined): number | undefined {
  const budgets = tests.calls.filter(({ id }) => id === "UNCERTAINTYBUDGET");
  if (!uncertainty || budgets.length === 0) return undefined;
  const behind = view.findUpstream(uncertainty.areas, new Set(budgets.map(({ place }) => placeKey(place))));
  const levels = budgets
    .filter(({ place }) => behind.has(placeKey(place)))
    .map((budget) => {
      const settings = tests.findRunOfCall(budget)?.settings;
      const isKnown = settings && (settings.size > 0 || !budget.arguments[5]);
      const setting = settings?.get("confidence");
      const level = setting && view.readValue(setting.place);
      return isKnown ? (level ?? usualConfidence) : undefined;
    });
  const [level] = levels;
  return typeof level === "number" && levels.every((other) => other === level) ? level : undefined;
}

/** The figure of an argument that belongs to one of the cells that a call fills: of a range, the cell at the same distance from its first. */
function readFigure(
  desktop: Desktop,
  call: Call,
  argument: Argument | undefined,
  { row, column }: CellPlace,
): Figure | undefined {
  if (!argument) return undefined;
  const { view } = desktop;
  const { area, literal, node } = argument;
  const [down, across] = [row - call.place.row, column - call.place.column];
  if (area) {
    const place = {
      sheet: area.sheet,
      row: area.top === area.bottom ? area.top : area.top + down,
      column: area.left === area.right ? area.left : area.left + across,
    };
    const value = view.readNumber(place);
    const isInside = place.row <= area.bottom && place.column <= area.right;
    return value === undefined || !isInside
      ? undefined
      : { address: formatPlace(desktop, place), ...labelCell(desktop, place), value };
  }
  const values = typeof literal === "number" ? [literal] : (view.evaluateNode(node, call.place) ?? []);
  const value = values.length === 1 ? values[0] : values[Math.max(down, across)];
  return typeof value === "number" ? { address: "", label: "", value, unit: "" } : undefined;
}

/** The tables of validity checks upstream of a verdict, however its validity is handed over. */
function listConditions(desktop: Desktop, { validity, call }: Verdict): ConditionTable[] {
  const { view, tests } = desktop;
  const tables = tests.calls.filter(({ id, alone }) => id === "VALIDITYCHECKS" && alone);
  // What the checks in turn depend on is nearly the whole workbook.
  const behind = view.findUpstream(
    validity.length > 0 ? validity.flatMap(({ areas }) => areas) : [areaOf(call.place)],
    new Set(tables.map(({ place }) => placeKey(place))),
  );
  return (
    tables
      .filter(({ place }) => behind.has(placeKey(place)))
      .map((checks) => {
        const run = tests.findRunOfCall(checks);
        const address = formatPlace(desktop, checks.place);
        const sheet = run && desktop.book.sheets[run.pressures.sheet]?.name;
        const title = run ? [run.direction, sheet].join(", ") : address;
        return { address, title, conditions: readConditions(desktop, checks) };
      })
      // Of a run that was not made.
      .filter(({ conditions }) => conditions.length > 0)
  );
}

function readConditions(desktop: Desktop, checks: Call): Condition[] {
  const { sheet, top, bottom, left } = findFilledArea(desktop.view, checks);
  const rows: Condition[] = [];
  for (let row = top; row <= bottom; row += 1) {
    const read = (offset: number): string => showCell(desktop, { sheet, row, column: left + offset });
    const weight = read(6).toLowerCase();
    if (weight !== "binding" && weight !== "advisory") continue;
    const outcome = read(5);
    if (outcome === "") continue;
    rows.push({
      check: read(0),
      symbol: read(1),
      measured: read(2),
      limit: read(3),
      unit: read(4).replace(/^–$/, ""),
      outcome,
      isBinding: weight === "binding",
      clause: read(7),
      advice: read(8),
    });
  }
  return rows;
}

/** The words of the verdicts that both have, side by side. */
export function compareVerdicts(before: Desktop, after: Desktop): Step[] {
  const later = new Map(describeVerdicts(after).map((verdict) => [verdict.address, verdict]));
  return describeVerdicts(before).flatMap(({ address, word, result }) => {
    const other = later.get(address);
    return other ? [{ address, label: result?.label ?? "", before: word, after: other.word }] : [];
  });
}
