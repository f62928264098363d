import {
  buildCellKey,
  type CellValue,
  ErrorValue,
  formatCellText,
  previewFormula,
  toTypedForm,
  typeIntoCells,
} from "../../workbook/index";
import type { CellPlace, PreviewAnswer, TypedEntry, UnboundCall } from "./answers";
import { type Desktop, findPlace, formatPlace, requireFile } from "./opened";
import { Refusal } from "./refusal";

const mostRows = 60;
const mostInTheWay = 5;

export function previewEntry(desktop: Desktop, address: string, formula: string): PreviewAnswer {
  const place = requirePlace(desktop, address);
  const result = previewFormula(desktop.view, place, formula);
  if ("reason" in result) return { rows: [], rowCount: 1, columnCount: 1, problem: result.reason, inTheWay: [] };
  const { rows } = result;
  const [rowCount, columnCount] = [rows.length, rows[0]?.length ?? 0];
  const [first = null] = rows[0] ?? [];
  const problem = first instanceof ErrorValue ? `${first.code} ${first.reason}`.trim() : "";
  return {
    rows: rows.slice(0, mostRows).map((row) => row.map((value) => showValue(desktop, value))),
    rowCount,
    columnCount,
    problem,
    inTheWay: listInTheWay(desktop, place, rowCount, columnCount),
  };
}

const showValue = ({ book }: Desktop, value: CellValue): string => formatCellText(value, "General", book.date1904);

function listInTheWay(desktop: Desktop, place: CellPlace, rows: number, columns: number): string[] {
  const found: string[] = [];
  for (let row = place.row; row < place.row + rows; row += 1)
    for (let column = place.column; column < place.column + columns; column += 1) {
      const at = { ...place, row, column };
      const cell = desktop.book.sheets[place.sheet]?.cells.get(buildCellKey(row, column));
      const isTaken = cell?.formula !== undefined || (cell?.value ?? null) !== null || desktop.view.findOwner(at);
      if (isTaken && found.push(formatPlace(desktop, at)) >= mostInTheWay) return found;
    }
  return found;
}

export function typeEntries(desktop: Desktop, entries: readonly TypedEntry[]): Uint8Array {
  const typed = entries.map(({ address, entry }) => ({ ...requirePlace(desktop, address), entry }));
  return typeIntoCells(requireFile(desktop), typed, desktop);
}

/** Calls of the add-in that a program without it has left as #NAME?, or stored as text. */
export function listUnbound({ book }: Desktop): UnboundCall[] {
  return book.sheets.flatMap(({ name, cells }, sheet) =>
    [...cells.values()].flatMap(({ row, column, value, formula }): UnboundCall[] => {
      if (!formula || !callsAddIn.test(formula.text)) return [];
      const isUnbound = (value instanceof ErrorValue && value.code === "#NAME?") || typedCall.test(formula.text);
      return isUnbound
        ? [{ sheet: name, address: formatPlace({ book }, { sheet, row, column }), formula: toTypedForm(formula.text) }]
        : [];
    }),
  );
}

/** As a file holds a call, and as text that was typed where the add-in was not there. */
const callsAddIn = /_xldudf_STILLAIR_|\bSTILLAIR\./i;
const typedCall = /\bSTILLAIR\./i;

function requirePlace(desktop: Desktop, address: string): CellPlace {
  const place = findPlace(desktop, address);
  if (!place) throw Refusal.of("noCell", [address]);
  return place;
}
