import type { OpenedWorkbook } from "../file/open";
import { writeCopy } from "../file/write/write-back";
import { addSheet, findFreeSheetName } from "./add-sheet";
import { estimateHeight, writeColumns, writeRow, writeTextCell, writeValueCell } from "./cells";
import { withAddedStyles } from "./styles";

const widest = 60;

/** A copy of the workbook with one more sheet: rows of texts and numbers under headings. */
export function addPlainSheet(
  opened: OpenedWorkbook,
  wanted: string,
  rows: readonly (readonly (string | number)[])[],
): { readonly bytes: Uint8Array; readonly sheetName: string } {
  const sheetName = findFreeSheetName(opened.book, wanted);
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.min(widest, 2 + Math.max(...rows.map((row) => String(row[column] ?? "").length))),
  );
  let styles = { heading: 0, entry: 0 };
  const parts = addSheet(opened, {
    name: sheetName,
    names: [],
    styles: (partName, text) => {
      const styled = withAddedStyles(partName, text);
      styles = { heading: styled.style("heading"), entry: styled.style("entry") };
      return styled.text;
    },
    content: (namespace) => {
      const written = rows.map((cells, index) =>
        writeRow(
          index + 1,
          estimateHeight(cells.map(String), widths),
          cells.map((cell, column) =>
            index === 0 || typeof cell === "string"
              ? writeTextCell(index + 1, column, String(cell), index === 0 ? styles.heading : styles.entry)
              : writeValueCell(index + 1, column, cell, styles.entry),
          ),
        ),
      );
      return (
        `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${namespace}">` +
        `${writeColumns(widths)}<sheetData>${written.join("")}</sheetData></worksheet>`
      );
    },
  });
  return { bytes: writeCopy(opened, [], parts), sheetName };
}
