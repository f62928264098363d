import { describe, expect, it } from "vitest";
import { formatAreaAddress } from "../../../src/workbook/index";
import { findFrozenCells } from "../../../src/workbook/issue-copy/frozen-cells";
import { listLines } from "../../../src/workbook/issue-copy/formula-list";
import { openWorkbook } from "../../../src/workbook/index";
import { dynamicArrays, packageOf } from "../file/package";
import { issued } from "./issued";

type Content = number | string;

/** A sheet from its cells; a formula begins with "=", and one with a range before it fills that range: "B2:D2=…". */
function bookOf(cells: Readonly<Record<string, Content>>): Uint8Array {
  const rows = new Map<string, string[]>();
  for (const [address, content] of Object.entries(cells)) {
    const row = /\d+/.exec(address)![0];
    const [range = "", formula] = typeof content === "string" ? content.split(/=(.*)/s) : [""];
    const text =
      formula !== undefined
        ? formula.includes("STILLAIR")
          ? `<c r="${address}" cm="1"><f t="array" ref="${range || address}">${formula}</f><v>2</v></c>`
          : `<c r="${address}"><f>${formula}</f><v>2</v></c>`
        : typeof content === "number"
          ? `<c r="${address}"><v>${content}</v></c>`
          : `<c r="${address}" t="inlineStr"><is><t>${content}</t></is></c>`;
    rows.set(row, [...(rows.get(row) ?? []), text]);
  }
  const data = [...rows]
    .sort(([a], [b]) => Number(a) - Number(b))
    .map(([row, own]) => `<row r="${row}">${own.join("")}</row>`);
  return packageOf({ sheets: [`<sheetData>${data.join("")}</sheetData>`], metadata: dynamicArrays });
}

const lines = (cells: Readonly<Record<string, Content>>) => {
  const { book } = openWorkbook(bookOf(cells));
  return listLines(book, findFrozenCells(book));
};
const told = (cells: Readonly<Record<string, Content>>) =>
  lines(cells).map(
    ({ cells: place, count, kind, formula, standsOut }) =>
      `${place} ${count} ${kind} ${formula}${standsOut ? " !" : ""}`,
  );

const flow = (row: number, coefficient = `A${row}`) => `=_xldudf_STILLAIR_LEAKAGEFLOW(${coefficient},1,50)`;
const column = (first: number, last: number, entry: (row: number) => Content = (row) => flow(row)) =>
  Object.fromEntries(
    Array.from({ length: last - first + 1 }, (_, place) => [`B${first + place}`, entry(first + place)]),
  );

describe("formulas alike share a line", () => {
  it("down a column, with the formula of the first cell, and with fixed references", () => {
    expect(told(column(5, 24))).toEqual(["B5:B24 20 spilling =STILLAIR.LEAKAGEFLOW(A5,1,50)"]);
    expect(told(column(5, 24, (row) => flow(row, "$A$5")))).toEqual([
      "B5:B24 20 spilling =STILLAIR.LEAKAGEFLOW($A$5,1,50)",
    ]);
  });

  it("along a row, and over a whole table", () => {
    const row = (number: number) =>
      Object.fromEntries(["C", "D", "E"].map((letter) => [`${letter}${number}`, flow(number, `${letter}$1`)]));
    expect(told(row(3))).toEqual(["C3:E3 3 spilling =STILLAIR.LEAKAGEFLOW(C$1,1,50)"]);
    expect(told({ ...row(3), ...row(4), ...row(5), ...row(6) })).toEqual([
      "C3:E6 12 spilling =STILLAIR.LEAKAGEFLOW(C$1,1,50)",
    ]);
  });

  it("where each fills several cells", () => {
    const rows = Object.fromEntries(
      [2, 3, 4].map((row) => [`B${row}`, `B${row}:D${row}=_xldudf_STILLAIR_LEAKAGEFLOW(F${row}:H${row},1,50)`]),
    );
    expect(told(rows)).toEqual(["B2:D4 3 spilling, 1 × 3 each =STILLAIR.LEAKAGEFLOW(F2:H2,1,50)"]);
  });

  it("but not where one reads another cell, calls something else, or is dragged from elsewhere", () => {
    expect(told({ B2: flow(2), B3: flow(3), B4: flow(2), B5: flow(5, "$A5") })).toEqual([
      "B2:B3 2 spilling =STILLAIR.LEAKAGEFLOW(A2,1,50)",
      "B4 1 spilling =STILLAIR.LEAKAGEFLOW(A2,1,50)",
      "B5 1 spilling =STILLAIR.LEAKAGEFLOW($A5,1,50)",
    ]);
  });
});

