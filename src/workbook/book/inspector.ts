import { AddInCalls, type AddInRegistry } from "../formula/calls/add-in";
import type { Evaluation } from "../formula/evaluation";
import { ordinaryFunctions } from "../formula/functions/index";
import { largestFill } from "../formula/grid/sheet-grid";
import type { Slot } from "../formula/grid/slot";
import type { Grid } from "../formula/grid/grid";
import { Interpreter } from "../formula/interpreter";
import { parseFormula } from "../formula/parse/parse";
import { collectDescendants, type Node, type Parsed } from "../formula/parse/syntax";
import type { Frame } from "../formula/references/frame";
import { resolveTable } from "../formula/references/table-reference";
import { NotEvaluated } from "../formula/values/refusal";
import { Matrix, Reference, type Scalar } from "../formula/values/value";
import { reduceLimits, Work } from "../formula/work-limits";
import { type Area, type Book, type Cell, buildCellKey, type CellValue, placeOfKey } from "../model";
import { formatFullAddress, formatSheetArea } from "./address";
import { clipArea, isInside, listPlaces, type Place, placeKey, type SheetArea, sizeOf } from "./area";
import { Dependence } from "./dependence";
import { findCellState, type CellState, createEvaluatedGrid } from "./evaluated-grid";
import { Labels } from "./labels";
import { type BookFormulas, buildFormulaPattern, recallFormulas, parseCellFormula } from "./formulas";

/** The most array cells noted individually. */
const mostOwned = 1_000_000;

const computesPlaces = ["OFFSET", "INDIRECT"];

/** A cell that gives a text, without the spaces around it. */
interface TextCell {
  readonly place: Place;
  readonly text: string;
}

/** An evaluated book: what each cell holds and gives, what its formula reads, which formula fills it, and the values of parts of formulas. */
export class Inspector {
  private readonly formulas: BookFormulas;
  private readonly owners = new Map<number, Place>();
  /** Arrays over more cells than are noted individually. */
  private readonly wideArrays: { readonly area: SheetArea; readonly place: Place }[] = [];
  private readonly read = new Map<number, readonly SheetArea[]>();
  private readonly used = new Map<number, { readonly bottom: number; readonly right: number }>();
  private readonly work: Work;
  private formulaPlaces: readonly Place[] | undefined;
  private textCells: readonly TextCell[] | undefined;
  private spills: ReadonlyMap<string, Area> | undefined;
  private readonly dependence = new Dependence(this);
  private ownersNoted = false;
  private evaluated: Grid | undefined;
  private calculator: Interpreter | undefined;
  private labelFinder: Labels | undefined;

  constructor(
    readonly book: Book,
    readonly evaluation: Evaluation,
    private readonly addIn: AddInRegistry,
    readonly now: Date | undefined,
  ) {
    this.formulas = recallFormulas(book);
    this.work = new Work(reduceLimits(evaluation.work));
  }

  private noteOwners(): void {
    this.ownersNoted = true;
    const filled = this.evaluation.cells.filter(({ role }) => role === "filled");
    const wanted = new Set(filled.map(({ source }) => source));
    const sources = new Map<string, Place>();
    for (const cell of this.evaluation.cells) if (wanted.has(cell.address)) sources.set(cell.address, cell);
    for (const cell of filled) {
      const source = sources.get(cell.source);
      if (source) this.owners.set(placeKey(cell), source);
    }
    for (const place of this.listFormulaPlaces()) {
      const array = this.findCell(place)?.formula?.array;
      if (!array) continue;
      const area = { sheet: place.sheet, ...array };
      const count = sizeOf(area);
      if (count > largestFill || this.owners.size + count > mostOwned) this.wideArrays.push({ area, place });
      else for (const filled of listPlaces(area)) this.adopt(filled, place);
    }
  }

  private adopt(filled: Place, owner: Place): void {
    const key = placeKey(filled);
    if (key !== placeKey(owner) && !this.owners.has(key)) this.owners.set(key, owner);
  }

