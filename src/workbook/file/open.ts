import type { Area, Book, DefinedName, ErrorCode, Sheet, Table } from "../model";
import { parseArea } from "../book/address";
import { LooksReader, type SheetLooks } from "./appearance/sheet-appearance";
import { Archive } from "./archive";
import { limits } from "./limits";
import { noMetadata, readMetadata, readRichErrors } from "./sheet/metadata";
import { sentence, WorkbookProblem } from "./problem";
import { readRelationships, type Relationship } from "./sheet/relationships";
import { readSheet, type SheetContext } from "./sheet/sheet";
import { readSharedStrings } from "./sheet/values";
import { readCellFormats } from "./sheet/styles";
import { readTable } from "./sheet/table";
import { readWorkbookPart, refuseTwins, type SheetListing } from "./sheet/workbook-part";
import { partKey } from "./zip/directory";

/** An opened workbook, with what is needed to write it back. */
export interface OpenedWorkbook {
  readonly book: Book;
  /** Workbook settings under which stored values may legitimately differ from a plain recalculation. */
  readonly cautions: readonly string[];
  readonly archive: Archive;
  /** The part of each sheet of the book, by the sheet's index; undefined for a sheet without cells, such as a chart sheet. */
  readonly sheetParts: readonly (string | undefined)[];
  /** How the sheets look, if asked for on opening. */
  readonly looks?: readonly SheetLooks[];
}

interface OpenOptions {
  /** Cells with a value or a formula, all sheets together; a workbook with more is refused at the first excess cell. */
  readonly mostCells?: number;
  /** Reads the styles of the sheets along with their cells, for a review or a page; `readSheetLooks` does so afterwards, at twice the price. */
  readonly withLooks?: boolean;
}

/** The root element of each kind of sheet (ECMA-376 part 1, 12.3; macro sheets: MS-OFFMACRO2). */
const rootOfKind: ReadonlyMap<string, string> = new Map([
  ["worksheet", "worksheet"],
  ["xlMacrosheet", "macrosheet"],
  ["xlIntlMacrosheet", "macrosheet"],
  ["chartsheet", "chartsheet"],
  ["dialogsheet", "dialogsheet"],
]);

/** Sheets that keep their place in the list but have no cells. */
const kindsWithoutCells = new Set(["chartsheet", "dialogsheet"]);

/**
 * Reads a workbook (.xlsx or .xlsm, transitional or strict, ECMA-376 and ISO/IEC 29500) from its bytes.
 * Throws WorkbookProblem, one clear line, for anything that cannot be read completely: a workbook is never read in part.
 */
export function openWorkbook(bytes: Uint8Array, options: OpenOptions = {}): OpenedWorkbook {
  const archive = new Archive(bytes);
  const workbookName = findWorkbookPart(archive);
  const { sheets: listings, names, date1904, precisionAsDisplayed, cautions } = readWorkbookPart(archive, workbookName);
  if (listings.length === 0) throw new WorkbookProblem("no workbook", sentence`${workbookName} lists no sheets`);
  const relationships = readRelationships(archive, workbookName);
  const context: SheetContext = {
    ...readSharedParts(archive, relationships),
    date1904,
    mostCells: options.mostCells ?? limits.cells,
    cellCount: 0,
    formulaLength: 0,
  };

  const looksReader = options.withLooks ? new LooksReader(archive, relationships) : undefined;
  const tables: Table[] = [];
  const sheetParts: (string | undefined)[] = [];
  const sheets = linkSheets(listings, relationships).map(({ name, visibility, target, kind, root }, index): Sheet => {
    const partName = kindsWithoutCells.has(kind) ? undefined : target;
    sheetParts.push(partName);
    if (partName === undefined) {
      archive.read(target, { open() {}, close() {} }, root);
      return { name, visibility, ...createEmptySheet() };
    }
    const { filter, isFilteredUnseen, ...read } = readSheet(
      archive,
      partName,
      root,
      context,
      looksReader?.startSheet(index),
    );
    const { transitionRules, unstyled, ...content } = read;
    if (transitionRules) {
      cautions.push(
        sentence`the sheet "${name}" is calculated by another program's rules ("transition formula evaluation"); here Excel's are used`,
      );
    }
    if (unstyled) {
      cautions.push(
        sentence`the sheet "${name}" has cells of a style that does not exist: ${unstyled.count}, the first ${unstyled.first}; they are treated as unformatted`,
      );
    }
    const filters = filter ? [filter] : isFilteredUnseen ? [findUnseenFilter(names, index)] : [];
    for (const { kind, target } of readRelationships(archive, partName)) {
      if (kind !== "table") continue;
      const read = readTable(archive, target, index);
      tables.push(read.table);
      if (read.filter) filters.push(read.filter);
    }
    return { name, visibility, ...content, filteredRows: listRowsHiddenByFilters(content.hiddenRows, filters) };
  });
  refuseTwins(
    tables,
    ({ name }) => name.toLowerCase(),
    ({ name }) => sentence`two tables have the name "${name}"`,
  );
  const book = { sheets, names, tables, date1904, precisionAsDisplayed };
  return { book, cautions, archive, sheetParts, ...(looksReader && { looks: looksReader.finish(sheetParts) }) };
}

