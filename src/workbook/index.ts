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
export { refuseLargeFile } from "./file/zip/directory";
export { sameValue, writeBack } from "./file/write/write-back";
export type { CellPatch } from "./file/write/cell-edits";
export { areaAddress, cellAddress, fullAddress, parsePlace, quotedSheetName } from "./book/address";
export { isErrorCode } from "./file/sheet/values";
export { readInputRules, type InputRule } from "./file/input-rules";
export { evaluateBook, type EvaluateOptions } from "./formula/evaluate";
export { limitsAfter, usualLimits, type WorkDone, type WorkLimits } from "./formula/values/work";
export {
  compareWithStored,
  type Difference,
  type EvaluatedCell,
  type Evaluation,
  type Outcome,
} from "./formula/evaluation";
export { type CellChange, partOfArray } from "./formula/grid/override";
export type { AddInCall, AddInFunction, AddInParameter, AddInRegistry } from "./formula/calls/add-in";
export { mayBeNumber } from "./formula/values/number-text";
export { asTyped, withoutFilePrefixes } from "./formula/parse/formula-text";
export { leakageGraph } from "./graph/leakage-graph";
export { mostLines } from "./graph/line-style";
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
export { traceAsJson, traceAsMarkdown, traceAsText } from "./trace/print";
export { workbookPage, type NamedCell, type PageContent, type PagePart } from "./page/workbook-page";
export { cellText } from "./page/sheet-cell";
export { cellId, escaped, policyTag, tag } from "./page/html";
export { issueCopy, type IssueOptions, type IssueRefusal } from "./issue-copy/issue-copy";
export { fingerprintOf } from "./issue-copy/fingerprint";
export { type IssueMark, readIssueMark, withFrozenFormulas } from "./issue-copy/mark";
export { FormulaReader, type FormulaReads } from "./book/formula-reads";
