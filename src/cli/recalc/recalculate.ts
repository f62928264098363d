import {
  type AddInCall,
  type AddInRegistry,
  type Book,
  buildCellKey,
  type CellPatch,
  type CellReader,
  type CellValue,
  compareWithStored,
  formatCount,
  findErrors,
  evaluateBook,
  type EvaluateOptions,
  type Evaluation,
  formatDateValue,
  formatFullAddress,
  reduceLimits,
  type OpenedWorkbook,
  openWorkbook,
  collectPatches,
  isSameValue,
  type Labels,
  readInputs,
  readLabels,
  readSummary,
  sentence,
  formatList,
  WorkbookProblem,
  type WorkLimits,
  writeBack,
} from "../../workbook/index";
import type { Change, Copy, NotEvaluated, RecalculatedReport } from "./report";
import type { Setting } from "./read-setting";
import { cautionStoredCalls } from "./stored-calls";
import { locateSettings, setCautions } from "./set-cells";

interface RecalculateOptions {
  readonly addIn: AddInRegistry;
  readonly blankAsZero: boolean;
  readonly settings: readonly Setting[];
  readonly overFormulas: boolean;
  /** Whether a copy was requested. */
  readonly copy: boolean;
  /** Whether a copy may keep the stored values of cells that could not be evaluated. */
  readonly keepOldValues: boolean;
  /** Whether a page was requested, which needs more than the report. */
  readonly page: boolean;
  /** The limits of the calculation; by default the usual ones. */
  readonly limits?: WorkLimits;
  /** Called before each longer step. */
  step(text: string, long: boolean): void;
}

/** Above this many formulas a step may take seconds, so it is announced. */
const manyFormulas = 20_000;

/** Intermediate results on the way to a workbook's report. */
export interface Recalculated {
  readonly opened: OpenedWorkbook;
  readonly evaluation: Evaluation;
  /** How it was evaluated, so that more can be evaluated the same way. */
  readonly evaluateOptions: EvaluateOptions;
  readonly set: readonly CellPatch[];
  /** Every call of an add-in function; none unless a page was requested. */
  readonly calls: readonly AddInCall[];
}

/** Opens, evaluates and compares one workbook. Throws WorkbookProblem or BadArgument. */
export function recalculate(
  file: string,
  bytes: Uint8Array,
  options: RecalculateOptions,
): RecalculatedReport & { readonly made?: Recalculated } {
  const { addIn, blankAsZero } = options;
  options.step(`${file}: reading`, bytes.length > 4_000_000);
  const opened = openWorkbook(bytes);
  const { book } = opened;
  const now = new Date();
  const count = countFormulas(book);
  options.step(`${file}: evaluating ${count} formula cells`, count > manyFormulas);
  const calls: AddInCall[] = [];
  const noted = options.page ? { calls } : {};
  const before = evaluateBook(book, {
    addIn,
    blankAsZero,
    now,
    ...(options.limits && { limits: options.limits }),
    ...noted,
  });
  const { isInput } = readInputs(opened);
  const labels = readLabels(book, before, isInput);
  const set = locateSettings(book, options.settings, options.overFormulas, labels, isInput);
  const limits = reduceLimits(before.work);
  const differences = compareWithStored(book, before);
  const changes = set.map((patch) => ({ ...patch, sheet: book.sheets[patch.sheet]?.name ?? "" }));
  const after =
    set.length === 0 ? before : evaluateBook(book, { addIn, blankAsZero, now, set: changes, limits, ...noted });
  const read = createReader(book, after, set);
  const notEvaluated = listNotEvaluated(after);
  const formulas = after.cells.filter(({ role }) => role === "formula");
  let report: RecalculatedReport & { readonly made?: Recalculated } = {
    file,
    status: notEvaluated.length > 0 ? "incomplete" : differences.length > 0 ? "different" : "equal",
    formulaCells: formulas.length,
    evaluatedCells: formulas.filter(({ outcome }) => outcome.evaluated).length,
    addIn: after.addIn,
    ...(after.work.exceeded.length > 0 && { work: after.work }),
    cautions: [
      ...opened.cautions,
      ...setCautions(opened, set, options.settings),
      ...cautionStoredCalls(after),
      ...cautionExternalValues(after),
    ],
    differences,
    errors: findErrors(book, after, set, (sheet, row, column) => read(sheet, row, column)?.value ?? null),
    notEvaluated,
    cycles: after.cycles,
    ...(set.length === 0
      ? {}
      : {
          settings: {
            set: set.map((patch) => changeOf(book, patch, labels)),
            changed: findChanges(book, before, after, labels),
            summary: readSummary(book, createReader(book, before, [])),
          },
        }),
    summary: readSummary(book, read),
  };
  if (options.page) {
    const evaluateOptions = { addIn, blankAsZero, now, set: changes, limits };
    const made: Recalculated = { opened, evaluation: after, evaluateOptions, set, calls };
    report = { ...report, made };
  }
  if (!options.copy) return report;
  if (notEvaluated.length > 0 && !options.keepOldValues)
    return { ...report, copy: { problem: describeUnknownCells(report) } };
  options.step(`${file}: writing the copy`, bytes.length > 4_000_000);
  const patches = collectPatches(book, after, differences, set.length === 0 ? undefined : { set, before });
  return { ...report, copy: copyWith(opened, patches) };
}

