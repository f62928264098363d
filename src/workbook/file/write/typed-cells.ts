import { removeChain, withTypes, writeOverrideTag, writeRelationTag } from "../../added-sheet/add-sheet";
import type { AddInRegistry } from "../../formula/calls/add-in";
import { evaluateBook } from "../../formula/evaluate";
import { compareWithStored } from "../../formula/evaluation";
import { listPlaces } from "../../book/area";
import { toStoredForm } from "../../formula/parse/formula-text";
import { buildCellKey, type CellValue } from "../../model";
import { type OpenedWorkbook, openWorkbook } from "../open";
import { WorkbookProblem } from "../problem";
import { readMetadata } from "../sheet/metadata";
import { readRelationships } from "../sheet/relationships";
import { decodePart, encodePart } from "../xml/text";
import type { CellPatch } from "./cell-edits";
import { collectPatches } from "./patches";
import { type PartChanges, writeBack, writeCopy } from "./write-back";

/** What a person types into a cell: a value, or a formula with its "=". */
export interface TypedCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly entry: CellValue;
}

/**
 * A copy of the workbook after a person has typed into cells, recalculated as Excel would: formulas are dynamic, so that their results spill. The
 * names of functions that came after Excel 2007 need their prefix.
 */
export function typeIntoCells(
  opened: OpenedWorkbook,
  typed: readonly TypedCell[],
  { addIn, now }: { readonly addIn: AddInRegistry; readonly now: Date },
): Uint8Array {
  const { mark, parts } = prepareParts(opened);
  const patches = typed.flatMap((cell): CellPatch[] => [...clearArray(opened, cell), patchCell(opened, cell, mark)]);
  const written = openWorkbook(writeCopy(opened, patches, parts));
  const evaluation = evaluateBook(written.book, { addIn, now });
  return writeBack(
    written,
    collectPatches(written.book, evaluation, compareWithStored(written.book, evaluation), undefined),
  );
}

/** What an array formula filled is in the way of the result that takes its place. */
function clearArray({ book }: OpenedWorkbook, { sheet, row, column }: TypedCell): CellPatch[] {
  const area = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.formula?.array;
  if (!area) return [];
  return [...listPlaces({ sheet, ...area })]
    .filter((place) => place.row !== row || place.column !== column)
    .map((place) => ({ ...place, value: null }));
}

function patchCell({ book }: OpenedWorkbook, { entry, sheet, row, column }: TypedCell, mark: number): CellPatch {
  const place = { sheet, row, column };
  if (typeof entry === "string" && entry.startsWith("=")) {
    const array = { top: row, left: column, bottom: row, right: column };
    return { ...place, value: null, formula: { text: toStoredForm(entry), array, mark } };
  }
  const isFormula = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.formula !== undefined;
  return { ...place, value: entry, ...(isFormula ? { freeze: true } : {}) };
}

const partName = "xl/metadata.xml";
const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml";
const relation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata";

/** As Excel writes it (MS-XLSX 2.3.5, dynamicArrayProperties). */
const metadata =
  `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray">` +
  `<metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes>` +
  `<futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata>` +
  `<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;

/**
 * The number that marks dynamic arrays in this workbook, and the parts that change: its metadata where it has none yet, and the calculation chain, which
 * might name a cell that loses its formula; Excel rebuilds it.
 */
function prepareParts({ archive }: OpenedWorkbook): { readonly mark: number; readonly parts: PartChanges } {
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument")?.target ?? "";
  const known = readRelationships(archive, main);
  const present = known.find(({ kind }) => kind === "sheetMetadata")?.target;
  const [mark] = present === undefined ? [] : readMetadata(archive, present).dynamicMarks;
  if (present !== undefined && mark === undefined)
    throw new WorkbookProblem("cannot write", "its cells have metadata of a kind that is not known here");
  const chain = known.find(({ kind }) => kind === "calcChain")?.target;
  const removed = chain !== undefined && archive.findEntry(chain) ? [chain] : [];
  const isNew = present === undefined;
  const folder = main.slice(0, main.lastIndexOf("/") + 1);
  const edit = (name: string, change: (text: string) => string): [string, Uint8Array] => {
    const original = archive.readContent(name);
    return [archive.findEntry(name)?.name ?? name, encodePart(change(decodePart(original)), original)];
  };
  const linksName = `${folder}_rels/${main.slice(folder.length)}.rels`;
  const replaced = new Map([
    edit("[Content_Types].xml", (text) => withTypes(text, isNew ? [writeOverrideTag(partName, type)] : [], removed)),
    edit(linksName, (text) =>
      removeChain(linksName, text, isNew ? [writeRelationTag("dynamicArrays", relation, `/${partName}`)] : []),
    ),
  ]);
  const added = new Map(isNew ? [[partName, new TextEncoder().encode(metadata)]] : []);
  return { mark: mark ?? 1, parts: { replaced, added, removed } };
}
