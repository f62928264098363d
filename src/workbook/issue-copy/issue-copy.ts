import { formatFullAddress } from "../book/address";
import type { AddInRegistry } from "../formula/calls/add-in";
import { compareWithStored, type Evaluation } from "../formula/evaluation";
import { evaluateBook } from "../formula/evaluate";
import { buildCellKey, ErrorValue, type Book } from "../model";
import { formatCount, formatList } from "../formatting";
import type { CellPatch } from "../file/write/cell-edits";
import { openWorkbook, type OpenedWorkbook } from "../file/open";
import { WorkbookProblem } from "../file/problem";
import { writeCopy } from "../file/write/write-back";
import { addSheet, findFreeSheetName } from "../added-sheet/add-sheet";
import { chooseClientView, type ClientView, showSheet, showSheets } from "./client-view";
import { computeFingerprint, createFingerprint } from "./fingerprint";
import { findFrozenCells, type FrozenCell } from "./frozen-cells";
import { listLines } from "./formula-list";
import { listSheet, locateLists, type ListLine, type Stamp } from "./list-sheet";
import { withAddedStyles, type Look } from "../added-sheet/styles";
import { formulasName, markName, readIssueMark, type IssueMark } from "./mark";

export interface IssueOptions {
  readonly addIn: AddInRegistry;
  readonly methodVersion: string;
  /** Day of issue, yyyy-mm-dd. */
  readonly issued: string;
  readonly now: Date;
  /** Cells that cannot be evaluated keep their stored values. */
  readonly keepOldValues: boolean;
  /** Working papers are shown and printed too. */
  readonly whole: boolean;
}

/** Why no copy can be issued, with the cells concerned. */
export interface IssueRefusal {
  readonly reason: "already issued" | "nothing to freeze" | "not evaluated" | "stored values differ" | "shows #NAME?";
  readonly cells: readonly string[];
}

/** Why no copy was issued, in words; what a person can do about a reason depends on where they are. */
export function explainRefusal(
  { reason, cells }: IssueRefusal,
  remedies: Readonly<Partial<Record<IssueRefusal["reason"], string>>>,
): string {
  const named = formatList(cells, mostNamed);
  const told = {
    "already issued": "this is already an issue copy; issue the workbook it was made from",
    "nothing to freeze": "no cell of this workbook needs the add-in",
    "not evaluated": `${formatCount(cells.length, "cell")} could not be evaluated (${named})`,
    "stored values differ": `${formatCount(cells.length, "stored value")} differ from what the formulas give (${named})`,
    "shows #NAME?": `the stored value is #NAME?, for lack of the add-in, in ${named}`,
  }[reason];
  const remedy = remedies[reason];
  return remedy === undefined ? told : `${told}; ${remedy}`;
}

const mostNamed = 8;

/** A day of issue: the local date. */
export function formatDayOfIssue(moment: Date): string {
  const padToTwo = (number: number): string => String(number).padStart(2, "0");
  return `${moment.getFullYear()}-${padToTwo(moment.getMonth() + 1)}-${padToTwo(moment.getDate())}`;
}

export interface Issued {
  readonly bytes: Uint8Array;
  readonly sheetName: string;
  readonly mark: IssueMark;
  /** Formulas that stay live. */
  readonly liveFormulas: number;
  readonly hiddenSheets: readonly string[];
}

/**
 * The copy for someone without the add-in: formulas that need it become values, and an added sheet lists the formulas, the method
 * version and a fingerprint. Everything else is unchanged. A copy is made only if every stored value is what its formula gives now.
 */
