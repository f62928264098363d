import { profiles, standards } from "../../src/core/index";
import { onSheet } from "../blocks/address";
import type { RunPlaces } from "./direction";
import { sheetOf } from "./places";
import { readingRows } from "./reading-rows";

/** Rows of one run: title, heads and lines, a gap, heads and readings, a gap. */
export const shadowLineCount = 29;
const readingCount = readingRows.last - readingRows.first + 1;
const blockRows = 1 + 1 + shadowLineCount + 1 + 3 + readingCount + 2;
const firstBlock = 20;

/** Where the parts of one run's block stand, counted in the order of the tabs. */
export function shadowBlock(index: number) {
  const title = firstBlock + index * blockRows;
  const lines = title + 2;
  const readingHeads = lines + shadowLineCount + 3;
  const readings = readingHeads + 1;
  return {
    title,
    lines,
    readingHeads,
    readings,
    last: readings + readingCount - 1,
    end: title + blockRows - 1,
  } as const;
}

/** A cell on the sheet of a run. */
export function onRun({ direction, run }: Pick<RunPlaces, "direction" | "run">): (reference: string) => string {
  return (reference) => onSheet(sheetOf(direction, run), reference);
}

/** A formula: the standard's reference conditions count the viscosity too, as its profile says. */
export const countsViscosity = `OR(${standards
  .filter((standard) => profiles[standard].correction.value === "density and viscosity")
  .map((standard) => `TestStandard="${standard}"`)
  .join(",")})`;

/** A formula: the line of native functions is the technique that was chosen. */
export const isOrdinary = 'TestTechnique="ordinary"';

/** Agreement to nine digits. */
export const agreement = "0.000000001";
