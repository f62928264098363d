import { formatCount, type DrawnTest, type TestsInBook } from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";
import { cutList, alignColumns, indentLines } from "../shared/words";
import { sentence, shorten } from "../../workbook/index";

/** What to draw, or the lines explaining why nothing can be chosen. */
export type Choice = { readonly group: readonly DrawnTest[] } | { readonly refusal: readonly string[] };

/** The tests to draw: those of the named cells, otherwise the only group. */
export function chooseGroup(
  { tests, undrawn }: TestsInBook,
  groups: readonly (readonly DrawnTest[])[],
  cells: readonly string[],
): Choice {
  if (cells.length > 0) return { group: requireSameSettings(cells.map((cell) => testAt(tests, undrawn, cell))) };
  const [only, ...more] = groups;
  if (only && more.length === 0) return { group: only };
  if (!only) {
    const reasons = undrawn.map(({ cell, reason }) => `${cell}: ${reason}`);
    return reasons.length > 0
      ? { refusal: ["no test in the workbook can be drawn yet:", ...indentLines(cutList(reasons))] }
      : {
          refusal: ["the workbook has no test: no cell calls TESTRESULT, RESULTCARD or LEAKAGEFIT with readings"],
        };
  }
  return {
    refusal: [
      `the workbook holds ${formatCount(groups.length, "graph")}; choose one with --cell, or several cells for one graph:`,
      ...indentLines(cutList(listOf(groups))),
    ],
  };
}

/** A line for each test, with those of one graph together. */
export function listOf(groups: readonly (readonly DrawnTest[])[]): string[] {
  const rows = groups.flatMap((group) =>
    group.map(({ cell, direction, line, flowUnit = "" }, index) => [
      index === 0 ? "--cell" : "  with",
      `'${cell.replaceAll("'", "")}'`,
      direction ?? line.name,
      formatCount(line.used.length, "reading"),
      `n ${line.exponent.value.toFixed(3)}`,
      `q50 ${Number(line.q50.value.toPrecision(4))} ${flowUnit}`.trim(),
    ]),
  );
  return alignColumns(rows);
}

function testAt(tests: readonly DrawnTest[], undrawn: TestsInBook["undrawn"], cell: string): DrawnTest {
  const wanted = stripAddress(cell);
  const found = tests.find((test) => stripAddress(test.cell) === wanted);
  if (found) return found;
  const why = undrawn.find((test) => stripAddress(test.cell) === wanted);
  if (why) throw new BadArgument(`--cell ${shorten(cell)}: ${why.reason}`);
  throw new BadArgument(sentence`--cell ${cell}: this cell computes no test, or repeats another (see --list)`);
}

/** Addresses are the same with and without quotes and dollar signs, in any case. */
const stripAddress = (address: string) => address.replace(/[$']/g, "").toLowerCase();

function requireSameSettings(group: readonly DrawnTest[]): DrawnTest[] {
  const [first] = group;
  for (const { cell, flowUnit, confidence } of group) {
    if (flowUnit !== first?.flowUnit)
      throw new BadArgument(sentence`--cell ${cell}: its flows are in a different unit`);
    if (confidence !== first?.confidence)
      throw new BadArgument(sentence`--cell ${cell}: its limits have a different confidence level`);
  }
  return [...new Set(group)];
}
