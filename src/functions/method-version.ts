import { methodVersion as version } from "../core/index";

/**
 * Version of the calculation method, for the report: two workbooks with the same version compute the same.
 * @customfunction METHODVERSION
 * @returns The version.
 * @core version.ts
 * @check functions/cells.test.ts
 */
export function methodVersion(): string {
  return version;
}
