import { type CheckName, checkNames } from "../../src/core/index";
import { keepBlanks } from "../blocks/add-in";
import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, decimals, looks, palette, shortDay, style } from "../blocks/style";
import type { Units } from "../blocks/units";
import { type GraphPoints, leakageChart } from "./graph";
import { gauges } from "./firm";
import { footer, readingRows, type ResultPlaces, sheets } from "./layout";
import { onRun } from "./native-lines";
import { preparationPlaces } from "./preparation";
import { ReportWriter, runColumns, runHeads, writeRunRow } from "./report-writer";
import { envelopeParts, roomTable } from "./rooms";
import type { Runs } from "./run";
import { averaged } from "./run-results";
import type { Scenario } from "./scenario";
import { type BudgetTable, inBudget } from "./uncertainty";
import { checkDigits, validityPlaces } from "./validity";

/** What a report by ISO 9972 holds, complete with the cover before it, each part on a page of its own. */
export function reportPage(form: Scenario, runs: Runs, results: ResultPlaces, points: GraphPoints): Page {
  const pages: string[] = [];
  const sheet = new Sheet(
    sheets.report,
    [1.5, form.units.system === "SI" ? 20 : 28, 7.2, 7.2, 7.2, ...Array<number>(8).fill(6.6)],
    palette.copper,
    {
      orientation: "portrait",
      areas: pages,
      titleRows: "1:1",
      pages: 5,
      footer,
    },
  );
  writePageHead(
    sheet,
    { ...letterhead, house: '"Report"&IF(ReportNumber="",""," "&ReportNumber)' },
    ["B", "M"],
    "Report of an airtightness test",
    "",
  );
  sheet.formula(
    "B3",
    '"Fan pressurization by "&TestStandard&IF(House="","",". "&House)&IF(Address="","",", "&Address)',
    looks.lead,
  );
  const writer = new ReportWriter(sheet);
  const parts = [
    () => {
      writeTest(writer);
      writeAirTable(writer, runs);
      writeInstruments(writer);
    },
    () => {
      writePreparation(writer);
      writeSizes(writer, form.units);
    },
    () => {
      writeReadings(writer, runs);
      writeGraph(writer, sheet, form.units, points);
    },
    () => {
      writeVerdict(writer, runs, results);
      writeResults(writer, form, runs, results);
    },
    () => {
      writeValidity(writer, runs);
      writeStatement(writer, sheet);
    },
  ];
  for (const part of parts) {
    const first = pages.length === 0 ? 1 : writer.next;
    part();
    pages.push(`B${first}:M${writer.next - 1}`);
  }
  return { sheet, names: {} };
}

/** Object, purpose, people and days; the building, the device, its services; what deviates from the standard. */
function writeTest(writer: ReportWriter): void {
  writer.heading("Object and purpose");
  writer.pair(["Building", keepBlanks("House")], ["Day of the test", keepBlanks("TestDate"), dateFormat]);
  writer.line("Address", keepBlanks("Address"));
  writer.pair(["Client", keepBlanks("Client")], ["Report", keepBlanks("ReportNumber")]);
  writer.line("Construction", keepBlanks("Construction"));
  writer.pair(["Purpose", keepBlanks("Purpose")], ["Kind of test", keepBlanks("KindOfTest")]);
  writer.pair(["Tested by", keepBlanks("Tester")], ["Checked by", keepBlanks("Reviewer")]);
  writer.pair(["Firm", keepBlanks("Firm")], ["Standard", keepBlanks("TestStandard")]);
  writer.pair(["Preparation", keepBlanks("PreparationMethod")], ["Technique", keepBlanks("TestTechnique")]);
  writer.skip();
  writer.heading("Building, flow device and services");
  for (const [label, cell] of preparationPlaces.facts) writer.line(label, keepBlanks(cell));
  writer.line("Wind", 'IF(Beaufort="","","Beaufort "&Beaufort&"; ")&IF(WindPlace="","","speed read "&WindPlace)');
  writer.skip();
  writer.heading("Deviations from the standard, and remarks");
  writer.foldable("B", "M", () => {
    for (const cell of preparationPlaces.deviations) writer.sentence(keepBlanks(cell));
    writer.sentence('IF(LowPressureReason="","","Reason for staying below 50 Pa: "&LowPressureReason)');
  });
  writer.skip();
}

