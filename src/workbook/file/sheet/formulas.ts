import { stringifyTokens, type Token, tokenize, translateTokensToA1, translateTokensToR1C1 } from "@borgar/fx/xlsx";
import { formatCellAddress, parseArea } from "../../book/address";
import { findRefusal } from "../../formula/parse/formula-text";
import type { Area, Cell, Formula } from "../../model";
import { limits } from "../limits";
import { sentence, WorkbookProblem } from "../problem";
import { decodeText } from "../xml/text";

/** A cell's <f> element: its attributes, its text, and whether the cell is marked as a dynamic array. */
interface FormulaElement {
  readonly row: number;
  readonly column: number;
  readonly attributes: Record<string, string>;
  readonly text: string;
  readonly dynamic: boolean;
}

/** Makes formulas of one sheet's <f> elements, shared ones expanded (ECMA-376 part 1, 18.3.1.40). */
export class FormulaReader {
  private readonly shared = new Map<string, SharedFormula>();

  constructor(
    /** Counts the characters of all sheets, since a long formula shared by many cells would exhaust memory. */
    private readonly counter: { formulaLength: number },
    private readonly problem: (what: string) => Error,
  ) {}

  /** Undefined for an empty element, which is not a formula. */
  read(element: FormulaElement): Formula | undefined {
    const formula = this.readFormula(element);
    this.counter.formulaLength += formula?.text.length ?? 0;
    if (this.counter.formulaLength > limits.formulaLength) {
      throw new WorkbookProblem(
        "too large",
        `the workbook's formulas have more than ${limits.formulaLength} characters`,
      );
    }
    return formula;
  }

  private readFormula({ row, column, attributes, text: written, dynamic }: FormulaElement): Formula | undefined {
    const text = decodeText(written.startsWith("=") ? written.slice(1) : written);
    const { t: type = "normal", ref = "" } = attributes;
    const area = parseArea(ref);
    switch (type) {
      case "shared":
        return { text: this.resolveSharedText(attributes["si"] ?? "", text, row, column) };
      case "array":
        if (!area) throw this.problem("has an array formula without a range");
        if (area.top !== row || area.left !== column)
          throw this.problem(sentence`has an array formula for ${ref}, which does not begin at it`);
        return dynamic ? { text, array: area, dynamic } : { text, array: area };
      case "dataTable":
        return area ? { text, array: area, dataTable: true } : { text, dataTable: true };
      case "normal":
        if (text === "") return undefined;
        return dynamic ? { text, dynamic } : { text };
      default:
        throw this.problem(sentence`has a formula of the unknown type "${type}"`);
    }
  }

  private resolveSharedText(index: string, text: string, row: number, column: number): string {
    if (text !== "") this.shared.set(index, new SharedFormula(text, row, column));
    const shared = this.shared.get(index);
    if (!shared) throw this.problem(sentence`uses the shared formula ${index}, but nothing before it defines one`);
    return text === "" ? shared.translateTo(row, column) : text;
  }
}

/** A formula stored once and used by a block of cells, with shifting references (ECMA-376 part 1, 18.3.1.40, t="shared"). */
export class SharedFormula {
  private relative: Token[] | undefined;

  constructor(
    private readonly text: string,
    private readonly row: number,
    private readonly column: number,
  ) {}

  /** The formula as seen from the given cell. */
  translateTo(row: number, column: number): string {
    // A formula that is not read is not shifted either.
    if (findRefusal(this.text) !== undefined) return this.text;
    this.relative ??= translateTokensToR1C1(tokenize(this.text), formatCellAddress(this.row, this.column));
    return stringifyTokens(translateTokensToA1(this.relative, formatCellAddress(row, column)));
  }
}

/** A formula's own cell, and the cells it fills. */
interface Filled {
  readonly cell: Cell;
  readonly area: Area;
}

/** Two formulas that fill one cell, at least one of them an array formula, which no spreadsheet allows. Undefined if there are none. */
export function findOverlappingFormulas(cells: ReadonlyMap<number, Cell>): readonly [Cell, Cell] | undefined {
  const arrays: Filled[] = [];
  for (const cell of cells.values()) {
    const area = cell.formula?.array;
    if (area && !isOneCell(area)) arrays.push({ cell, area });
  }
  if (arrays.length === 0) return undefined;

  const singles: Filled[] = [];
  for (const cell of cells.values()) {
    if (!cell.formula) continue;
    const { row, column } = cell;
    const area = cell.formula.array ?? { top: row, left: column, bottom: row, right: column };
    if (isOneCell(area)) singles.push({ cell, area });
  }
  const byStart = [...arrays, ...singles].sort((one, other) => one.area.top - other.area.top);
  const byEnd = [...arrays].sort((one, other) => one.area.bottom - other.area.bottom);
  // Going down, the arrays reaching the current row, from left to right; as they do not overlap, there are fewer than columns.
  const reaching: Filled[] = [];
  let ended = 0;
  for (const next of byStart) {
    for (let past = byEnd[ended]; past && past.area.bottom < next.area.top; past = byEnd[++ended])
      reaching.splice(placeOf(past, reaching), 1);
    const place = placeOf(next, reaching);
    const [before, after] = [reaching[place - 1], reaching[place]];
    if (before && before.area.right >= next.area.left) return [before.cell, next.cell];
    if (after && after.area.left <= next.area.right) return [after.cell, next.cell];
    if (!isOneCell(next.area)) reaching.splice(place, 0, next);
  }
  return undefined;
}

const isOneCell = ({ top, left, bottom, right }: Area): boolean => top === bottom && left === right;

/** The index of the first area that begins at the given one's left edge or to the right of it. */
function placeOf({ area }: Filled, sorted: readonly Filled[]): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((sorted[middle] as Filled).area.left < area.left) from = middle + 1;
    else to = middle;
  }
  return from;
}
