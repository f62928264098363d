/**
 * How large a workbook may be. No standard sets these figures; they are chosen so that any refusal comes within seconds and in less
 * than about 1.5 GB of memory, while a sheet that uses all of Excel's 1 048 576 rows still opens.
 */
export const limits = {
  /** Bytes of the file itself. */
  file: 256 * 1024 * 1024,
  /** Entries of the zip directory; a large workbook has some hundreds. */
  entries: 20_000,
  /** Bytes of one part once unpacked; a full column of numbers is about 50 MB. */
  part: 128 * 1024 * 1024,
  /** Bytes of all parts once unpacked. */
  total: 512 * 1024 * 1024,
  /** Cells with a value or a formula, all sheets together. */
  cells: 1_200_000,
  /** Characters of all formulas, shared ones counted for each of their cells. */
  formulaLength: 50_000_000,
  /** Strings in the shared table. */
  strings: 1_200_000,
  /** Rows and columns of a sheet: Excel's own. */
  rows: 1_048_576,
  columns: 16_384,
  /** Nesting depth of elements; real parts stay below 30. */
  depth: 200,
  /** Bytes of all parsed parts, counted each time: a page or a review reads the sheets once or twice more. */
  parsed: 384 * 1024 * 1024,
  /** Elements of one part: the maximum of cells, each with a formula and value in its own row, makes about 5 million. */
  elements: 8_000_000,
  /** Elements of one name in a part, excluding those of cells and texts: names, styles, merged cells, conditions, pictures. */
  records: 200_000,
  /**
   * Characters from one tag or attribute to the next. A cell's text is at most 32 767 characters, each at most eight in XML (&#xFFFF;).
   */
  betweenTags: 262_144,
  /** Attributes of one element; real parts stay below 60, namespaces included. */
  attributes: 1_000,
} as const;

/** Bytes in readable form. */
export function formatMegabytes(bytes: number): string {
  return bytes < 10 * 1024 * 1024 ? `${(bytes / 1024 / 1024).toFixed(1)} MB` : `${Math.round(bytes / 1024 / 1024)} MB`;
}