/** The criterion, the result with its uncertainty, and the verdict with the rule that it follows. */
function writeVerdict(writer: ReportWriter, runs: Runs, results: ResultPlaces): void {
  writer.heading("Result and verdict");
  writer.line(
    "Criterion",
    'IF(TargetName="","no criterion chosen",TargetName&", limit "&IFERROR(TargetLimit&" "&TargetUnit,""))',
  );
  const number = (cell: string, format: string) => `IFERROR(IF(${cell}="","–",TEXT(${cell},"${format}")),"–")`;
  const digits = runs[0].form.units.system === "SI" ? "0.000" : "0.0000";
  writer.line(
    "Result ± expanded uncertainty",
    `${number(results.deciding, digits)}&" ± "&${number(results.uncertainty, digits)}&IFERROR(IF(TargetUnit="",""," "&TargetUnit),"")`,
  );
  writer.line(
    "Probability that the limit is met",
    `IFERROR(IF(${results.probability}="","–",IF(${results.probability}>=0.9995,"> 99.9 %",IF(${results.probability}<0.0005,"< 0.1 %",TEXT(${results.probability},"0.0 %")))),"–")`,
  );
  writer.line("Verdict", `IFERROR(IF(${results.verdict}="","open",${results.verdict}),"open")`);
  writer.sentence(results.rule, 26);
  writer.sentence(results.directions);
  writer.sentence(results.state, 26);
  writer.skip();
}

function writeAirTable(writer: ReportWriter, runs: Runs): void {
  const { units } = runs[0].form;
  writer.heading("Air and wind, run by run");
  writer.heads([["B", "E", "<mean of before and after"], ...runHeads(runs)]);
  const lines = [
    ["H7", `Temperature indoors, ${units.temperature}`, 1],
    ["H8", `Temperature outdoors, ${units.temperature}`, 1],
    ["H9", "Relative humidity indoors", 2],
    ["H10", "Relative humidity outdoors", 2],
    ["H11", `Barometric pressure, ${units.barometer}`, units.digits.barometer],
    ["H12", `Wind, ${units.speed}`, 1],
  ] as const;
  for (const [reference, label, digits] of lines)
    writeRunRow(writer, runs, label, decimals(digits), (run) => keepBlanks(onRun(run)(reference)));
  writer.skip();
}

/** The list of openings with their seals. */
function writePreparation(writer: ReportWriter): void {
  writer.heading("Preparation: every opening closed, sealed or open");
  writer.heads([
    ["B", "D", "<opening"],
    ["E", "G", "<where"],
    ["H", "H", "<state"],
    ["I", "L", "<how"],
    ["M", "M", "<restored"],
  ]);
  writer.foldable("B", "M", () => {
    for (const { opening, place, state, how, restored } of preparationPlaces.openings)
      writer.cells([
        ["B", "D", keepBlanks(opening)],
        ["E", "G", keepBlanks(place)],
        ["H", "H", keepBlanks(state)],
        ["I", "L", keepBlanks(how)],
        ["M", "M", keepBlanks(restored)],
      ]);
  });
  writer.words(
    "Closed: shut as it is. Sealed: made tight for the test, and to be opened again afterwards. Open: left as in use.",
  );
}

function writeInstruments(writer: ReportWriter): void {
  writer.heading("Instruments");
  writer.heads([
    ["B", "B", "<instrument"],
    ["C", "D", "<serial number"],
    ["E", "G", "<accuracy"],
    ["H", "I", "<certificate"],
    ["J", "K", "calibrated on"],
    ["L", "M", "valid until"],
  ]);
  writer.foldable("B", "M", () => {
    for (let row = gauges.first; row <= gauges.last; row++) {
      const cell = (letter: string) => keepBlanks(onSheet(sheets.firm, `${letter}${row}`));
      writer.cells([
        ["B", "B", cell("B")],
        ["C", "D", cell("D")],
        ["E", "G", cell("E")],
        ["H", "I", cell("F")],
        ["J", "K", cell("G"), shortDay],
        ["L", "M", cell("H"), shortDay],
      ]);
    }
  });
}

