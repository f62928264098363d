import type { Book, ErrorCode, ExternalBook, Sheet, Table } from "../model";
import { LooksReader, type SheetLooks } from "./appearance/sheet-appearance";
import { Archive } from "./archive";
import { limits } from "./limits";
import { readExternalLink } from "./sheet/external-link";
import { noMetadata, readMetadata, readRichErrors } from "./sheet/metadata";
import { sentence, WorkbookProblem } from "./problem";
import { readRelationships, type Relationship } from "./sheet/relationships";
import { readSheet, type SheetContext } from "./sheet/sheet";
import { readSharedStrings } from "./sheet/values";
import { readCellFormats } from "./sheet/styles";
import { readTable } from "./sheet/table";
import { readWorkbookPart, refuseTwins, type SheetListing } from "./sheet/workbook-part";
import { partKey } from "./zip/directory";
import { formatCount } from "../formatting";

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
  const {
    sheets: listings,
    externals: externalIds,
    names,
    date1904,
    precisionAsDisplayed,
    iteration,
    cautions,
  } = readWorkbookPart(archive, workbookName);
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
    const { isFilterAtWork, ...read } = readSheet(archive, partName, root, context, looksReader?.startSheet(index));
    const { transitionRules, unstyled, earlyDates, ...content } = read;
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
    if (earlyDates) {
      cautions.push(
        sentence`the sheet "${name}" has dates before March 1900 in ISO form, which versions of Excel write one day apart: ${formatCount(earlyDates.count, "cell")}, the first ${earlyDates.first}`,
      );
    }
    let isFiltered = isFilterAtWork;
    for (const { kind, target } of readRelationships(archive, partName)) {
      if (kind !== "table") continue;
      const read = readTable(archive, target, index);
      tables.push(read.table);
      isFiltered ||= read.isFiltered;
    }
    // With a filter at work anywhere on the sheet, SUBTOTAL takes every hidden row for filtered, those hidden by hand too.
    return { name, visibility, ...content, filteredRows: new Set(isFiltered ? content.hiddenRows : []) };
  });
  refuseTwins(
    tables,
    ({ name }) => name.toLowerCase(),
    ({ name }) => sentence`two tables have the name "${name}"`,
  );
  const externals = externalIds.map((id): ExternalBook => {
    const link = relationships.find((one) => one.id === id && one.kind === "externalLink");
    return link ? readExternalLink(archive, link.target, date1904, context) : { file: "", sheets: [], names: [] };
  });
  const book: Book = {
    sheets,
    names,
    tables,
    date1904,
    precisionAsDisplayed,
    ...(externals.length > 0 && { externals }),
    ...(iteration && { iteration }),
  };
  return { book, cautions, archive, sheetParts, ...(looksReader && { looks: looksReader.finish(sheetParts) }) };
}

type LinkedSheet = Omit<SheetListing, "relationship"> & Omit<Relationship, "id"> & { readonly root: string };

/** The listed sheets with their parts, each of a known kind and with a part to itself. */
function linkSheets(listings: readonly SheetListing[], relationships: readonly Relationship[]): LinkedSheet[] {
  refuseTwins(
    relationships.filter(({ id }) => id !== ""),
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