export function issueCopy(opened: OpenedWorkbook, options: IssueOptions): Issued | IssueRefusal {
  const { book } = opened;
  if (readIssueMark(book)) return { reason: "already issued", cells: [] };
  const frozen = findFrozenCells(book);
  if (frozen.length === 0) return { reason: "nothing to freeze", cells: [] };
  const evaluation = evaluateBook(book, { addIn: options.addIn, now: options.now });
  const refusal = findRefusal(book, evaluation, frozen, options);
  if (refusal) return refusal;

  const sheetName = findFreeSheetName(book, "Frozen formulas");
  const lines = listLines(book, frozen);
  const view = chooseClientView(book, options.whole);
  const write = (made: { readonly fingerprint: string; readonly edge: number }): Uint8Array =>
    writeFrozen(opened, evaluation, frozen, { lines, sheetName, stamp: { ...options, ...made }, view });
  // The fingerprint does not cover the cells that hold it.
  const draft = openWorkbook(write({ fingerprint: "0".repeat(64), edge: 0 })).book;
  const draftMark = readIssueMark(draft);
  if (!draftMark) throw createUnreadable();
  const bytes = write(createFingerprint(draft, draftMark));
  const issued = openWorkbook(bytes).book;
  const mark = readIssueMark(issued);
  const isSound = mark?.formulas.length === frozen.length && computeFingerprint(issued) === mark.fingerprint;
  if (!isSound || findFrozenCells(issued).length > 0) throw createUnreadable();
  return { bytes, sheetName, mark, liveFormulas: countFormulas(issued), hiddenSheets: view?.hiddenSheets ?? [] };
}

const createUnreadable = (): WorkbookProblem =>
  new WorkbookProblem("cannot write", "the issue copy failed its read-back check and was not written");

function findRefusal(
  book: Book,
  evaluation: Evaluation,
  frozen: readonly FrozenCell[],
  { keepOldValues }: IssueOptions,
): IssueRefusal | undefined {
  const unknown = evaluation.cells.flatMap(({ address, outcome }) =>
    outcome.evaluated ? [] : [`${address}: ${outcome.reason}`],
  );
  if (unknown.length > 0 && !keepOldValues) return { reason: "not evaluated", cells: unknown };
  const different = compareWithStored(book, evaluation).map(({ address }) => address);
  if (different.length > 0) return { reason: "stored values differ", cells: different };
  const nameless = frozen.flatMap(({ sheet, row, column, value }) =>
    value instanceof ErrorValue && value.code === "#NAME?"
      ? [formatFullAddress(book.sheets[sheet]?.name ?? "", row, column)]
      : [],
  );
  return nameless.length > 0 ? { reason: "shows #NAME?", cells: nameless } : undefined;
}

interface ListParts {
  readonly lines: readonly ListLine[];
  readonly sheetName: string;
  readonly stamp: Stamp;
  readonly view: ClientView | undefined;
}

function writeFrozen(
  opened: OpenedWorkbook,
  evaluation: Evaluation,
  frozen: readonly FrozenCell[],
  { lines, sheetName, stamp, view }: ListParts,
): Uint8Array {
  const places = locateLists(lines.length);
  let style: (look: Look) => number = () => 0;
  const parts = addSheet(opened, {
    name: sheetName,
    editWorkbook: (text, root) => (view ? showSheets(text, root, view) : []),
    names: [
      { name: markName, reference: places.mark, ofSheet: false },
      { name: formulasName, reference: places.list, ofSheet: false },
      { name: "_xlnm.Print_Area", reference: view?.isPartial ? places.head : places.print, ofSheet: true },
      { name: "_xlnm.Print_Titles", reference: places.titles, ofSheet: true },
    ],
    styles: (partName, text) => {
      const styled = withAddedStyles(partName, text);
      ({ style } = styled);
      return styled.text;
    },
    content: (namespace) => listSheet(stamp, lines, frozen.length, style, namespace),
  });
  return writeCopy(
    opened,
    frozen.flatMap((cell) => listPatches(opened.book, evaluation, cell)),
    view ? { ...parts, changeSheet: (part, text, sheet) => showSheet(part, text, sheet, view) } : parts,
  );
}

/**
 * The cell and all that its formula fills become plain values. An empty text stays one: a blank cell would count differently in the
 * remaining formulas.
 */
function listPatches(book: Book, evaluation: Evaluation, { sheet, area }: FrozenCell): CellPatch[] {
  const patches: CellPatch[] = [];
  for (let row = area.top; row <= area.bottom; row += 1)
    for (let column = area.left; column <= area.right; column += 1) {
      const outcome = evaluation.outcome(sheet, row, column);
      const computed = outcome?.evaluated ? outcome.value : null;
      const value = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? computed;
      if (value !== null) patches.push({ sheet, row, column, value, freeze: true });
    }
  return patches;
}

function countFormulas({ sheets }: Book): number {
  let count = 0;
  for (const { cells } of sheets) for (const { formula } of cells.values()) if (formula) count += 1;
  return count;
}
