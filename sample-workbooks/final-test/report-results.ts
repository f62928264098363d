import type { Sheet } from "../blocks/sheet";
import { decimals, palette, style } from "../blocks/style";
import { type BudgetTable, inBudget } from "./budget-places";
import type { Runs } from "./direction";
import { leakageChart } from "./graph";
import type { GraphPoints } from "./graph-points";
import { averaged } from "./quantities";
import { runHeads, runRow } from "./report-runs";
import type { ReportWriter } from "./report-writer";
import type { ResultPlaces } from "./result-places";
import type { Scenario } from "./scenario";

/** Coefficients and exponents with their limits, run by run; derived results; the graph. */
export function resultsPart(
  writer: ReportWriter,
  sheet: Sheet,
  { units }: Scenario,
  runs: Runs,
  results: ResultPlaces,
  points: GraphPoints,
): void {
  writer.heading("Line and coefficients, run by run");
  writer.heads([["B", "E", "<limits: scatter of the readings only"], ...runHeads(runs)]);
  const plainUnit = units.coefficient.replace(/\^\{n\}/, "ⁿ");
  const lines = [
    ["C", "value", `Air flow coefficient C_env, ${plainUnit}`, 2],
    ["C", "lower", "– lower limit", 2],
    ["C", "upper", "– upper limit", 2],
    ["n", "value", "Flow exponent n", 3],
    ["n", "lower", "– lower limit", 3],
    ["n", "upper", "– upper limit", 3],
    ["C_L", "value", `Air leakage coefficient C_L, ${plainUnit}`, 2],
    ["C_L", "lower", "– lower limit", 2],
    ["C_L", "upper", "– upper limit", 2],
    ["r2", "value", "Fit of the line, r²", 4],
    ["q50", "value", `Air leakage rate q50, ${units.flow}`, 1],
    ["q50", "lower", "– lower limit", 1],
    ["q50", "upper", "– upper limit", 1],
  ] as const;
  for (const [symbol, column, label, digits] of lines)
    runRow(writer, runs, label, decimals(digits), ({ wholeTest }) => wholeTest[column](symbol));
  writer.skip();
  writer.heading("Derived results, at reference conditions");
  writer.heads([
    ["B", "F", "<quantity"],
    ["G", "H", "depressurization"],
    ["I", "J", "pressurization"],
    ["K", "K", "mean"],
    ["L", "M", "<<unit"],
  ]);
  for (const { symbol, label, digits, unit } of averaged(units)) {
    const plain = label.replace(/_\{([^}]*)\}/g, "_$1");
    writer.cells([
      ["B", "F", `"${plain}"`],
      ["G", "H", results.cell(symbol, "depressurization"), decimals(digits)],
      ["I", "J", results.cell(symbol, "pressurization"), decimals(digits)],
      ["K", "K", results.cell(symbol, "mean"), decimals(digits)],
      ["L", "M", `"${unit}"`, "unit"],
    ]);
  }
  writer.skip();
  writer.heading(
    "Full intervals at 95 %, from the uncertainty budget: instruments, baseline, weather, sizes and scatter",
  );
  writer.heads([
    ["B", "E", "<quantity"],
    ["F", "G", "depressurization, from"],
    ["H", "H", "to"],
    ["I", "J", "pressurization, from"],
    ["K", "K", "to"],
    ["L", "L", "mean, from"],
    ["M", "M", "to"],
  ]);
  for (const { symbol, label, digits } of averaged(units)) {
    // The table is that of the first runs; the result may be the mean of several, and has the same relative interval.
    const limit = (table: BudgetTable, letter: "Q" | "R") => {
      const end = inBudget(table, symbol, letter);
      return `IFERROR(IF(${end}="","",${results.cell(symbol, table)}*${end}/${inBudget(table, symbol, "K")}),"")`;
    };
    writer.cells([
      ["B", "E", `"${label.replace(/_\{([^}]*)\}/g, "_$1")}"`],
      ["F", "G", limit("depressurization", "Q"), decimals(digits)],
      ["H", "H", limit("depressurization", "R"), decimals(digits)],
      ["I", "J", limit("pressurization", "Q"), decimals(digits)],
      ["K", "K", limit("pressurization", "R"), decimals(digits)],
      ["L", "L", limit("mean", "Q"), decimals(digits)],
      ["M", "M", limit("mean", "R"), decimals(digits)],
    ]);
  }
  writer.words(
    "Of the means, only the result that the criterion limits has an interval. Where a direction has several runs, the relative interval is that of its first run; repeated runs would make it slightly narrower.",
  );
  writer.skip();
  writer.heading("Air leakage graph");
  const top = writer.next - 1;
  const rows = 21;
  sheet.chart(leakageChart(points, { from: { row: top, col: 1 }, to: { row: top + rows, col: 13 } }, 8, units));
  sheet.heightOf(13, writer.next, writer.next + rows);
  writer.skip(rows + 1);
}

/** Cautions and signatures. */
export function signaturesPart(writer: ReportWriter, sheet: Sheet): void {
  writer.heading("Cautions and signatures");
  writer.words(
    "Seals taken off, ventilation, combustion appliances, water traps and alarms are to be restored and checked as the sheets Preparation and Cautions list them. " +
      "The result holds for the building as it was prepared on the day of the test. Local code and the certifier decide which standard, volume and limit hold; " +
      "the results are the tester’s responsibility, and this workbook replaces no licence.",
  );
  sheet.height(34, writer.next);
  writer.skip();
  const line = style({ top: palette.ink, size: 8, colour: palette.grey, vertical: "top" });
  const row = writer.next;
  sheet.put(`B${row}`, "Tested by: signature, day", line).paint(`B${row}:F${row}`, line);
  sheet.put(`I${row}`, "Checked by: signature, day", line).paint(`I${row}:M${row}`, line);
  writer.skip();
}
