export { openWorkbook, type OpenedWorkbook } from "./file/open";
export { WorkbookProblem, type ProblemKind } from "./file/problem";