/** Volume and areas with their calculation. */
function writeSizes(writer: ReportWriter, units: Units): void {
  writer.heading("Internal volume and floor area");
  writer.heads([
    ["B", "E", "<room, or part of one"],
    ["F", "G", "<storey"],
    ["H", "H", `length, ${units.length}`],
    ["I", "I", `width, ${units.length}`],
    ["J", "K", `area, ${units.area}`],
    ["L", "L", `height, ${units.length}`],
    ["M", "M", `vol., ${units.volume}`],
  ]);
  writer.foldable("B", "M", () => {
    for (let row = roomTable.first; row <= roomTable.last; row++) {
      const cell = (letter: string) => keepBlanks(onSheet(sheets.rooms, `${letter}${row}`));
      writer.cells([
        ["B", "E", cell("B")],
        ["F", "G", cell("C")],
        ["H", "H", cell("D"), decimals(2)],
        ["I", "I", cell("E"), decimals(2)],
        ["J", "K", cell("F"), decimals(2)],
        ["L", "L", cell("G"), decimals(2)],
        ["M", "M", cell("H"), decimals(1)],
      ]);
    }
  });
  writer.cells([
    ["B", "I", '"Floor area; internal volume, "&VolumeConvention'],
    ["J", "K", "FloorArea", decimals(2)],
    ["M", "M", "InternalVolume", decimals(1)],
  ]);
  writer.skip();
  writer.heading("Envelope area");
  writer.heads([
    ["B", "G", "<part"],
    ["H", "I", `height, ${units.length}`],
    ["J", "K", `perimeter, ${units.length}`],
    ["L", "M", `area, ${units.area}`],
  ]);
  writer.foldable("H", "M", () => {
    for (let row = envelopeParts.first; row <= envelopeParts.last; row++) {
      const cell = (letter: string) => onSheet(sheets.rooms, `${letter}${row}`);
      const quiet = (letter: string) => `IFERROR(${keepBlanks(cell(letter))},"")`;
      writer.cells([
        ["B", "G", keepBlanks(cell("B"))],
        ["H", "I", quiet("F"), decimals(2)],
        ["J", "K", quiet("G"), decimals(2)],
        ["L", "M", quiet("H"), decimals(2)],
      ]);
    }
  });
  writer.cells([
    ["B", "K", '"Envelope area, ground and neighbours included"'],
    ["L", "M", 'IFERROR(EnvelopeArea,"")', decimals(2)],
  ]);
}

