export {
  type Area,
  type Book,
  type Cell,
  cellKey,
  type CellValue,
  type ErrorCode,
  ErrorValue,
  type Formula,
  type Sheet,
} from "./model";
export { openWorkbook, type OpenedWorkbook } from "./file/open";
export { sentence, shorten, WorkbookProblem, type ProblemKind } from "./file/problem";
export { refuseLargeFile } from "./file/zip/directory-checks";
export { writeBack } from "./file/write/write-back";
export type { CellPatch } from "./file/write/cell-patch";
export { parsePlace } from "./file/address";
export { isErrorCode } from "./file/sheet/values";
export { readInputRules, type InputRule } from "./file/input-rules";
export { sameValue } from "./file/write/same";
export { evaluateBook, type EvaluateOptions } from "./formula/evaluate";
export { limitsAfter, usualLimits, type WorkDone, type WorkLimits } from "./formula/values/work";
export type { EvaluatedCell, Evaluation, Outcome } from "./formula/evaluation";
export { compareWithStored, type Difference } from "./formula/compare-stored";
export { type CellChange, partOfArray } from "./formula/grid/override";
export type { AddInCall, AddInFunction, AddInParameter, AddInRegistry } from "./formula/calls/add-in";
export { areaAddress, cellAddress, fullAddress, quotedSheetName } from "./formula/parse/address";
export { mayBeNumber } from "./formula/values/text-number";
export { withoutFilePrefixes } from "./formula/parse/prefixes";
export { leakageGraph } from "./graph/leakage-graph";
export { mostLines } from "./graph/looks";
export type { GraphData } from "./graph/data";
export { testsInBook, type TestsInBook } from "./graph-tests/tests-in-book";
export type { DrawnTest } from "./graph-tests/drawn-test";
export { groupsOf } from "./graph-tests/groups";
export { limitsOf } from "./graph-tests/limits";
export { graphDataOf } from "./graph-tests/graph-data";
export { verifyWorkbook, type Verification } from "./verify/verify";
export type { Finding } from "./verify/finding";
export { palette, typeface } from "./palette";
export { traceOf, type TraceInput } from "./trace/trace";
export type { Trace } from "./trace/tree";
export { traceAsHtml } from "./trace/print-html";
export { traceAsJson } from "./trace/print-json";
export { traceAsMarkdown } from "./trace/print-markdown";
export { traceAsText } from "./trace/print-text";
export { asTyped } from "./formula/parse/as-typed";
export { workbookPage, type NamedCell, type PageContent, type PagePart } from "./page/workbook-page";
export { cellText } from "./page/cell-text";
export { cellId } from "./page/cell-id";
export { escaped, tag } from "./page/html";
export { policyTag } from "./page/policy";
export { issueCopy, type IssueOptions, type IssueRefusal } from "./issue-copy/issue-copy";
export { fingerprintOf } from "./issue-copy/fingerprint";
export { readIssueMark, type IssueMark } from "./issue-copy/mark";
export { FormulaReader, type FormulaReads } from "./reads/formula-reads";
export { withFrozenFormulas } from "./issue-copy/with-formulas";
