import { type Metadata, cutDescription } from "../metadata/rules";
import { placeholderBase } from "../metadata/generate";
import type { Address } from "./address";
import type { ExcelBuild } from "./excel";

/** The functions that the Excel of a build runs. */
export function selectFunctions({ functions }: Metadata, { without }: ExcelBuild): Metadata["functions"] {
  return functions.filter(({ id }) => !without.includes(id));
}

/**
 * The text of a build's functions.json: the functions its Excel runs, its one flag, help at the add-in's address, and the part of each description
 * shown while typing; the page and the traces have the full text.
 */
export function writeFunctionsJson(listed: Metadata, excel: ExcelBuild, address: Address): string {
  const { enums } = listed;
  const functions = selectFunctions(listed, excel).map(({ description = "", ...entry }) => ({
    description: cutDescription(description),
    ...entry,
  }));
  const whole = { [excel.flag]: true, functions, ...(enums && { enums }) };
  return `${JSON.stringify(whole, null, 2)}\n`.replaceAll(`"${placeholderBase}/`, `"${address.base}/`);
}