/** Coefficients and exponents with their limits, run by run; derived results with their intervals. */
function writeResults(writer: ReportWriter, { units }: Scenario, runs: Runs, results: ResultPlaces): void {
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
    writeRunRow(writer, runs, label, decimals(digits), ({ wholeTest }) => wholeTest[column](symbol));
  writer.skip();
  writer.heading("Derived results, at reference conditions");
  writer.heads([
    ["B", "E", "<quantity"],
    ["F", "G", "depressurization"],
    ["H", "I", "pressurization"],
    ["J", "K", "mean"],
    ["L", "M", "<<unit"],
  ]);
  for (const { symbol, label, digits, unit } of averaged(units)) {
    const plain = label.replace(/_\{([^}]*)\}/g, "_$1");
    writer.cells([
      ["B", "E", `"${plain}"`],
      ["F", "G", results.cell(symbol, "depressurization"), decimals(digits)],
      ["H", "I", results.cell(symbol, "pressurization"), decimals(digits)],
      ["J", "K", results.cell(symbol, "mean"), decimals(digits)],
      ["L", "M", `"${unit}"`, "unit"],
    ]);
  }
  writer.skip();
  writer.heading("Full intervals at 95 %: instruments, baseline, weather, sizes and scatter");
  writer.heads([
    ["F", "G", "depressurization"],
    ["H", "I", "pressurization"],
    ["J", "K", "mean"],
  ]);
  writer.heads([
    ["B", "E", "<quantity"],
    ...["F", "H", "J"].map((letter) => [letter, letter, "from"] as const),
    ...["G", "I", "K"].map((letter) => [letter, letter, "to"] as const),
    ["L", "M", "<<unit"],
  ]);
  for (const { symbol, label, digits, unit } of averaged(units)) {
    // The table is that of the first runs; the result may be the mean of several, and has the same relative interval.
    const limit = (table: BudgetTable, letter: "Q" | "R") => {
      const end = inBudget(table, symbol, letter);
      const result = results.cell(symbol, table);
      const ofBudget = `${result}*${end}/${inBudget(table, symbol, "K")}`;
      // What decides counts the scatter of the runs too.
      const shown = `IF(${result}=${results.deciding},${letter === "Q" ? results.lower : results.upper},${ofBudget})`;
      return `IFERROR(IF(${end}="","",${table === "mean" ? shown : ofBudget}),"")`;
    };
    writer.cells([
      ["B", "E", `"${label.replace(/_\{([^}]*)\}/g, "_$1")}"`],
      ["F", "F", limit("depressurization", "Q"), decimals(digits)],
      ["G", "G", limit("depressurization", "R"), decimals(digits)],
      ["H", "H", limit("pressurization", "Q"), decimals(digits)],
      ["I", "I", limit("pressurization", "R"), decimals(digits)],
      ["J", "J", limit("mean", "Q"), decimals(digits)],
      ["K", "K", limit("mean", "R"), decimals(digits)],
      ["L", "M", `"${unit}"`, "unit"],
    ]);
  }
  writer.words(
    "Of the means, only the result that the criterion limits has an interval; where a direction has two runs, it counts their scatter. The interval of a direction is that of its first run.",
  );
}

function writeGraph(writer: ReportWriter, sheet: Sheet, units: Units, points: GraphPoints): void {
  writer.heading("Air leakage graph");
  const top = writer.next - 1;
  const rows = 19;
  sheet.chart(leakageChart(points, { from: { row: top, col: 1 }, to: { row: top + rows, col: 13 } }, 8, units));
  sheet.heightOf(13, writer.next, writer.next + rows - 1);
  writer.skip(rows);
}

/** Checks whose name and limit take two lines. */
const longNames: readonly CheckName[] = [
  "dp0_of_min",
  "reading_of_min",
  "reach_50",
  "reach_4",
  "reach_pr",
  "dp_min_about",
  "ci_q50",
  "ci_qE75",
];

/** The standard's checks, what was measured in each run and how it came out. */
function writeValidity(writer: ReportWriter, runs: Runs): void {
  writer.heading("Validity: the checks of the standard, run by run");
  writeTwoHeads(writer, runs, ["value", "^outcome"], "<check and limit; advisory where it says so");
  writer.foldable("F", "M", () => {
    checkNames.forEach((name, index) => {
      const cell = (run: number, letter: string) => validityPlaces.check(run, index, letter);
      const quiet = (run: number, letter: string) => `IFERROR(${keepBlanks(cell(run, letter))},"")`;
      // Runs of one test are held to the same limits; the first one that was made names them.
      const first = (letter: string) =>
        runs.reduceRight((later, _, run) => `IF(${cell(run, "C")}="",${later},${quiet(run, letter)})`, '""');
      const limit = first("F");
      const words = `${first("C")}&IF(${limit}="","",IF(LEFT(${limit},4)="none",", no limit",": "&${limit}&IF(${first("I")}="advisory"," (advisory)","")))`;
      writer.cells(
        [
          ["B", "E", words, "sentence"],
          ...runs.flatMap((_, run) => {
            const [one = "", two = ""] = runColumns[run] ?? [];
            const outcome = quiet(run, "H");
            return [
              [
                one,
                one,
                `IF(ISTEXT(${cell(run, "E")}),"",${quiet(run, "E")})`,
                decimals(checkDigits[name] ?? 2),
              ] as const,
              [two, two, `IF(${outcome}="cannot be judged","open",${outcome})`, "word"] as const,
            ];
          }),
        ],
        longNames.includes(name) ? 21 : 12.5,
      );
    });
  });
  writer.skip();
}

