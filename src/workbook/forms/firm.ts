import { areaOf, columnsOf, listPlaces, type Place, rowsOf, type SheetArea } from "../book/area";
import { formatSheetArea } from "../book/address";
import { recallFormulas } from "../book/formulas";
import { readInputs } from "../file/input-rules";
import type { OpenedWorkbook } from "../file/open";
import { sentence, WorkbookProblem } from "../file/problem";
import type { CellPatch } from "../file/write/cell-edits";
import { type Book, type Cell, buildCellKey, type CellValue, ErrorValue } from "../model";

/** The names under which a form keeps what belongs to the firm and stays from job to job. */
const firmNames = [
  "Firm",
  "TradeLine",
  "FirmAddress",
  "FirmContact",
  "Instruments",
  "Openings",
  "CalibrationDensity",
  "DeviceUncertainty",
  "GaugeUncertainty",
  "RepeatUncertainty",
] as const;

/** The unit system of the instruments: "SI" or "IP". */
const firmUnitsName = "FirmUnits";

/**
 * What a form takes over from another workbook of the same firm, a filled form or one of which only the firm's part is filled: the inputs under the firm's
 * names that both have. Throws WorkbookProblem if that workbook names no firm, or if a part does not fit the form's.
 */
export function takeFirm(form: OpenedWorkbook, firm: Book): CellPatch[] {
  const name = findNamed(firm, "Firm");
  if (!name || readFirst(firm, name) === null)
    throw notFitting("no firm is named in it: it needs a form's cell named Firm, filled in");
  const [ours, theirs] = [readUnits(form.book), readUnits(firm)];
  return firmNames.flatMap((part) => {
    const [to, from] = [findNamed(form.book, part), findNamed(firm, part)];
    if (!to || !from) return [];
    if (rowsOf(from) !== rowsOf(to) || columnsOf(from) !== columnsOf(to))
      throw notFitting(sentence`"${part}" is ${describeSize(from)} there and ${describeSize(to)} in the form`);
    if (ours !== theirs && (part === "Openings" || part === "CalibrationDensity"))
      throw notFitting(sentence`its flow device is in ${theirs} units and the form in ${ours} units`);
    return copyInputs(form, to, firm, from);
  });
}

const notFitting = (words: string): WorkbookProblem =>
  new WorkbookProblem("not a form", `the firm's workbook does not fit: ${words}`);

const describeSize = (area: SheetArea): string => `${rowsOf(area)} × ${columnsOf(area)} cells`;

const findNamed = (book: Book, name: string): SheetArea | undefined => recallFormulas(book).listNamedAreas(name)[0];

/** Forms that do not say so are in SI units. */
export function readUnits(book: Book): string {
  const cell = findNamed(book, firmUnitsName);
  const value = cell ? readFirst(book, cell) : null;
  return typeof value === "string" ? value : "SI";
}

const findCell = (book: Book, { sheet, row, column }: Place): Cell | undefined =>
  book.sheets[sheet]?.cells.get(buildCellKey(row, column));

const readFirst = (book: Book, { sheet, top, left }: SheetArea): CellValue =>
  findCell(book, { sheet, row: top, column: left })?.value ?? null;

/** The inputs of one area by those of another of the same size; headings and formulas inside it stay the form's own. */
function copyInputs(form: OpenedWorkbook, to: SheetArea, firm: Book, from: SheetArea): CellPatch[] {
  const inputs = readInputs(form);
  const sources = [...listPlaces(from)];
  return [...listPlaces(to)].flatMap((place, index): CellPatch[] => {
    if (findCell(form.book, place)?.formula || inputs.isLocked(place.sheet, place.row, place.column)) return [];
    const source = sources[index]!;
    const value = findCell(firm, source)?.value ?? null;
    if (value instanceof ErrorValue)
      throw notFitting(
        sentence`${formatSheetArea(areaOf(source), firm.sheets[source.sheet]?.name ?? "")} shows ${value.code}`,
      );
    return [{ ...place, value }];
  });
}