describe("what interrupts them stands out, between them", () => {
  it.each([
    ["a formula of the add-in's that differs", flow(10, "A9"), "B10 1 spilling =STILLAIR.LEAKAGEFLOW(A9,1,50) !"],
    ["a typed number", 2, "B10 1 typed  !"],
    ["a typed text", "none", "B10 1 typed  !"],
    ["an ordinary formula", "=A10*2", "B10 1 live formula =A10*2 !"],
  ])("%s", (_, content, line) => {
    expect(told({ ...column(5, 24), B10: content })).toEqual([
      "B5:B9 5 spilling =STILLAIR.LEAKAGEFLOW(A5,1,50)",
      line,
      "B11:B24 14 spilling =STILLAIR.LEAKAGEFLOW(A11,1,50)",
    ]);
  });

  it("a blank cell", () => {
    expect(told({ ...column(5, 9), ...column(11, 24) })[1]).toBe("B10 1 blank  !");
  });

  it("one in a second column, whose first is whole", () => {
    const second = column(5, 24, (row) => flow(row, `$A${row}`));
    const both = Object.fromEntries(Object.entries(second).map(([place, text]) => [place.replace("B", "C"), text]));
    expect(told({ ...second, ...both, C10: 7 })).toEqual([
      "B5:B24 20 spilling =STILLAIR.LEAKAGEFLOW($A5,1,50)",
      "C5:C9 5 spilling =STILLAIR.LEAKAGEFLOW($A5,1,50)",
      "C10 1 typed  !",
      "C11:C24 14 spilling =STILLAIR.LEAKAGEFLOW($A11,1,50)",
    ]);
  });

  it("but not the headings between two tables", () => {
    expect(told({ ...column(5, 9), B11: "Second run", B12: "flow", ...column(13, 17) })).toEqual([
      "B5:B9 5 spilling =STILLAIR.LEAKAGEFLOW(A5,1,50)",
      "B13:B17 5 spilling =STILLAIR.LEAKAGEFLOW(A13,1,50)",
    ]);
  });

  it("says so in words too", () => {
    const [, line] = lines({ A10: "Kitchen", ...column(5, 24), B10: 7 });
    expect(line?.what).toBe("Unlike the cells around it: Kitchen");
    expect(line?.value).toBe(7);
  });
});

it("tells the values of several cells in few words", () => {
  const values = (cells: Readonly<Record<string, Content>>) => lines(cells)[0]?.value;
  expect(values(column(5, 24))).toBe("2");
  const { book } = openWorkbook(bookOf(column(5, 8)));
  const cells = [...(book.sheets[0]?.cells ?? [])].map(([key, cell], place) => [
    key,
    { ...cell, value: [0.123456789, 3, "pass", ""][place] ?? null },
  ]);
  const other = { ...book, sheets: [{ ...book.sheets[0]!, cells: new Map(cells as [number, never][]) }] };
  expect(listLines(other, findFrozenCells(other))[0]?.value).toBe("0.123457 to 3, “pass” 1, empty 1");
});

it("loses nothing: what shares lines is read back as every single formula", () => {
  const bytes = bookOf({
    ...Object.fromEntries(Array.from({ length: 20 }, (_, place) => [`A${place + 5}`, 0.04])),
    ...column(5, 24),
    B10: 2,
    B12: flow(12, "A11"),
  });
  const { mark } = issued(bytes);
  expect(mark.formulas.map(({ area, formula }) => `${formatAreaAddress(area)} ${formula}`).sort()).toEqual(
    Array.from({ length: 20 }, (_, place) => place + 5)
      .filter((row) => row !== 10)
      .map((row) => `B${row} =STILLAIR.LEAKAGEFLOW(A${row === 12 ? 11 : row},1,50)`)
      .sort(),
  );
});
