import { expect, it } from "vitest";
import type { AddInRegistry } from "../../../src/workbook/formula/calls/add-in";
import { dynamic, evaluated, f } from "./book";

const double = (basicValue: number) => ({ type: "Double", basicType: "Double", basicValue });
const addIn: AddInRegistry = new Map([
  [
    "CARD",
    { parameters: [], compute: () => ({ ...double(0.57), properties: { n50: double(0.57), q50: double(239) } }) },
  ],
]);

it("a card counts as its number, and its properties are read as a file stores =A1.q50", () => {
  const { at } = evaluated(
    {
      A1: dynamic("A1", "_xldudf_STILLAIR_CARD()"),
      A2: dynamic("A2", "_xldudf_STILLAIR_CARD()*2"),
      B1: f("A1*10"),
      B2: f('_FV(A1,"q50")'),
      B3: f('_xlfn._FV(A1,"N50")+1'),
      B4: f('_FV(A1,"C_L")'),
    },
    { addIn },
  );
  expect(["B1", "B2", "B3"].map(at)).toEqual([5.699999999999999, 239, 1.5699999999999998]);
  expect(at("B4")).toBe("#FIELD!");
});

it("a property of a cell that holds no card is not evaluated, and says why", () => {
  const { evaluation } = evaluated(
    { A1: 4, A2: dynamic("A2", "_xldudf_STILLAIR_CARD()*2"), B1: f('_FV(A1,"n50")'), B2: f('_FV(A2,"n50")') },
    { addIn },
  );
  const reasons = evaluation.cells
    .filter(({ outcome }) => !outcome.evaluated)
    .map(({ address, outcome }) => [address, outcome.evaluated ? "" : outcome.reason]);
  const reason = "a property of a cell that holds no card of the add-in";
  expect(reasons).toEqual([
    ["Sheet1!B1", reason],
    ["Sheet1!B2", reason],
  ]);
});
