import { convertUnits } from "../../core/index";
import { type UnitSystem, unitSystem, unitSystems } from "../../functions/cells/units";
import {
  areaOf,
  columnsOf,
  isSingleCell,
  listPlaces,
  placeKey,
  type Place,
  rowsOf,
  type SheetArea,
} from "../book/area";
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

/** Columns of the table of openings, which is longer in some forms than in others: blank rows at its end may be missing. */
const openingColumns = [
  "OpeningNames",
  "OpeningCoefficients",
  "OpeningExponents",
  "OpeningFrom",
  "OpeningTo",
  "OpeningUncertainties",
] as const;

/** Last days of certificates; a form with one cell for several instruments takes the earliest. */
const lastDays = ["GaugeUntil", "FanUntil"] as const;

/** What is in the units of the flow device; pressures are in Pa in every system. */
const measures: ReadonlyMap<string, "flow" | "density"> = new Map([
  ["OpeningCoefficients", "flow"],
  ["CalibrationDensity", "density"],
] as const);

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
  const [ours, theirs] = [findSystem(form.book), findSystem(firm)];
  const copy = (parts: readonly string[], copyPart: (part: string, to: SheetArea, from: SheetArea) => CellPatch[]) =>
    parts.flatMap((part) => {
      const [to, from] = [findNamed(form.book, part), findNamed(firm, part)];
      if (!to || !from) return [];
      const measure = measures.get(part);
      const patches = copyPart(part, to, from);
      if (measure === undefined || ours === theirs) return patches;
      return patches.map((patch) => ({ ...patch, value: convert(patch.value, theirs[measure], ours[measure]) }));
    });
  const patches = [
    ...copy(firmNames, (part, to, from) => {
      if (rowsOf(from) !== rowsOf(to) || columnsOf(from) !== columnsOf(to))
        throw notFitting(sentence`"${part}" is ${describeSize(from)} there and ${describeSize(to)} in the form`);
      return copyInputs(form, to, firm, from);
    }),
    ...copy(openingColumns, (part, to, from) => {
      const values = [...listPlaces(from)].map((place) => findCell(firm, place)?.value ?? null);
      const filled = values.findLastIndex((value) => value !== null) + 1;
      if (filled > rowsOf(to))
        throw notFitting(sentence`"${part}" has ${filled} rows there and ${rowsOf(to)} in the form`);
      const rows = Math.min(rowsOf(from), rowsOf(to));
      return copyInputs(form, firstRows(to, rows), firm, firstRows(from, rows));
    }),
    ...copy(lastDays, (_, to, from) => {
      const days = [...listPlaces(from)].map((place) => findCell(firm, place)?.value);
      const known = days.filter((day) => typeof day === "number");
      if (!isSingleCell(to) || known.length < days.length) return [];
      return [{ sheet: to.sheet, row: to.top, column: to.left, value: Math.min(...known) }];
    }),
  ];
  // A cell may be in two parts, such as an opening's coefficient in the table and in its column, where its unit is known: the later one counts.
  return [...new Map(patches.map((patch) => [placeKey(patch), patch])).values()];
}

const firstRows = (area: SheetArea, count: number): SheetArea => ({ ...area, bottom: area.top + count - 1 });

/** In another unit, to the digits that a cell shows at most. */
const convert = (value: CellValue, from: string, to: string): CellValue =>
  typeof value === "number" ? Number(convertUnits(value, from, to).toPrecision(15)) : value;

const notFitting = (words: string): WorkbookProblem =>
  new WorkbookProblem("not a form", `the firm's workbook does not fit: ${words}`);

const describeSize = (area: SheetArea): string => `${rowsOf(area)} × ${columnsOf(area)} cells`;

const findNamed = (book: Book, name: string): SheetArea | undefined => recallFormulas(book).listNamedAreas(name)[0];

function findSystem(book: Book): UnitSystem {
  const name = readUnits(book);
  const known = unitSystems.find((system) => system === name);
  if (known === undefined)
    throw notFitting(sentence`its flow device is in "${name}" units, which is none of ${unitSystems.join(", ")}`);
  return unitSystem(known);
}

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
