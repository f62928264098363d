import { evaluateBook } from "../../../src/workbook/formula/evaluate";
import { parseColumn } from "../../../src/workbook/book/address";
import { traceOf } from "../../../src/workbook/trace/trace";
import type { Trace } from "../../../src/workbook/trace/tree";
import type { Book } from "../../../src/workbook/model";
import { bookOf, sheet, type Content } from "../formula/book";

export const functions = [
  {
    id: "TWICE",
    description: "Twice a value, of any unit: 2 times. Equation: y = 2·x. Source: plain arithmetic, clause 1.",
    parameters: [{ name: "x" }],
  },
  {
    id: "STEPS",
    description:
      "Two steps as a table. Columns: what it is, symbol, value, unit, source. Equation: b = a². Source: an invented handbook, ch. 2.",
    parameters: [{ name: "side_length" }],
  },
];

const matrix = (name: string) => ({ name, matrix: true, repeating: false, type: "any" as const });

export const addIn = new Map([
  ["TWICE", { parameters: [matrix("x")], compute: (x: unknown) => 2 * Number((x as unknown[][])[0]?.[0]) }],
  [
    "STEPS",
    {
      parameters: [matrix("side_length")],
      compute: (x: unknown) => {
        const side = Number((x as unknown[][])[0]?.[0]);
        return [
          ["side", "a", side, "m", "handbook 2.1"],
          ["area", "b", side * side, "m²", "handbook 2.2"],
        ];
      },
    },
  ],
]);

export function traced(book: Book, address: string, depth?: number): Trace {
  const evaluation = evaluateBook(book, { addIn });
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  const trace = traceOf({ book, evaluation, addIn, functions, ...(depth === undefined ? {} : { depth }) });
  return trace(0, Number(digits) - 1, parseColumn(letters));
}

export const one = (contents: Record<string, Content>, more: Parameters<typeof bookOf>[1] = {}) =>
  bookOf([sheet("Test", contents)], more);

export const inputs = (trace: Trace) => trace.inputs.map((address) => address.replace("Test!", ""));