  listFormulaPlaces(): readonly Place[] {
    return (this.formulaPlaces ??= this.book.sheets.flatMap(({ cells }, sheet) =>
      [...cells.values()].flatMap(({ row, column, formula }) => (formula ? [{ sheet, row, column }] : [])),
    ));
  }

  /** Every cell stored in the file that gives a text. */
  listTexts(): readonly TextCell[] {
    return (this.textCells ??= this.book.sheets.flatMap(({ cells }, sheet) =>
      [...cells.values()].flatMap(({ row, column }) => {
        const place = { sheet, row, column };
        const text = this.readText(place);
        return text === "" ? [] : [{ place, text }];
      }),
    ));
  }

  findCell({ sheet, row, column }: Place): Cell | undefined {
    return this.book.sheets[sheet]?.cells.get(buildCellKey(row, column));
  }

  /** What the cell gives now: the computed value if it has a formula, otherwise the stored one. */
  readValue(place: Place): CellValue {
    const outcome = this.evaluation.outcome(place.sheet, place.row, place.column);
    return outcome?.evaluated ? outcome.value : (this.findCell(place)?.value ?? null);
  }

  readNumber(place: Place): number | undefined {
    const value = this.readValue(place);
    return typeof value === "number" ? value : undefined;
  }

  readText(place: Place): string {
    const value = this.readValue(place);
    return typeof value === "string" ? value.trim() : "";
  }

  /** The cells that the dynamic array in a cell fills. */
  findSpill(place: Place): Area | undefined {
    this.spills ??= new Map(this.evaluation.spills.map(({ address, area }) => [address, area]));
    return this.spills.size === 0 ? undefined : this.spills.get(this.formatAddress(place));
  }

  /** The formula that fills a cell from elsewhere, undefined for any other cell. */
  findOwner(place: Place): Place | undefined {
    if (!this.ownersNoted) this.noteOwners();
    const owner = this.owners.get(placeKey(place));
    if (owner || this.wideArrays.length === 0) return owner;
    const { sheet, row, column } = place;
    const wide = this.wideArrays.find(({ area }) => area.sheet === sheet && isInside(area, row, column));
    return wide && placeKey(wide.place) !== placeKey(place) ? wide.place : undefined;
  }

  /** A cell with a typed value: neither a formula nor filled by one. */
  isTyped(place: Place): boolean {
    const cell = this.findCell(place);
    return cell !== undefined && cell.value !== null && !cell.formula && !this.findOwner(place);
  }

  parseFormulaAt(place: Place): Parsed | undefined {
    const formula = this.findCell(place)?.formula;
    return formula && parseCellFormula(formula, place);
  }

  /** The formula relative to its cell, shared by copies along a column. */
  findPattern(place: Place): string | undefined {
    const formula = this.findCell(place)?.formula;
    return formula && buildFormulaPattern(formula, place);
  }

  /** What the formula in a cell, or the one that fills it, reads. */
  listPrecedents(place: Place): readonly SheetArea[] {
    const source = this.findOwner(place) ?? place;
    const key = placeKey(source);
    let found = this.read.get(key);
    if (!found) {
      const parsed = this.parseFormulaAt(source);
      const areas: SheetArea[] = [];
      for (const node of parsed?.precedents ?? []) areas.push(...this.resolveNode(node, source));
      if (parsed && computesPlaces.some((name) => parsed.functions.has(name)))
        areas.push(...this.listComputedPlaces(parsed.root, source));
      this.read.set(key, (found = areas));
    }
    return found;
  }

  /** Every cell that the given areas depend on, at any remove, themselves included; what the cells of `asFarAs` in turn depend on is left out. */
  findUpstream(areas: readonly SheetArea[], asFarAs?: ReadonlySet<number>): ReadonlyMap<number, Place> {
    return this.dependence.findUpstream(areas, asFarAs);
  }

