import { formatAreaAddress, formatCellAddress } from "../../book/address";
import { type Area, type CellValue, ErrorValue } from "../../model";
import { WorkbookProblem } from "../problem";
import { encodeText } from "../xml/text";
import type { CellPlace, ElementPlace } from "./sheet-places";

/** A new value for one cell of a sheet, its place zero-based; `array` is the new range of a dynamic array's formula. */
export interface SheetPatch {
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  readonly array?: Area;
  /** The cell loses its formula and keeps its value and style. */
  readonly freeze?: true;
  /** A new formula, of which `value` is the result; it replaces whatever the cell holds, except its style. */
  readonly formula?: NewFormula;
}

/** A formula in the form of the file, without "=". */
export interface NewFormula {
  readonly text: string;
  /** The cells that an array fills, from this one on. */
  readonly array?: Area;
  /** The number by which this file marks dynamic arrays; without one an array has braces. */
  readonly mark?: number;
}

/** A new value for one cell of the workbook; `sheet` is the sheet's index. */
export interface CellPatch extends SheetPatch {
  readonly sheet: number;
}

/** A span of a text and its replacement; an insertion if start and end are equal. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Applies non-overlapping edits; those at the same place keep their order. Everything between them is unchanged. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const inOrder = [...edits].sort((a, b) => a.start - b.start);
  const pieces: string[] = [];
  let at = 0;
  for (const edit of inOrder) {
    if (edit.start < at) throw new Error("two edits overlap");
    pieces.push(text.slice(at, edit.start), edit.text);
    at = edit.end;
  }
  pieces.push(text.slice(at));
  return pieces.join("");
}

/** How a value is written: the cell's type attribute, and the element that holds it. */
interface WrittenValue {
  readonly type?: string;
  readonly element?: "v" | "is";
  readonly text: string;
}

/** ECMA-376 part 1, 18.18.11; text is "str" as the result of a formula, and an inline string as an input. */
function encodeValue(value: CellValue, isFormula: boolean): WrittenValue {
  if (value === null) return { text: "" };
  if (value instanceof ErrorValue) {
    refuseYoungError(value);
    return { type: "e", element: "v", text: encodeText(value.code) };
  }
  if (typeof value === "boolean") return { type: "b", element: "v", text: value ? "1" : "0" };
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new RangeError("a cell cannot hold a number that is not finite");
    return { element: "v", text: String(value === 0 ? 0 : value) };
  }
  if (isFormula) return { type: "str", element: "v", text: encodeText(value) };
  return { type: "inlineStr", element: "is", text: encodeText(value) };
}

/** The errors in the file format (ECMA-376 part 1, 18.18.11 and 18.17.3); Excel keeps newer ones as rich values. */
const storedErrors = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA"];

function refuseYoungError({ code }: ErrorValue): void {
  if (storedErrors.includes(code)) return;
  throw new WorkbookProblem("cannot write", `a cell becomes ${code}, which only Excel can store`);
}

/** The edits that give a cell a new value, and its formula a new array range when one is given; its style and formula stay. */
export function editCell(cell: CellPlace, text: string, value: CellValue, array: Area | undefined): Edit[] {
  const { element } = cell;
  const written = encodeValue(value, cell.formula !== undefined);
  const edits = [...editType(element, text, written.type)];
  const rich = element.attributes.get("vm");
  // The value's rich form (a card, a picture, the kind of an error) would no longer belong to it.
  if (rich) edits.push({ ...rich.whole, text: "" });
  const range = cell.formula?.attributes.get("ref");
  if (array && range) edits.push({ ...range.value, text: formatAreaAddress(array) });
  edits.push(...editContent(cell, text, written));
  return edits;
}

/** The edits that reduce a cell with a formula, or filled by one, to a value: its style stays. */
export function freezeCell(cell: CellPlace, text: string, value: CellValue): Edit[] {
  const { element, formula } = cell;
  const written = encodeValue(value, false);
  const edits = [...editType(element, text, written.type)];
  // The marks of a dynamic array and of a rich value would no longer belong to it.
  for (const name of ["cm", "vm"]) {
    const mark = element.attributes.get(name);
    if (mark) edits.push({ ...mark.whole, text: "" });
  }
  if (formula) edits.push({ start: formula.start, end: formula.end, text: "" });
  return [...edits, ...editContent(cell, text, written)];
}

