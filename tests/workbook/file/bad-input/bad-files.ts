import { strToU8 } from "fflate";
import { expect } from "vitest";
import { openWorkbook, WorkbookProblem } from "../../../../src/workbook/index";
import { sheetOf } from "../package";

/** The problem with which the bytes are refused; an ordinary opening or another error fails the test. */
export function problemOf(bytes: Uint8Array, mostCells?: number): WorkbookProblem {
  try {
    openWorkbook(bytes, mostCells === undefined ? {} : { mostCells });
  } catch (problem) {
    if (problem instanceof WorkbookProblem) return problem;
    throw problem;
  }
  throw new Error("the workbook opened");
}

export function expectProblem(bytes: Uint8Array, kind: WorkbookProblem["kind"], words: RegExp): void {
  const problem = problemOf(bytes);
  expect(problem.kind).toBe(kind);
  expect(problem.message).toMatch(words);
  expect(problem.message).not.toMatch(/\n/);
}

export const sound = sheetOf('<row r="1"><c r="A1"><v>1</v></c></row>');

/** Changes 32-bit fields of the first directory record of the given entry (APPNOTE 4.3.12). */
export function withDirectoryField(bytes: Uint8Array, name: string, fields: Record<number, number>): Uint8Array {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer);
  const wanted = strToU8(name);
  for (let at = changed.length - 46; at > 0; at--) {
    if (view.getUint32(at, true) !== 0x02014b50) continue;
    if (wanted.every((byte, index) => changed[at + 46 + index] === byte)) {
      for (const [offset, value] of Object.entries(fields)) view.setUint32(at + Number(offset), value, true);
      return changed;
    }
  }
  throw new Error(`no entry ${name}`);
}
