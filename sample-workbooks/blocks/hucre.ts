/** The only door to the library that writes workbooks: young as it is, everything it cannot do is mended in book.ts. */
import type {
  Cell,
  CellStyle,
  ConditionalRule,
  DataValidation,
  FontStyle,
  MergeRange,
  NamedRange,
  PageSetup,
  RichTextRun,
  SheetChart,
  TableDefinition,
  WorkbookProperties,
  WriteSheet,
} from "hucre";
import { writeXlsx } from "hucre/xlsx";

export type {
  Cell,
  CellStyle,
  ConditionalRule,
  DataValidation,
  FontStyle,
  MergeRange,
  NamedRange,
  PageSetup,
  RichTextRun,
  SheetChart,
  TableDefinition,
  WorkbookProperties,
  WriteSheet,
};

/** Writes the package; values are not computed here. */
export async function writePackage(
  sheets: WriteSheet[],
  names: NamedRange[],
  properties: WorkbookProperties,
  font: FontStyle,
): Promise<Uint8Array> {
  return writeXlsx({ sheets, namedRanges: names, properties, defaultFont: font, activeSheet: 0 });
}