/** The edits that give a cell a new formula: the whole cell is written anew with its old style. */
export function replaceFormula(cell: CellPlace, text: string, patch: SheetPatch): Edit[] {
  const { element } = cell;
  const style = element.attributes.get("s")?.value;
  const written = writeNewCell(patch, readPrefix(element.tagName), style && text.slice(style.start, style.end));
  return [{ start: element.start, end: element.end, text: written }];
}

/** A cell written anew. */
export function writeNewCell(patch: SheetPatch, prefix: string, style: string | undefined): string {
  const { row, column, value, formula } = patch;
  const written = encodeValue(value, formula !== undefined);
  const styled = style === undefined || style === "0" ? "" : ` s="${style}"`;
  const marked = formula?.mark === undefined ? "" : ` cm="${formula.mark}"`;
  const typed = written.type === undefined ? "" : ` t="${written.type}"`;
  const content = writeFormula(formula, prefix) + writeContent(written, prefix);
  return `<${prefix}c r="${formatCellAddress(row, column)}"${styled}${marked}${typed}>${content}</${prefix}c>`;
}

function writeFormula(formula: NewFormula | undefined, prefix: string): string {
  if (!formula) return "";
  const array = formula.array ? ` t="array" ref="${formatAreaAddress(formula.array)}"` : "";
  return `<${prefix}f${array}>${encodeText(formula.text)}</${prefix}f>`;
}

/** "x:" of "x:c", "" of "c". */
export function readPrefix(tagName: string): string {
  return tagName.slice(0, tagName.indexOf(":") + 1);
}

function editType(element: ElementPlace, text: string, type: string | undefined): Edit[] {
  const place = element.attributes.get("t");
  if (place) {
    if (type === undefined) return [{ ...place.whole, text: "" }];
    return text.slice(place.value.start, place.value.end) === type ? [] : [{ ...place.value, text: type }];
  }
  if (type === undefined) return [];
  const at = Math.max(
    element.start + 1 + element.tagName.length,
    ...[...element.attributes.values()].map(({ whole }) => whole.end),
  );
  return [{ start: at, end: at, text: ` t="${type}"` }];
}

function editContent(cell: CellPlace, text: string, written: WrittenValue): Edit[] {
  const { element, formula, value, inline } = cell;
  const prefix = readPrefix(element.tagName);
  const content = writeContent(written, prefix);
  if (value && written.element === "v" && !value.selfClosing && !mustPreserveSpace(written.text)) {
    const edits: Edit[] = [{ start: value.openEnd, end: value.closeStart, text: written.text }];
    if (inline) edits.push({ start: inline.start, end: inline.end, text: "" });
    return edits;
  }
  const [first, second] = [value, inline].filter((place) => place !== undefined);
  if (first) {
    const edits: Edit[] = [{ start: first.start, end: first.end, text: content }];
    if (second) edits.push({ start: second.start, end: second.end, text: "" });
    return edits;
  }
  if (content === "") return [];
  if (element.selfClosing) {
    const slash = text.lastIndexOf("/", element.end - 1);
    return [{ start: slash, end: element.end, text: `>${content}</${element.tagName}>` }];
  }
  const at = formula?.end ?? element.openEnd;
  return [{ start: at, end: at, text: content }];
}

function writeContent({ element, text }: WrittenValue, prefix: string): string {
  if (element === undefined) return "";
  const space = mustPreserveSpace(text) ? ' xml:space="preserve"' : "";
  if (element === "v") return `<${prefix}v${space}>${text}</${prefix}v>`;
  return `<${prefix}is><${prefix}t${space}>${text}</${prefix}t></${prefix}is>`;
}

/** Text with leading or trailing space or line feeds gets the attribute that preserves it, as in Excel. */
function mustPreserveSpace(text: string): boolean {
  return text !== text.trim() || text.includes("\n");
}
