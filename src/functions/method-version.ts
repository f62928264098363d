import { methodVersion as version } from "../core/index";

/**
 * Version of the calculation method, for the report: two workbooks with the same version compute the same.
 * Give it a cell of the results: Excel then recalculates the version whenever it recalculates them, also after an update of the add-in.
 * What the cell holds does not count, not even an error.
 * @customfunction METHODVERSION
 * @param [of] A cell of the results whose version it is. 0, blank or an error changes nothing.
 * @returns The version.
 * @core version.ts
 * @check functions/cells.test.ts
 */
export function methodVersion(of?: any[][]): string {
  void of; // Excel alone needs it, to know when to recalculate.
  return version;
}
