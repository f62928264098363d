export { openWorkbook, type OpenedWorkbook } from "./file/open";
export { WorkbookProblem, type ProblemKind } from "./file/problem";
export { writeBack } from "./file/write-back";
export type { CellPatch } from "./file/cell-patch";
export { areaName, columnName, parseArea, parsePlace, placeName } from "./file/address";