/** Who answers for what, and signatures. */
function writeStatement(writer: ReportWriter, sheet: Sheet): void {
  writer.heading("Statement of responsibility");
  writer.words(
    "The test was made and evaluated as described here. The result holds for the building as it was prepared on the day of the test. " +
      "Local code and the certifier decide which standard, volume and limit hold; the results are the tester’s responsibility. " +
      "Seals, ventilation, combustion appliances, water traps and alarms are to be restored and checked afterwards.",
  );
  writer.skip();
  sheet.height(30, writer.next);
  writer.skip();
  const line = style({ top: palette.ink, size: 8, colour: palette.grey, vertical: "top" });
  const row = writer.next;
  sheet.put(`B${row}`, "Tested by: signature, day", line).paint(`B${row}:E${row}`, line);
  sheet.put(`H${row}`, "Checked by: signature, day", line).paint(`H${row}:M${row}`, line);
  writer.skip();
  sheet.height(14, row);
}

const readingCount = readingRows.last - readingRows.first + 1;
const baselineCount = 10;

/** Baseline readings with their signs, and the table of induced pressures and flows, every run in columns of its own. */
function writeReadings(writer: ReportWriter, runs: Runs): void {
  writer.heading("Baseline pressures, flow device covered, in Pa, with their signs");
  writeTwoHeads(writer, runs, ["before", "after"]);
  const baselines = (label: string, digits: number, column: string) =>
    writer.cells([
      ["B", "E", `"${label}"`],
      ...runs.flatMap((run, which) => {
        const there = onRun(run);
        return (["before", "after"] as const).map((when, side) => {
          const letter = runColumns[which]?.[side] ?? "";
          return [
            letter,
            letter,
            keepBlanks(there(`${column}${when === "before" ? 16 : 17}`)),
            decimals(digits),
          ] as const;
        });
      }),
    ]);
  writer.foldable("F", "M", () => {
    for (let index = 0; index < baselineCount; index++)
      baselines(String(index + 1), 1, lettersOf(columnOf("D") + index));
  });
  baselines("mean", 2, "N");
  writer.skip();
  writer.heading("Induced pressures and flows through the envelope");
  writeTwoHeads(writer, runs, ["Δp, Pa", runs[0].form.units.flow], "<no.; left out, and why");
  writer.foldable("F", "M", () => {
    for (let index = 0; index < readingCount; index++) writeReadingRow(writer, runs, index);
  });
  writer.words(
    "Δp: reading less the baseline, indoors minus outdoors. Flow through the envelope at the conditions of the test. A reading that is left out is shown and takes no part in the line.",
  );
  writer.skip();
}

function writeTwoHeads(writer: ReportWriter, runs: Runs, words: readonly [string, string], left = "<no."): void {
  writer.heads(runHeads(runs));
  writer.heads([
    ["B", "E", left],
    ...runColumns.flatMap(([one, two]) => [[one, one, words[0]] as const, [two, two, words[1]] as const]),
  ]);
}

/** A row of the readings with the same number; a run without it is blank. */
function writeReadingRow(writer: ReportWriter, runs: Runs, index: number): void {
  const quiet = (cell: string) => `IFERROR(${keepBlanks(cell)},"")`;
  const left = runs.map((run) => {
    const { use, reason } = run.reading(index);
    const name = `${run.direction === "depressurization" ? "depr." : "press."}${run.run === 1 ? "" : " 2"}`;
    return `IF(${use}="no","; ${name}: "&${reason},"")`;
  });
  writer.cells([
    ["B", "E", `"${index + 1}"&${left.join("&")}`],
    ...runs.flatMap((run, which) => {
      const [one = "", two = ""] = runColumns[which] ?? [];
      const { induced, flow } = run.reading(index);
      return [[one, one, quiet(induced), decimals(1)] as const, [two, two, quiet(flow), decimals(1)] as const];
    }),
  ]);
}