  /** Whether the given areas depend on any of some cells, at any remove. */
  dependsOn(areas: readonly SheetArea[], cells: ReadonlySet<number>): boolean {
    return this.dependence.dependsOn(areas, cells);
  }

  /** What OFFSET and INDIRECT currently refer to. */
  private listComputedPlaces(root: Node, place: Place): SheetArea[] {
    const moves = (node: Node): boolean => node.type === "call" && (node.name === "OFFSET" || node.name === "INDIRECT");
    return collectDescendants(root, (node) => !moves(node)).flatMap((node) =>
      moves(node) ? this.findMovedAreas(node, place) : [],
    );
  }

  /** The areas a reference, or a name at any remove, refers to at a place. */
  resolveNode(node: Node, place: Place): readonly SheetArea[] {
    // Most are plain references.
    if (node.type === "area") return this.formulas.resolveAreas(node, place);
    const found: SheetArea[] = [];
    const meanings = new Set<Parsed>();
    const note = (one: Node): void => {
      if (one.type === "area") found.push(...this.formulas.resolveAreas(one, place));
      else if (one.type === "table") found.push(...this.resolveTableAreas(one, place));
      const meant = one.type === "name" ? this.formulas.resolveName(one, place) : undefined;
      if (meant) meanings.add(meant);
    };
    note(node);
    // Names within names, each once, since they may refer to each other.
    for (const { precedents } of meanings) for (const inner of precedents) note(inner);
    return found;
  }

  /** The areas a computed range currently refers to: OFFSET, A1:INDEX(…), or a name for one; empty if it cannot be resolved. */
  findMovedAreas(node: Node, place: Place): SheetArea[] {
    const value = this.tryEvaluation((frame) => this.interpreter.evaluate(node, frame, "array"), place);
    return listAreas(value);
  }

  /** The values of a part of a formula by itself, row by row; undefined if it cannot be evaluated. */
  evaluateNode(node: Node, place: Place): readonly Scalar[] | undefined {
    const found = this.tryEvaluation((frame) => this.interpreter.evaluateOperand(node, frame, "array"), place);
    return found instanceof Matrix ? found.values : found === undefined ? undefined : [found];
  }

  /** Evaluates a part of a formula by itself within the evaluation's remaining limits; undefined if that is not possible. */
  tryEvaluation<T>(evaluate: (frame: Frame) => T, { sheet, row, column }: Place): T | undefined {
    try {
      this.work.startFormula();
      return this.work.measureWork(() =>
        evaluate({ sheet, row, column, kind: "dynamic", scope: undefined, now: this.now }),
      );
    } catch (problem) {
      // What cannot be evaluated, for instance because of deep nesting, is reported at its own cell.
      if (problem instanceof NotEvaluated || problem instanceof RangeError) return undefined;
      throw problem;
    }
  }

  /** The cells with every result in place. */
  get grid(): Grid {
    return (this.evaluated ??= createEvaluatedGrid(this.book, this.evaluation));
  }

  /** Evaluates parts of formulas with the book's present values. */
  get interpreter(): Interpreter {
    const { names, sheetNames } = this.formulas;
    return (this.calculator ??= new Interpreter({
      grid: this.grid,
      sheetNames,
      names,
      functions: ordinaryFunctions,
      addIn: new AddInCalls(this.addIn, null),
    }));
  }

  /** Finds the words that belong to a cell. */
  get labels(): Labels {
    return (this.labelFinder ??= this.createLabels());
  }

  /** The same with the knowledge of which cells are for typing into. */
  createLabels(isInput?: (sheet: number, row: number, column: number) => boolean): Labels {
    const look = (sheet: number, row: number, column: number) => {
      const outcome = this.evaluation.outcome(sheet, row, column);
      const cell = this.findCell({ sheet, row, column });
      const value = outcome ? (outcome.evaluated ? outcome.value : null) : (cell?.value ?? null);
      return { value, typed: value !== null && !cell?.formula };
    };
    return new Labels(this.book, look, isInput);
  }

