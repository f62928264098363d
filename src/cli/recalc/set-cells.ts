import {
  type Area,
  formatAreaAddress,
  type Book,
  formatCellAddress,
  formatFullAddress,
  buildCellKey,
  type CellPatch,
  type CellValue,
  ErrorValue,
  fitToCell,
  type InputRule,
  type Labels,
  formatList,
  type OpenedWorkbook,
  partOfArray,
  readInputs,
  sentence,
  shorten,
} from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";
import { type CellPlace, example, type Setting } from "./read-setting";
import { shortenFormula, formatValue } from "../shared/report-lines";

/** Finds the cells of all settings in the book; throws BadArgument for a cell that cannot sensibly be set. */
export function locateSettings(
  book: Book,
  settings: readonly Setting[],
  overFormulas: boolean,
  labels: Labels,
  isInput: IsInput,
): CellPatch[] {
  const seen = new Set<string>();
  return settings.map((setting) => {
    const refuse = (why: string) => new BadArgument(`--set "${shorten(setting.typed)}": ${why}`);
    const { sheet, row, column } = findPlace(book, setting, { labels, isInput }, refuse);
    const refusal = findRefusal(book, sheet, { row, column }, overFormulas);
    if (refusal !== undefined) throw refuse(refusal);
    const key = `${sheet} ${buildCellKey(row, column)}`;
    if (seen.has(key)) throw refuse("this cell is set twice");
    seen.add(key);
    return { sheet, row, column, value: fitToCell(book, { sheet, row, column }, setting.value, labels, refuse) };
  });
}

type Refuse = (why: string) => BadArgument;

type Place = CellPlace & { readonly sheet: number };

/** Whether a cell is one to type into: unlocked where its sheet is protected. */
type IsInput = (sheet: number, row: number, column: number) => boolean;

interface Finder {
  readonly labels: Labels;
  readonly isInput: IsInput;
}

function findPlace(book: Book, { sheet, target }: Setting, finder: Finder, refuse: Refuse): Place {
  if (typeof target === "string") return findLabelled(book, { sheet, target }, finder, refuse);
  return { sheet: findSheet(book, sheet ?? "", refuse), ...target };
}

function findSheet(book: Book, sheet: string, refuse: Refuse): number {
  const index = book.sheets.findIndex(({ name }) => name.toLowerCase() === sheet.toLowerCase());
  if (index >= 0) return index;
  const names = book.sheets.map(({ name }) => shorten(name));
  throw refuse(`there is no sheet "${shorten(sheet)}"; the workbook has ${formatList(names, 12)}`);
}

const mostCandidates = 5;

const plainWords = (text: string): string => text.trim().replace(/\s+/g, " ").toLowerCase();

/** The input whose label is, or otherwise contains, the words; several, or none, are refused with what there is. */
function findLabelled(
  book: Book,
  { sheet, target }: { readonly sheet: string | undefined; readonly target: string },
  { labels, isInput }: Finder,
  refuse: Refuse,
): Place {
  const wanted = plainWords(target);
  const only = sheet === undefined ? undefined : findSheet(book, sheet, refuse);
  const places = book.sheets.flatMap(({ cells }, index) =>
    only !== undefined && only !== index
      ? []
      : [...cells.values()]
          .filter(({ value, formula, row, column }) => value !== null && !formula && isInput(index, row, column))
          .map(({ row, column }) => ({ sheet: index, row, column })),
  );
  const named = places
    .map((place) => ({ place, label: plainWords(labels.describeAt(place.sheet, place.row, place.column).text) }))
    .filter(({ label }) => label.includes(wanted));
  const exact = named.filter(({ label }) => label === wanted);
  const found = exact.length > 0 ? exact : named;
  const [first] = found;
  if (first && found.length === 1) return first.place;
  if (found.length === 0)
    throw refuse(
      `no input that is filled in has the label "${shorten(target)}"; name the cell instead, as in ${example}`,
    );
  const listed = found.map(({ place, label }) => {
    const { sheet: index, row, column } = place;
    return `${formatFullAddress(book.sheets[index]?.name ?? "", row, column)} (${shorten(label)})`;
  });
  throw refuse(`several cells have this label: ${formatList(listed, mostCandidates)}; name one of them`);
}

