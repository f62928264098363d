import { type ComputedRun, formatCount, type HouseTest, nameDirection, type TestsInBook } from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";
import { cutList, alignColumns, indentLines } from "../shared/report-lines";
import { sentence, shorten } from "../../workbook/index";

/** What to draw, or the lines explaining why nothing can be chosen. */
export type Choice = { readonly test: HouseTest } | { readonly refusal: readonly string[] };

/** The test to draw: that of the named cells, otherwise the only one. */
export function chooseTest(found: TestsInBook, cells: readonly string[]): Choice {
  if (cells.length > 0)
    return { test: found.describeTest(requireSameSettings(cells.map((cell) => runAt(found, cell)))) };
  const [only, ...more] = found.tests;
  if (only && more.length === 0) return { test: only };
  if (!only) {
    const reasons = found.refused.map(({ cell, reason }) => `${cell}: ${reason}`);
    return reasons.length > 0
      ? { refusal: ["no test in the workbook can be drawn yet:", ...indentLines(cutList(reasons))] }
      : {
          refusal: ["the workbook has no test: no cell calls TESTRESULT, RESULTCARD or LEAKAGEFIT with readings"],
        };
  }
  return {
    refusal: [
      `the workbook holds ${formatCount(found.tests.length, "graph")}; choose one with --cell, or several cells for one graph:`,
      ...indentLines(cutList(listTests(found.tests))),
    ],
  };
}

/** A line for each run, with those of one test together. */
export function listTests(tests: readonly HouseTest[]): string[] {
  const rows = tests.flatMap(({ runs }) =>
    runs.map((run, index) => [
      index === 0 ? "--cell" : "  with",
      `'${run.cell.replaceAll("'", "")}'`,
      nameDirection(run),
      formatCount(run.curve.used.length, "reading"),
      `n ${run.curve.exponent.value.toFixed(3)}`,
      `q50 ${Number(run.curve.q50.value.toPrecision(4))} ${run.flowUnit ?? ""}`.trim(),
    ]),
  );
  return alignColumns(rows);
}

function runAt({ computed, refused }: TestsInBook, cell: string): ComputedRun {
  const wanted = stripAddress(cell);
  const found = computed.find((run) => stripAddress(run.cell) === wanted);
  if (found) return found;
  const why = refused.find((run) => stripAddress(run.cell) === wanted);
  if (why) throw new BadArgument(`--cell ${shorten(cell)}: ${why.reason}`);
  throw new BadArgument(sentence`--cell ${cell}: this cell computes no test, or repeats another (see --list)`);
}

/** Addresses are the same with and without quotes and dollar signs, in any case. */
const stripAddress = (address: string) => address.replace(/[$']/g, "").toLowerCase();

function requireSameSettings(runs: readonly ComputedRun[]): ComputedRun[] {
  const [first] = runs;
  for (const { cell, flowUnit, confidence } of runs) {
    if (flowUnit !== first?.flowUnit)
      throw new BadArgument(sentence`--cell ${cell}: its flows are in a different unit`);
    if (confidence !== first?.confidence)
      throw new BadArgument(sentence`--cell ${cell}: its limits have a different confidence level`);
  }
  return [...new Set(runs)];
}