  /** Whether a cell has a formula, is filled by one, was typed in or is blank, and what it gives. */
  state({ sheet, row, column }: Place): CellState {
    return findCellState(this.grid, this.evaluation, sheet, row, column);
  }

  /** The slot of a formula cell in the evaluated grid. */
  createSlot({ sheet, row, column }: Place): Slot {
    return this.grid.findSlot(sheet, row, column) as Slot;
  }

  /** The cells of an area that hold or give something, row by row, filled ones included. */
  listFilledCells(area: SheetArea): Place[] {
    const keys = this.grid.sheets[area.sheet]?.listKeys(area) ?? [];
    return keys
      .map((key) => ({ sheet: area.sheet, ...placeOfKey(key) }))
      .filter((cell) => this.state(cell).kind !== "blank");
  }

  /** What a name refers to. */
  resolveName(name: string, sheet: string, place: Place): Node | undefined {
    return this.formulas.resolveName({ type: "name", name, sheet }, place)?.root;
  }

  private resolveTableAreas(node: Node & { type: "table" }, place: Place): SheetArea[] {
    try {
      return listAreas(resolveTable(node, place, this.book));
    } catch {
      // A table reference that cannot be resolved is reported when its cell is evaluated.
      return [];
    }
  }

  /** The area of a defined name, if it is one. */
  findNamedArea(text: string, sheet = 0): SheetArea | undefined {
    const corner = { sheet, row: 0, column: 0 };
    const areas = this.resolveNode(parseFormula(text, 0, 0).root, corner);
    return areas.length === 1 ? areas[0] : undefined;
  }

  formatAddress(place: Place): string {
    return formatFullAddress(this.book.sheets[place.sheet]?.name ?? "", place.row, place.column);
  }

  formatArea(area: SheetArea): string {
    return formatSheetArea(area, this.book.sheets[area.sheet]?.name ?? "");
  }

  /** Every place of an area, row by row, within the used part of its sheet. */
  listUsedPlaces(area: SheetArea): Place[] {
    const { bottom, right } = this.measureUsedPart(area.sheet);
    return [...listPlaces(clipArea(area, bottom, right))];
  }

  private measureUsedPart(sheet: number): { readonly bottom: number; readonly right: number } {
    let used = this.used.get(sheet);
    if (!used) {
      let [bottom, right] = [-1, -1];
      const include = ({ row, column }: { readonly row: number; readonly column: number }): void => {
        bottom = Math.max(bottom, row);
        right = Math.max(right, column);
      };
      for (const cell of this.book.sheets[sheet]?.cells.values() ?? []) include(cell);
      for (const cell of this.evaluation.cells) if (cell.sheet === sheet) include(cell);
      this.used.set(sheet, (used = { bottom, right }));
    }
    return used;
  }

  /** The cells of an area stored in the file; a whole column costs no more than the sheet's cells. */
  listCells(area: SheetArea): Place[] {
    const { sheet, top, left, bottom, right } = area;
    const cells = this.book.sheets[sheet]?.cells;
    if (!cells) return [];
    if (sizeOf(area) <= cells.size) {
      const found: Place[] = [];
      for (let row = top; row <= bottom; row++)
        for (let column = left; column <= right; column++)
          if (cells.has(buildCellKey(row, column))) found.push({ sheet, row, column });
      return found;
    }
    return [...cells.values()]
      .filter(({ row, column }) => row >= top && row <= bottom && column >= left && column <= right)
      .map(({ row, column }) => ({ sheet, row, column }));
  }
}

function listAreas(found: unknown): SheetArea[] {
  return found instanceof Reference ? [...found.areas] : [];
}

/** The words that a sheet has for its cells, read from an evaluated book of which is known what is typed into. */
export const readLabels = (
  book: Book,
  evaluation: Evaluation,
  isInput: (sheet: number, row: number, column: number) => boolean,
): Labels => new Inspector(book, evaluation, new Map(), undefined).createLabels(isInput);
