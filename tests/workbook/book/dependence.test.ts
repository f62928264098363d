import { expect, it } from "vitest";
import { areaOf, type Place, placeKey } from "../../../src/workbook/book/area";
import { Inspector } from "../../../src/workbook/book/inspector";
import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { bookOf, f, sheet } from "../formula/book";

const at = (row: number, column: number): Place => ({ sheet: 0, row: row - 1, column });
const reading = at(1, 0);
/** Cells with whether they depend on the reading; the last two read each other. */
const expected: readonly (readonly [cell: Place, depends: boolean])[] = [
  [reading, true],
  [at(2, 0), false],
  [at(1, 1), true],
  [at(2, 1), true],
  [at(3, 1), false],
  [at(4, 1), true],
  [at(5, 1), true],
];

it("a cell depends on what it reads at any remove, in whatever order one asks", () => {
  const cells = { A1: 1, A2: 2, B1: f("SUM(A1:A2)"), B2: f("B1*2"), B3: f("A2+1"), B4: f("B5+B3"), B5: f("B4+B2") };
  const book = bookOf([sheet("Sheet1", cells)]);
  const evaluation = evaluateBook(book);
  const [first, second, ...others] = expected;
  for (const order of [expected, expected.toReversed(), [...others, second!, first!]]) {
    const view = new Inspector(book, evaluation, new Map(), undefined);
    const readings = new Set([placeKey(reading)]);
    expect(order.map(([cell]) => [cell, view.dependsOn([areaOf(cell)], readings)])).toEqual(order);
  }
});

it("what a cell depends on is found as far as asked", () => {
  const cells = { A1: 1, B1: f("A1+1"), B2: f("B1*2"), B3: f("B2+A2"), A2: 2 };
  const book = bookOf([sheet("Sheet1", cells)]);
  const view = new Inspector(book, evaluateBook(book), new Map(), undefined);
  const list = (...asFarAs: readonly Place[]): string[] =>
    [...view.findUpstream([areaOf(at(3, 1))], new Set(asFarAs.map(placeKey))).values()].map((place) =>
      view.formatAddress(place),
    );
  expect(list().sort()).toEqual(["Sheet1!A1", "Sheet1!A2", "Sheet1!B1", "Sheet1!B2", "Sheet1!B3"]);
  expect(list(at(2, 1)).sort()).toEqual(["Sheet1!A2", "Sheet1!B2", "Sheet1!B3"]);
  // What was found for one question does not answer the other.
  expect([...view.findUpstream([areaOf(at(3, 1))]).values()]).toHaveLength(5);
});
