import type { Metadata } from "../metadata/entry";
import { placeholderBase } from "../metadata/generate";
import type { Address } from "./address";
import type { ExcelBuild } from "./excel";

/** The functions that the Excel of a build runs. */
export function functionsOf({ functions }: Metadata, { without }: ExcelBuild): Metadata["functions"] {
  return functions.filter(({ id }) => !without.includes(id));
}

/** The text of a build's functions.json: what its Excel runs, the one flag that it takes, and help where the add-in is served. */
export function functionsJson(listed: Metadata, excel: ExcelBuild, address: Address): string {
  const { enums } = listed;
  const whole = { [excel.flag]: true, functions: functionsOf(listed, excel), ...(enums && { enums }) };
  return `${JSON.stringify(whole, null, 2)}\n`.replaceAll(`"${placeholderBase}/`, `"${address.base}/`);
}
