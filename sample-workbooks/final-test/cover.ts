import { keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { requireAddIn } from "../blocks/needs-add-in";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { verdictColours, verdictInCapitals, writeLargeWord, writeSignatures } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { day, text } from "../blocks/validation";
import { ofCriterion } from "./criteria";
import { type GraphPoints, leakageChart } from "./graph";
import { footer, type ResultPlaces, sheets } from "./layout";
import { writeKeyResults } from "./results";
import { remark, type Scenario } from "./scenario";

const rows = { facts: 6, verdict: 14, results: 22, legend: 39 } as const;
const lastRow = rows.legend + 7;

/** What tells one house from another: name, address and client, and the number of the report. */
export const houseFacts = [`C${rows.facts}:C${rows.facts + 2}`, `G${rows.facts + 3}`] as const;

/** One page for the client: house, team, verdict, key results, the graph in small. */
export function coverPage(form: Scenario, results: ResultPlaces, firstRun: string, points: GraphPoints): Page {
  const sheet = new Sheet(sheets.cover, [1.5, 17, 13, 19, 2, 31.5, 12.5, 9.5], palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${lastRow}`],
    pages: 1,
    footer,
  });
  const lead = '"Fan pressurization of the building envelope by "&TestStandard&". "&KindOfTest';
  writePageHead(sheet, { ...letterhead, house: '"Report"&IF(G9="",""," "&G9)' }, ["B", "H"], "Airtightness test", "");
  sheet
    .heightOf(16, 5, lastRow)
    .height(30, 2)
    .heightOf(17.5, rows.results, rows.legend - 2);
  writeFacts(sheet, form);
  writeVerdictPanel(sheet, rows.verdict, results, form.units.system === "SI" ? 3 : 4);
  writeKeyResults(sheet, rows.results, results, form);
  writeHeading(sheet, rows.results, ["B", "D"], "Air leakage graph");
  const from = { row: rows.results, col: 1 };
  sheet.chart(leakageChart(points, { from, to: { row: rows.results + 15, col: 4 } }, 7, form.units));
  writeLegend(sheet);
  const version = requireAddIn(sheet, {
    columns: ["B", "H"],
    lead,
    // The first run, not the mean: that would add a step between readings and verdict.
    result: firstRun,
    waiting: [`B${rows.verdict}:H${rows.verdict + 6}`, `F${rows.results}:H${rows.legend - 1}`],
  });
  const fact = (letter: "C" | "G", index: number) => onSheet(sheets.cover, `${letter}${rows.facts + index}`);
  return {
    sheet,
    names: {
      ...version,
      House: fact("C", 0),
      TestDate: fact("G", 0),
      Tester: fact("G", 1),
      Reviewer: fact("G", 2),
      ReportNumber: fact("G", 3),
      PreparationMethod: fact("G", 4),
      KindOfTest: fact("G", 5),
      Remark: fact("G", 6),
      Address: fact("C", 1),
      Client: fact("C", 2),
      Construction: fact("C", 3),
      Purpose: fact("C", 4),
    },
  };
}

function writeFacts(sheet: Sheet, { house, testDate }: Scenario): void {
  writeHeading(sheet, 5, ["B", "D"], "House");
  writeHeading(sheet, 5, ["F", "H"], "Test");
  const left = [
    ["House", house.name],
    ["Address", house.address],
    ["Client", house.client],
    ["Construction", house.construction],
    ["Purpose of the test", house.purpose],
  ] as const;
  const ofFirm = [
    ["Firm", keepBlanks("Firm")],
    ["Trade", keepBlanks("TradeLine")],
  ] as const;
  const right = [
    ["Day of the test", testDate],
    ["Tested by", house.tester],
    ["Checked by", house.reviewer],
    ["Report", house.report],
    ["Preparation by ISO 9972", house.preparation],
    ["Kind of test", house.kind],
    ["Remark on every sheet", remark],
  ] as const;
  left.forEach(([label, value], index) => {
    const row = rows.facts + index;
    sheet.put(`B${row}`, label, looks.label).type(`C${row}`, value, undefined, "left", true).merge(`C${row}:D${row}`);
  });
  ofFirm.forEach(([label, formula], index) => {
    const row = rows.facts + left.length + index;
    sheet.put(`B${row}`, label, looks.label).formula(`C${row}`, formula, native(undefined, "left"));
    sheet.merge(`C${row}:D${row}`);
  });
  right.forEach(([label, value], index) => {
    const row = rows.facts + index;
    sheet.put(`F${row}`, label, looks.label);
    sheet.put(`G${row}`, value, input(index === 0 ? dateFormat : undefined, "left", true)).merge(`G${row}:H${row}`);
  });
  const last = rows.facts + right.length - 1;
  // A long address and the remark take two lines.
  sheet.heightOf(17, rows.facts, last).height(26, rows.facts + 1, last);
  sheet.keep(`G${rows.facts + 5}`);
  sheet.validate(
    text(`C${rows.facts}:D${rows.facts + left.length - 1}`, "House", "Its name appears at the top of every sheet."),
    day(`G${rows.facts}:H${rows.facts}`, "Day of the test", "Compared with the certificates on the sheet Firm."),
    text(
      `G${rows.facts + 1}:H${last}`,
      "Test",
      "Who tested and checked, report number, how the openings were prepared. The remark stands on every sheet until it is deleted.",
    ),
  );
}

function writeLegend(sheet: Sheet): void {
  const { legend: at } = rows;
  writeHeading(sheet, at, ["B", "H"], "How to read this workbook");
  sheet.put(`B${at + 1}`, "typed in", { ...input(undefined, "center"), protection: { locked: true } });
  sheet.put(`C${at + 1}`, "native formula", native(undefined, "center")).merge(`C${at + 1}:D${at + 1}`);
  sheet.put(`F${at + 1}`, "from the add-in", fromAddIn(undefined, "center"));
  sheet
    .put(`G${at + 1}`, "all else is protected, without a password", style({ vertical: "center" }, looks.note))
    .merge(`G${at + 1}:H${at + 1}`);
  sheet.height(22, at + 1).height(30, at + 5);
  sheet.put(
    `B${at + 2}`,
    "Firm, Rooms and Preparation hold what all runs share; each run has a sheet with its readings step by step and the whole test in one call. Validity and Uncertainty judge it, Results gives the " +
      "verdict, Native formulas repeats the main line without the add-in. Local code and the certifier decide which criterion holds. The result is the tester’s responsibility. To hand over: print Cover and Report, or make the issue copy, which prints them alone.",
    looks.note,
  );
  sheet.merge(`B${at + 2}:H${at + 3}`);
  writeSignatures(sheet, at + 6);
}

/** The verdict in words a client reads from across the table, with the result, the limit and the rule that was used; eight rows. */
function writeVerdictPanel(sheet: Sheet, at: number, results: ResultPlaces, digits: number): void {
  const last = at + 6;
  writeLargeWord(sheet, `B${at}:C${last}`, verdictInCapitals(results.verdict), verdictColours, {
    size: 28,
    shrink: true,
  });
  const panel = { fill: palette.petrolPale, align: "left", indent: 1 } as const;
  const small = style({ ...panel, size: 8, colour: palette.grey, wrap: true });
  const big = style({ ...panel, size: 26, colour: palette.petrol });
  const what = `TargetQuantity&" at "&TargetPressure&" Pa, "&TargetUnit`;
  sheet.formula(`D${at}`, ofCriterion(what, '"No criterion chosen"'), small).merge(`D${at}:E${at}`);
  sheet.formula(`F${at}`, ofCriterion('"limit, "&TargetUnit', '""'), small).merge(`F${at}:H${at}`);
  sheet
    .formula(
      `D${at + 1}`,
      `IFERROR(IF(${results.deciding}="","–",${results.deciding}),"–")`,
      style({ format: decimals(digits) }, big),
    )
    .merge(`D${at + 1}:E${at + 2}`);
  sheet
    .formula(`F${at + 1}`, ofCriterion("TargetLimit", '"–"'), style({ format: "0.0###" }, big))
    .merge(`F${at + 1}:H${at + 2}`);
  sheet.moreDigitsNear(`D${at + 1}`, `F${at + 1}`);
  const sentence = style({ ...panel, size: 8.5, wrap: true });
  sheet
    .formula(`D${at + 3}`, `IF(TargetName="","No criterion chosen",TargetName)&". "&${results.directions}`, sentence)
    .merge(`D${at + 3}:H${at + 3}`);
  sheet.formula(`D${at + 4}`, results.rule, sentence).merge(`D${at + 4}:H${at + 5}`);
  sheet.formula(`D${last}`, results.state, style({ bold: true, vertical: "top" }, sentence)).merge(`D${last}:H${last}`);
  sheet
    .height(22, at)
    .heightOf(16, at + 1, at + 3)
    .height(26, at + 3)
    .heightOf(14, at + 4, last - 1)
    .height(40, last);
}