/** A copy with old results among new ones would look complete. */
function describeUnknownCells({ notEvaluated }: RecalculatedReport): string {
  const formulas = notEvaluated.filter(({ role }) => role === "formula").length;
  const first = notEvaluated.find(({ origin }) => origin === undefined) ?? notEvaluated[0];
  const named = first ? ` (the first: ${first.cell}: ${first.reason})` : "";
  return `${formatCount(formulas, "formula cell")} could not be evaluated${named}; --keep-old-values writes it with their stored values`;
}

function copyWith(opened: OpenedWorkbook, patches: readonly CellPatch[]): Copy {
  try {
    return { patches, bytes: writeBack(opened, patches) };
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return { problem: problem.message };
    throw problem;
  }
}

function countFormulas(book: Book): number {
  let count = 0;
  for (const { cells } of book.sheets) for (const { formula } of cells.values()) if (formula) count++;
  return count;
}

function listNotEvaluated(evaluation: Evaluation): NotEvaluated[] {
  return evaluation.cells.flatMap(({ address: cell, outcome, role }) => {
    if (outcome.evaluated) return [];
    const { reason, cause, origin } = outcome;
    return [{ cell, reason, cause, role, ...(origin !== undefined && { origin }) }];
  });
}

/** The formula cells whose result differs from before; if not evaluated before, it is compared with the stored value. */
function findChanges(book: Book, before: Evaluation, after: Evaluation, labels: Labels): Change[] {
  return after.cells.flatMap(({ sheet, row, column, address, outcome }) => {
    if (!outcome.evaluated) return [];
    const earlier = before.outcome(sheet, row, column);
    const old = earlier?.evaluated ? earlier.value : readStoredValue(book, sheet, row, column);
    if (isSameValue(old, outcome.value)) return [];
    const described = describeCell(book, labels, { sheet, row, column });
    return [{ cell: address, ...described, before: old, after: outcome.value }];
  });
}

/** What a person reads at a cell, asked for only where it is shown: long tables change in thousands of cells. */
function describeCell(
  book: Book,
  labels: Labels,
  { sheet, row, column }: Pick<CellPatch, "sheet" | "row" | "column">,
): Pick<Change, "label" | "formatDate"> {
  return {
    label: () => {
      const { text, unit } = labels.describeAt(sheet, row, column);
      return [text, unit].filter((part) => part !== "").join(", ");
    },
    formatDate: (value) => {
      const pattern = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.format ?? "General";
      return formatDateValue(value, pattern, book.date1904);
    },
  };
}

function changeOf(book: Book, { sheet, row, column, value }: CellPatch, labels: Labels): Change {
  const name = book.sheets[sheet]?.name ?? "";
  return {
    cell: formatFullAddress(name, row, column),
    ...describeCell(book, labels, { sheet, row, column }),
    before: readStoredValue(book, sheet, row, column),
    after: value,
  };
}

function readStoredValue(book: Book, sheet: number, row: number, column: number): CellValue {
  return book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;
}

function createReader(book: Book, evaluation: Evaluation, set: readonly CellPatch[]): CellReader {
  return (sheet, row, column) => {
    const format = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.format ?? "General";
    const given = set.find((patch) => patch.sheet === sheet && patch.row === row && patch.column === column);
    if (given) return { value: given.value, format };
    const outcome = evaluation.outcome(sheet, row, column);
    if (!outcome) return { value: readStoredValue(book, sheet, row, column), format };
    return outcome.evaluated ? { value: outcome.value, format } : undefined;
  };
}

/** Values of other workbooks are those that the file keeps, which may have changed since. */
function cautionExternalValues({ cells }: Evaluation): string[] {
  const reading = cells.filter(
    ({ externals, role, outcome }) => externals.length > 0 && role === "formula" && outcome.evaluated,
  );
  if (reading.length === 0) return [];
  const files = [...new Set(reading.flatMap(({ externals }) => externals))].map((file) => sentence`${file}`);
  const addresses = reading.map(({ address }) => address);
  return [
    `${formatCount(reading.length, "cell")} (${formatList(addresses, 4)}) read other workbooks (${formatList(files, 4)}): their values are those that this file kept when it was saved`,
  ];
}
