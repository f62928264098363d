import {
  buildCellKey,
  type Book,
  type Cell,
  type CellChange,
  type CellValue,
  isSameValue,
  showFormula,
} from "../../workbook/index";
import type { CellPlace, ComparisonAnswer, Step, Turn } from "./answers";
import { type Desktop, evaluateDesktop, formatPlace, labelCell, showValue } from "./opened";
import { compareVerdicts, describeVerdicts } from "./verdicts";

/** A cell in both versions, by sheet name and address; undefined where a version has no such cell. */
interface Pair {
  readonly before: CellPlace;
  readonly after: CellPlace;
  readonly earlier: Cell | undefined;
  readonly later: Cell | undefined;
}

/** What differs between an earlier and a later version of a workbook: what was typed, the formulas, and what they give. */
export function compareVersions(before: Desktop, after: Desktop): ComparisonAnswer {
  const nameOf = ({ name }: { readonly name: string }): string => name;
  const [earlier, later] = [before.book.sheets.map(nameOf), after.book.sheets.map(nameOf)];
  const pairs = pairCells(before.book, after.book);
  return {
    inputs: pairs
      .filter(({ earlier: one, later: other }) => !one?.formula && !other?.formula)
      .flatMap((pair) => compareTyped(before, after, pair)),
    formulas: pairs.flatMap((pair) => compareFormulas(before, after, pair)),
    results: pairs.flatMap((pair) => compareResults(before, after, pair)),
    verdicts: compareVerdicts(before, after).filter((step) => step.before !== step.after),
    onlyBefore: earlier.filter((name) => !later.includes(name)),
    onlyAfter: later.filter((name) => !earlier.includes(name)),
  };
}

function pairCells(before: Book, after: Book): Pair[] {
  return before.sheets.flatMap(({ name, cells }, sheet) => {
    const other = after.sheets.findIndex((one) => one.name === name);
    if (other < 0) return [];
    const theirs = after.sheets[other]?.cells ?? new Map<number, Cell>();
    const keys = [...new Set([...cells.keys(), ...theirs.keys()])].sort((one, another) => one - another);
    return keys.flatMap((key): Pair[] => {
      const [earlier, later] = [cells.get(key), theirs.get(key)];
      const { row, column } = (earlier ?? later)!;
      return [{ before: { sheet, row, column }, after: { sheet: other, row, column }, earlier, later }];
    });
  });
}

function compareTyped(before: Desktop, after: Desktop, { before: place, after: there, earlier, later }: Pair): Step[] {
  const [one, other] = [earlier?.value ?? null, later?.value ?? null];
  if (isSameValue(one, other)) return [];
  // A cell that a formula fills from elsewhere is a result.
  if (before.view.findOwner(place) || after.view.findOwner(there)) return [];
  return [describeStep(before, place, showValue(before.book, place, one), showValue(after.book, there, other))];
}

function compareFormulas(
  before: Desktop,
  after: Desktop,
  { before: place, after: there, earlier, later }: Pair,
): Step[] {
  const [one, other] = [earlier?.formula?.text, later?.formula?.text];
  if (one === other) return [];
  return [describeStep(before, place, showContent(before, place, earlier), showContent(after, there, later))];
}

function showContent({ book }: Desktop, place: CellPlace, cell: Cell | undefined): string {
  return cell?.formula ? showFormula(cell.formula.text) : showValue(book, place, cell?.value ?? null);
}

function compareResults(
  before: Desktop,
  after: Desktop,
  { before: place, after: there, earlier, later }: Pair,
): Step[] {
  if (!earlier?.formula || !later?.formula) return [];
  const [one, other] = [before.view.readValue(place), after.view.readValue(there)];
  if (isSameValue(one, other)) return [];
  return [describeStep(before, place, showValue(before.book, place, one), showValue(after.book, there, other))];
}

function describeStep(desktop: Desktop, place: CellPlace, before: string, after: string): Step {
  return { address: formatPlace(desktop, place), label: labelCell(desktop, place).label, before, after };
}

/** The differences between two versions, each tried alone in the earlier one. */
export interface TurnSearch {
  readonly count: number;
  /** The verdicts of the earlier version with one of the differences. */
  readonly tryOne: (index: number) => Turn;
}

export function prepareTurns(before: Desktop, after: Desktop): TurnSearch {
  const usual = listWords(before);
  const pairs = pairCells(before.book, after.book).filter((pair) => isTried(before, after, pair));
  return {
    count: pairs.length,
    tryOne(index) {
      const pair = pairs[index];
      if (!pair) throw new RangeError(`no difference ${index}`);
      const { before: place, after: there, earlier, later } = pair;
      const words = listWords(withLater(before, pair));
      const step = describeStep(before, place, showContent(before, place, earlier), showContent(after, there, later));
      return { ...step, words, turns: words !== usual };
    },
  };
}

function isTried(before: Desktop, after: Desktop, pair: Pair): boolean {
  return (
    compareFormulas(before, after, pair).length > 0 ||
    (!pair.earlier?.formula && compareTyped(before, after, pair).length > 0)
  );
}

const listWords = (desktop: Desktop): string =>
  describeVerdicts(desktop)
    .map(({ word }) => word)
    .join(", ");

function withLater(before: Desktop, { before: place, earlier, later }: Pair): Desktop {
  const { book } = before;
  const value: CellValue = later?.value ?? null;
  if (!earlier?.formula && !later?.formula) {
    const change: CellChange = {
      sheet: book.sheets[place.sheet]?.name ?? "",
      row: place.row,
      column: place.column,
      value,
    };
    return evaluateDesktop(before, [change]);
  }
  const sheets = book.sheets.map((sheet, index) => {
    if (index !== place.sheet) return sheet;
    const cells = new Map(sheet.cells);
    const key = buildCellKey(place.row, place.column);
    if (later) cells.set(key, later);
    else cells.delete(key);
    return { ...sheet, cells };
  });
  return evaluateDesktop({ ...before, book: { ...book, sheets } }, []);
}
