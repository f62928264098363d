import { expect, it } from "vitest";
import { writeJsonPieces } from "../../src/cli/recalc/print-json";

it.each([
  [null],
  ["“text”\n\u2028"],
  [[]],
  [{}],
  [{ a: undefined, b: [] }],
  [{ exitCode: 0, list: [1, "a", null, true, { deep: [[], {}, [2]] }], 'odd "key"': { a: undefined, b: 1.5e300 } }],
])("gives what JSON.stringify gives: %j", (value) => {
  expect([...writeJsonPieces(value)].join("\n")).toBe(JSON.stringify(value, null, 2));
});

it("gives long lists in pieces, whole lines each", () => {
  const list = Array.from({ length: 30 }, (_, index) => String(index).repeat(10_000));
  const pieces = [...writeJsonPieces({ list })];
  expect(pieces.length).toBeGreaterThan(3);
  expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(90_000);
  expect(pieces.join("\n")).toBe(JSON.stringify({ list }, null, 2));
});