type LinkedSheet = Omit<SheetListing, "relationship"> & Omit<Relationship, "id"> & { readonly root: string };

/** The listed sheets with their parts, each of a known kind and with a part to itself. */
function linkSheets(listings: readonly SheetListing[], relationships: readonly Relationship[]): LinkedSheet[] {
  refuseTwins(
    relationships,
    ({ id }) => id,
    ({ id }) => sentence`the workbook has the relationship "${id}" twice`,
  );
  const links = new Map(relationships.map((link) => [link.id, link]));
  const sheets = listings.map(({ name, visibility, relationship }): LinkedSheet => {
    const link = links.get(relationship);
    if (!link) throw new WorkbookProblem("damaged", sentence`the sheet "${name}" has no part in the file`);
    const { kind, target } = link;
    const root = rootOfKind.get(kind);
    if (root === undefined)
      throw new WorkbookProblem("damaged", sentence`the sheet "${name}" is of the unknown kind "${kind}"`);
    return { name, visibility, kind, target, root };
  });
  refuseTwins(
    sheets,
    ({ target }) => partKey(target),
    ({ name, target }) => sentence`the sheet "${name}" has the part ${target}, which another sheet has too`,
  );
  return sheets;
}

function findWorkbookPart(archive: Archive): string {
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument");
  if (!main && archive.findEntry("content.xml")) {
    throw new WorkbookProblem("no workbook", "this is an OpenDocument file, not an .xlsx workbook; save it as .xlsx");
  }
  if (!main || !archive.findEntry(main.target)) {
    throw new WorkbookProblem("no workbook", "this is a zip archive without a workbook part, not an .xlsx workbook");
  }
  if (main.target.toLowerCase().endsWith(".bin")) {
    throw new WorkbookProblem("binary workbook", "this is a binary workbook (.xlsb); save it as .xlsx");
  }
  if (!/\/?workbook[^/]*\.xml$|sheet/i.test(main.target) && archive.findEntry("word/document.xml")) {
    throw new WorkbookProblem("no workbook", "this is a text document, not an .xlsx workbook");
  }
  return main.target;
}

function readSharedParts(
  archive: Archive,
  relationships: readonly Relationship[],
): Pick<SheetContext, "strings" | "formats" | "dynamicMarks" | "richErrors"> {
  const partOf = (kind: string): string | undefined => relationships.find((link) => link.kind === kind)?.target;
  const strings = partOf("sharedStrings");
  const styles = partOf("styles");
  const metadataPart = partOf("sheetMetadata");
  const metadata = metadataPart === undefined ? noMetadata : readMetadata(archive, metadataPart);
  const values = partOf("rdRichValue");
  const structures = partOf("rdRichValueStructure");
  const kinds = values && structures ? readRichErrors(archive, values, structures) : new Map<number, ErrorCode>();
  const richErrors = new Map<number, ErrorCode>();
  for (const [mark, place] of metadata.richValues) {
    const kind = kinds.get(place);
    if (kind) richErrors.set(mark, kind);
  }
  return {
    strings: strings === undefined ? [] : readSharedStrings(archive, strings),
    formats: styles === undefined ? [] : readCellFormats(archive, styles),
    dynamicMarks: metadata.dynamicMarks,
    richErrors,
  };
}

function createEmptySheet(): Omit<Sheet, "name" | "visibility"> {
  return {
    cells: new Map(),
    hiddenRows: new Set(),
    hiddenColumns: new Set(),
    filteredRows: new Set(),
    mergedAreas: [],
  };
}

/** The list of an advanced filter, given only by a hidden name of the sheet; without the name, the whole sheet. */
function findUnseenFilter(names: readonly DefinedName[], index: number): Area {
  const named = names.find(({ name, sheet }) => sheet === index && name.toLowerCase() === "_xlnm._filterdatabase");
  const area = parseArea(named?.text.split("!").at(-1) ?? "");
  return area ?? { top: -1, left: 0, bottom: limits.rows - 1, right: limits.columns - 1 };
}

/** The file does not say why a row is hidden; within an active filter's range, Excel treats it as filtered. */
function listRowsHiddenByFilters(hiddenRows: ReadonlySet<number>, filters: readonly Area[]): Set<number> {
  const filtered = new Set<number>();
  for (const row of hiddenRows) {
    if (filters.some(({ top, bottom }) => row > top && row <= bottom)) filtered.add(row);
  }
  return filtered;
}
