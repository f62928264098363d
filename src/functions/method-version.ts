import { methodVersion as version } from "../core/index";

/**
 * Version of the calculation method, for the report: two workbooks with the same version compute the same. Give it a
 * cell of the results: Excel then recalculates the version whenever it recalculates that cell, even after an update of
 * the add-in. What the cell contains does not matter, not even an error.
 * @customfunction METHODVERSION
 * @param [of] A cell of the results that the version belongs to. 0, blank or an error changes nothing.
 * @returns The version.
 * @core version.ts
 * @check functions/cells.test.ts
 */
export function methodVersion(of?: any[][]): string {
  void of; // Excel alone needs it, to know when to recalculate.
  return version;
}
