import { methodVersion } from "../../../src/core/index";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { openWorkbook, type OpenedWorkbook } from "../../../src/workbook/index";
import { issueCopy, type Issued, type IssueOptions } from "../../../src/workbook/issue-copy/issue-copy";

const addIn = addInRegistry();
const usual: IssueOptions = {
  addIn,
  methodVersion,
  issued: "2026-11-05",
  now: new Date(2026, 10, 5, 12),
  keepOldValues: false,
  whole: false,
};

/** What issuing gives: a copy, or the reason why there is none. */
export const issue = (bytes: Uint8Array, options: Partial<IssueOptions> = {}) =>
  issueCopy(openWorkbook(bytes), { ...usual, ...options });

/** A copy that must come about, opened. */
export function issued(bytes: Uint8Array, options: Partial<IssueOptions> = {}): Issued & { opened: OpenedWorkbook } {
  const copy = issue(bytes, options);
  if ("reason" in copy) throw new Error(`${copy.reason}: ${copy.cells.join(", ")}`);
  return { ...copy, opened: openWorkbook(copy.bytes) };
}
