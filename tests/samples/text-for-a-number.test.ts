import { describe, expect, it } from "vitest";
import type { CellValue } from "../../src/workbook/index";
import { cellAt, namedCell } from "./look-up";
import { placeOf } from "./package";
import { sample, type Typed } from "./sample";
import { slow } from "../time-outs";

/**
 * SUM, AVERAGE and COUNT leave text out without a word, so that a number pasted as text makes a house smaller or tighter. Here every fifth number of a form is
 * typed as text in its turn: no figure of the summary may then be another number than before. Counts may.
 */
const forms: readonly (readonly [file: string, counts: RegExp])[] = [
  ["mid-construction.xlsx", /^Leaks/],
  ["multi-unit.xlsx", /^(Units|with a|Share of the units|Positions)/],
  ["envelope-what-if.xlsx", /^$/],
  ["test-day.xlsx", /^(Parts of the day|Still to do)/],
];

/** The figures of the summary by their labels. */
function figures({ book, evaluation }: Typed): ReadonlyMap<string, CellValue> {
  const { sheet, top, bottom, left } = namedCell(book, "Summary");
  const at = (row: number, column: number) => cellAt(book, evaluation, sheet, row, column);
  const rows = Array.from({ length: bottom - top + 1 }, (_, index) => top + index);
  return new Map(rows.map((row) => [(at(row, left) as string).trim(), at(row, left + 1)]));
}

describe.each(forms)("a number typed as text in %s", { timeout: slow }, (file, counts) => {
  const { typed, typedCells, book } = sample(file);
  const before = figures(typed());

  it("turns no figure of the summary into another one", { timeout: slow }, () => {
    const isNumber = (place: string) => {
      const [name = "", address = ""] = place.split("!");
      const { row, column } = placeOf(address);
      const cells = book.sheets.find((sheet) => sheet.name === name)?.cells.values() ?? [];
      return typeof [...cells].find((cell) => cell.row === row && cell.column === column)?.value === "number";
    };
    const numbers = typedCells.filter(isNumber).filter((_, index) => index % 5 === 0);
    expect(numbers.length).toBeGreaterThan(5);
    expect([...before.values()].filter((value) => typeof value === "number").length).toBeGreaterThan(3);
    const changed = numbers.flatMap((place) =>
      [...figures(typed({ [place]: "x1" }))].flatMap(([label, value]) => {
        const was = before.get(label);
        const isOther = typeof was === "number" && typeof value === "number" && Math.abs(value / was - 1) > 1e-12;
        return isOther && !counts.test(label) ? [`${place}: ${label} ${was} → ${value}`] : [];
      }),
    );
    expect(changed).toEqual([]);
  });
});
