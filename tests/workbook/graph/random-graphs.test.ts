import fc from "fast-check";
import { expect, it } from "vitest";
import type { GraphData } from "../../../src/workbook/graph/data";
import { drawLeakageGraph } from "../../../src/workbook/graph/leakage-graph";
import { lineOf } from "./cases";
import { marksOf, readSvg } from "./read-svg";
import { misplacedWords } from "./words-apart";
import { slow } from "../../time-outs";

const magnitude = fc.double({ min: -5, max: 8, noNaN: true }).map((power) => 10 ** power);
const deviation = fc.double({ min: -0.08, max: 0.08, noNaN: true });

const line = fc
  .record({
    name: fc.string({ unit: "grapheme", minLength: 1, maxLength: 60 }),
    look: fc.constantFrom("depressurization" as const, "pressurization" as const, "other" as const),
    coefficient: magnitude,
    exponent: fc.double({ min: 0.45, max: 1.05, noNaN: true }),
    lowest: fc.double({ min: 2, max: 60, noNaN: true }),
    span: fc.double({ min: 1.1, max: 8, noNaN: true }),
    off: fc.array(deviation, { minLength: 3, maxLength: 14 }),
    excluded: fc.array(fc.tuple(fc.double({ min: 3, max: 120, noNaN: true }), deviation), { maxLength: 3 }),
  })
  .map(({ lowest, span, off, excluded, coefficient, exponent, ...rest }) => {
    const pressures = off.map((_, index) => lowest * span ** (index / (off.length - 1)));
    const out = excluded.map(([pressure, factor]) => ({
      pressure,
      flow: coefficient * pressure ** exponent * (1 + 3 * factor),
    }));
    return lineOf({ ...rest, coefficient, exponent, pressures, off, excluded: out });
  });

const graph = fc.record({
  lines: fc.array(line, { minLength: 1, maxLength: 6 }),
  share: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { maxLength: 3 }),
  words: fc.string({ maxLength: 60 }),
});

it("any graph is well-formed, shows every reading, and keeps its words apart", { timeout: slow }, () => {
  fc.assert(
    fc.property(graph, ({ lines, share, words }) => {
      const first = lines[0]?.q50.value ?? 1;
      const data: GraphData = {
        title: words,
        subtitle: words,
        flowUnit: "m³/h",
        lines,
        targets: share.map((power, index) => ({
          pressure: index === 0 ? 50 : 25 * index,
          flow: first * 10 ** power,
          words,
        })),
        confidence: 0.95,
        note: words,
      };
      const text = drawLeakageGraph(data);
      expect(text).not.toMatch(/NaN|Infinity|undefined/);
      const svg = readSvg(text);
      expect(marksOf(svg)).toHaveLength(
        lines.reduce((sum, { used, excluded }) => sum + used.length + excluded.length, 0),
      );
      expect(misplacedWords(svg)).toEqual([]);
    }),
    { numRuns: 300, seed: 20261125 },
  );
});
