import { expect } from "vitest";
import { parsePlace } from "../../../src/workbook/book/address";
import { stripFilePrefixes } from "../../../src/workbook/formula/parse/formula-text";
import { buildCellKey, type Book } from "../../../src/workbook/model";
import type { Trace } from "../../../src/workbook/trace/tree";

type Place = Trace["places"][number];

/** Places that lead nowhere: what the traced cell rests on in the end. */
const leavesOf = ({ places }: Trace): Place[] => places.filter(({ branches }) => branches.length === 0);

/** The stored cell behind "Sheet!B4" or "'Air leakage'!B4". */
function stored(book: Book, address: string) {
  const [, quoted, plain = "", cell = ""] = /^(?:'((?:[^']|'')+)'|([^!]+))!(.+)$/.exec(address) ?? [];
  const sheet = book.sheets.find(({ name }) => name === (quoted?.replaceAll("''", "'") ?? plain));
  const place = parsePlace(cell);
  if (!sheet || !place) throw new Error(`no such cell: ${address}`);
  return sheet.cells.get(buildCellKey(place.row, place.column));
}

/** A formula that mentions no cell, name or table, such as =PI()/4 or =TODAY(): nothing stands behind it. */
function standsAlone(formula: string): boolean {
  const bare = stripFilePrefixes(formula).replace(/"[^"]*"/g, "");
  return !/\$?[A-Z]{1,3}\$?\d|[A-Z]:\$?[A-Z]|\[|!|(?<![\w.])[A-Za-z_]\w*(?![\w.(])/.test(
    bare.replace(/\b(TRUE|FALSE)\b/g, ""),
  );
}

/**
 * Every leaf is a typed or blank cell, or a range of them. A formula is one only where it mentions no cell, stands in a circle, or could
 * not be followed, and then it says so.
 */
export function expectInputs(book: Book, trace: Trace): void {
  for (const place of leavesOf(trace)) {
    const where = `${trace.places[0]?.address ?? ""}: ${place.address}`;
    if (place.kind === "input" || place.kind === "blank") {
      expect(stored(book, place.address)?.formula, where).toBeUndefined();
    } else if (place.kind === "range") {
      for (const { kind, address } of place.members ?? []) {
        expect(["input", "blank"], `${where}, ${address}`).toContain(kind);
        expect(stored(book, address)?.formula, `${where}, ${address}`).toBeUndefined();
      }
    } else {
      const excused = place.notes.length > 0 || place.notEvaluated !== undefined || standsAlone(place.formula ?? "");
      expect(excused, `${where} ${place.formula ?? ""}`).toBe(true);
    }
  }
  for (const address of trace.inputs) {
    const cell = stored(book, address);
    expect(cell?.formula, address).toBeUndefined();
    expect(cell?.value ?? null, address).not.toBeNull();
  }
}