function findRefusal(book: Book, sheet: number, { row, column }: CellPlace, overFormulas: boolean): string | undefined {
  const cells = book.sheets[sheet]?.cells ?? new Map<number, never>();
  const isInside = (area: Area): boolean =>
    row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
  const formula = cells.get(buildCellKey(row, column))?.formula;
  if (formula && !overFormulas) {
    return `${formatCellAddress(row, column)} holds a formula (${shortenFormula(formula.text)}); set one of its inputs, or add --over-formulas`;
  }
  for (const cell of cells.values()) {
    const array = cell.formula?.array;
    if (array && cell.formula !== formula && isInside(array)) {
      return `${formatCellAddress(row, column)} is filled by the formula in ${formatCellAddress(cell.row, cell.column)}`;
    }
  }
  const part = partOfArray(book.sheets[sheet], row, column);
  if (part !== undefined) return part;
  const merged = book.sheets[sheet]?.mergedAreas.find(isInside);
  if (merged && (merged.top !== row || merged.left !== column)) {
    return `${formatCellAddress(row, column)} is hidden by the merged cells ${formatAreaAddress(merged)}; set ${formatCellAddress(merged.top, merged.left)}`;
  }
  const table = book.tables.find((candidate) => candidate.sheet === sheet && isInside(candidate.area));
  if (table && row < table.area.top + table.headerRows)
    return `${formatCellAddress(row, column)} is a heading of the table ${table.name}`;
  return undefined;
}

/** Values set that Excel would have refused: in locked cells, or against the cell's data validation. */
export function setCautions(opened: OpenedWorkbook, set: readonly CellPatch[], settings: readonly Setting[]): string[] {
  const inputs = readInputs(opened);
  return set.flatMap(({ sheet, row, column, value }, place) => {
    const typed = sentence`--set "${settings[place]?.typed ?? ""}"`;
    const refused = inputs.rulesOf(sheet, row, column).filter((rule) => !allows(rule, value));
    return [
      ...(inputs.isLocked(sheet, row, column)
        ? [`${typed}: the cell is locked on a protected sheet, so it is not an input`]
        : []),
      ...refused.map(
        (rule) =>
          `${typed}: the cell's data validation rejects ${formatValue(value)}; it accepts ${describeTaken(rule)}`,
      ),
    ];
  });
}

/** A blank is never refused, since Excel does not validate clearing a cell; an error value is ignored. */
function allows(rule: InputRule, value: CellValue): boolean {
  if (value === null || value instanceof ErrorValue) return true;
  // Items listed in the rule itself are compared case-sensitively.
  if (rule.kind === "list") return rule.items.includes(typeof value === "string" ? value.trim() : formatValue(value));
  if (typeof value !== "number" || (rule.kind === "whole" && !Number.isInteger(value))) return false;
  const [low, high = low] = rule.bounds;
  const isBetween = value >= Math.min(low, high) && value <= Math.max(low, high);
  switch (rule.operator) {
    case "between":
      return isBetween;
    case "notBetween":
      return !isBetween;
    case "equal":
      return value === low;
    case "notEqual":
      return value !== low;
    case "greaterThan":
      return value > low;
    case "greaterThanOrEqual":
      return value >= low;
    case "lessThan":
      return value < low;
    case "lessThanOrEqual":
      return value <= low;
    default:
      return true;
  }
}

const operatorWords: Readonly<Record<string, string>> = {
  equal: "equal to",
  notEqual: "other than",
  greaterThan: "above",
  greaterThanOrEqual: "of at least",
  lessThan: "below",
  lessThanOrEqual: "of at most",
};

const mostItems = 12;

/** What a cell with this rule takes, in words. */
export function describeTaken(rule: InputRule): string {
  const says = rule.message === "" ? "" : sentence` ("${rule.message}")`;
  if (rule.kind === "list")
    return `one of ${formatList(
      rule.items.map((item) => shorten(item)),
      mostItems,
    )}${says}`;
  const [low, high] = rule.bounds;
  const noun = rule.kind === "whole" ? "a whole number" : "a number";
  if (rule.operator === "between") return `${noun} from ${low} to ${high}${says}`;
  if (rule.operator === "notBetween") return `${noun} outside ${low} to ${high}${says}`;
  return `${noun} ${operatorWords[rule.operator] ?? rule.operator} ${low}${says}`;
}
