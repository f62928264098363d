export {
  type Area,
  type Book,
  type Cell,
  buildCellKey,
  type CellValue,
  type ErrorCode,
  ErrorValue,
  type Formula,
  type Sheet,
} from "./model";
export { type OpenedWorkbook, openWorkbook } from "./file/open";
export { type ProblemKind, sentence, shorten, WorkbookProblem } from "./file/problem";
export { refuseLargeFile } from "./file/zip/directory";
export { isSameValue, writeBack } from "./file/write/write-back";
export { readProperties } from "./file/properties";
export type { CellPatch } from "./file/write/cell-edits";
export {
  formatAreaAddress,
  formatCellAddress,
  formatFullAddress,
  parsePlace,
  parseSheetArea,
  quoteSheetName,
} from "./book/address";
export { isErrorCode } from "./file/sheet/values";
export { type InputRule, readInputs } from "./file/input-rules";
export { evaluateBook, type EvaluateOptions } from "./formula/evaluate";
export { reduceLimits, usualLimits, type WorkDone, type WorkLimits } from "./formula/work-limits";
export {
  compareWithStored,
  type Difference,
  type EvaluatedCell,
  type Evaluation,
  type Outcome,
} from "./formula/evaluation";
export { type CellChange, partOfArray } from "./formula/grid/override";
export type { AddInCall, AddInFunction, AddInParameter, AddInRegistry } from "./formula/calls/add-in";
export { daysTo1904 } from "./formula/functions/dates";
export { toStoredForm, toTypedForm } from "./formula/parse/formula-text";
export { describeGraph, describeInWords, drawLeakageGraph, nameDirection } from "./graph/leakage-graph";
export { chooseLooks, type Marker, mostLines } from "./graph/line-style";
export { describeTarget } from "./graph/targets";
export type { GraphData } from "./graph/data";
export type { ComputedRun } from "./book/tests/computed-runs";
export { type HouseTest, readTests, TestsInBook } from "./book/tests/tests-in-book";
export { type FileReport, judgeOutcome, type Verification, verifyWorkbook } from "./verify/verify";
export type { Finding } from "./verify/finding";
export { beyondPrograms } from "./verify/assurance";
export { type CausedFinding, gatherByCause, joinPlaces } from "./verify/causes";
export { type TraceInput, traceOf } from "./trace/trace";
export { describeValue, type Trace, type TracedPlace } from "./trace/tree";
export { composeTitle, describeKind, formatValue as formatTracedValue, listDetails } from "./trace/outline";
export { putNumbersIn } from "./trace/with-numbers";
export { traceAsHtml } from "./trace/print-html";
export { traceAsJson, traceAsMarkdown, traceAsText } from "./trace/print";
export {
  type NamedCell,
  type PageContent,
  type PagePart,
  prepareSheets,
  writeWorkbookPage,
} from "./page/workbook-page";
export { formatCellText, formatDateValue } from "./page/cell-text";
export { buildCellId } from "./page/sheet-cell";
export { escapeHtml, writeTag } from "./html";
export {
  explainRefusal,
  type IssueRefusal,
  formatDayOfIssue,
  issueCopy,
  type IssueOptions,
} from "./issue-copy/issue-copy";
export { computeFingerprint } from "./issue-copy/fingerprint";
export { type IssueMark, readIssueMark, withFrozenFormulas } from "./issue-copy/mark";
export type { Labels } from "./book/labels";
export { Inspector, readLabels } from "./book/inspector";
export { areaOf, type Place, placeKey } from "./book/area";
export { type Argument, type Call, findFilledArea } from "./book/add-in-calls";
export { findVerdicts, type Verdict } from "./verify/verdicts";
export { FormulaReader, type FormulaReads } from "./book/formula-reads";
export { type CellErrors, type ErrorOrigin, findErrors } from "./errors/error-origins";
export { clientNames } from "./issue-copy/client-view";
export { fillForm, keptName, listJobCells } from "./forms/form";
export { takeFirm } from "./forms/firm";
export { addSettingsSheet } from "./forms/settings-sheet";
export { collectPatches } from "./file/write/patches";
export { type CellReader, type Summary, readSummary } from "./book/summary";
export {
  describeAssurance,
  describeBasis,
  describeFigure,
  reviewAsMarkdown,
  reviewAsText,
  reviewTotals,
} from "./verify/print";
export { reviewAsHtml } from "./verify/print-html";
export { formatCount, formatCellValue, describeFaults, formatList, showFormula } from "./formatting";
export { registerFunctions } from "./formula/calls/registry";
export { fitToCell, readTypedValue, type TypedRefusal, type TypedValue } from "./book/typed-value";
export { readMoment, showsMoment } from "./book/typed-moment";
export { previewFormula } from "./book/preview";
export { type TypedCell, typeIntoCells } from "./file/write/typed-cells";
export { addPlainSheet } from "./added-sheet/plain-sheet";
