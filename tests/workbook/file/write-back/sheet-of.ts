import { parsePlace, type Area, type CellPatch, type CellValue } from "../../../../src/workbook/index";

export function patch(address: string, value: CellValue, array?: Area): CellPatch {
  const place = parsePlace(address);
  if (!place) throw new Error(address);
  return array ? { sheet: 0, ...place, value, array } : { sheet: 0, ...place, value };
}
