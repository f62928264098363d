import { formatAreaAddress, parseArea, quoteSheetName } from "../../workbook/book/address";
import type { SelectedArea } from "./port";

/** "Results!B4:C9" or "'Air leakage graph'!B4". */
export function parseSelected(address: string): SelectedArea | undefined {
  const [, quoted, plain, area = ""] = /^(?:'((?:[^']|'')+)'|([^'!]+))!(.+)$/.exec(address.trim()) ?? [];
  const found = parseArea(area.replaceAll("$", "").toUpperCase());
  const sheet = quoted?.replaceAll("''", "'") ?? plain;
  if (!found || sheet === undefined) return undefined;
  const { top, left, bottom, right } = found;
  return { sheet, row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

const toArea = ({ row, column, rows, columns }: SelectedArea) => ({
  top: row,
  left: column,
  bottom: row + rows - 1,
  right: column + columns - 1,
});

export const formatSelected = (selected: SelectedArea): string =>
  `${quoteSheetName(selected.sheet)}!${formatAreaAddress(toArea(selected))}`;

/** The first cell of an area. */
export const formatFirst = (selected: SelectedArea): string => formatSelected({ ...selected, rows: 1, columns: 1 });

/** As a formula on a sheet refers to it: without the sheet's name on that sheet itself. */
export const formatReference = (selected: SelectedArea, onSheet: string): string =>
  selected.sheet === onSheet ? formatAreaAddress(toArea(selected)) : formatSelected(selected);
