import type { SheetArea } from "../book/area";
import { formatFullAddress } from "../book/address";
import { listNamedAreas } from "../book/named-areas";
import { readInputRules } from "../file/input-rules";
import type { OpenedWorkbook } from "../file/open";
import { sentence, WorkbookProblem } from "../file/problem";
import type { CellPatch } from "../file/write/cell-edits";
import { type Book, buildCellKey, type CellValue } from "../model";

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
  const [name] = listNamedAreas(firm, "Firm");
  if (!name || readCell(firm, name, 0, 0) === null)
    throw notFitting("no firm is named in it: it needs a form's cell named Firm, filled in");
  const isOtherSystem = readUnits(form.book) !== readUnits(firm);
  return firmNames.flatMap((part) => {
    const [to] = listNamedAreas(form.book, part);
    const [from] = listNamedAreas(firm, part);
    if (!to || !from) return [];
    if (from.bottom - from.top !== to.bottom - to.top || from.right - from.left !== to.right - to.left)
      throw notFitting(sentence`"${part}" is ${describeSize(from)} there and ${describeSize(to)} in the form`);
    if (isOtherSystem && (part === "Openings" || part === "CalibrationDensity"))
      throw notFitting(
        sentence`its flow device is in ${readUnits(firm)} units and the form in ${readUnits(form.book)} units`,
      );
    return copyInputs(form, to, firm, from);
  });
}

const notFitting = (words: string): WorkbookProblem =>
  new WorkbookProblem("not a form", `the firm's workbook does not fit: ${words}`);

const describeSize = ({ top, bottom, left, right }: SheetArea): string =>
  `${bottom - top + 1} × ${right - left + 1} cells`;

/** Forms that do not say so are in SI units. */
function readUnits(book: Book): string {
  const [cell] = listNamedAreas(book, firmUnitsName);
  const value = cell ? readCell(book, cell, 0, 0) : null;
  return typeof value === "string" ? value : "SI";
}

function readCell(book: Book, { sheet, top, left }: SheetArea, down: number, across: number): CellValue {
  return book.sheets[sheet]?.cells.get(buildCellKey(top + down, left + across))?.value ?? null;
}

/** The inputs of one area by those of another of the same size; headings and formulas inside it stay the form's own. */
function copyInputs(form: OpenedWorkbook, to: SheetArea, firm: Book, from: SheetArea): CellPatch[] {
  const rules = readInputRules(form, to.sheet);
  const patches: CellPatch[] = [];
  for (let down = 0; down <= to.bottom - to.top; down++)
    for (let across = 0; across <= to.right - to.left; across++) {
      const [row, column] = [to.top + down, to.left + across];
      const formula = form.book.sheets[to.sheet]?.cells.get(buildCellKey(row, column))?.formula;
      if (formula || rules.isLocked(row, column)) continue;
      const value = readCell(firm, from, down, across);
      if (typeof value === "object" && value !== null) {
        const there = formatFullAddress(firm.sheets[from.sheet]?.name ?? "", from.top + down, from.left + across);
        throw notFitting(`${there} shows ${value.code}`);
      }
      patches.push({ sheet: to.sheet, row, column, value });
    }
  return patches;
}
