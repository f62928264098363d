import { dateFormat, decimals } from "../blocks/style";
import type { Runs } from "./direction";
import { preparationPlaces } from "./preparation";
import { runHeads, runRow } from "./report-runs";
import { type ReportWriter, shown } from "./report-writer";
import type { ResultPlaces } from "./result-places";
import { onRun } from "./shadow-places";

/** Object, purpose, people and days; the result in short; the building, the device, its services; the air of every run; deviations. */
export function testPart(writer: ReportWriter, runs: Runs, results: ResultPlaces): void {
  writer.heading("Object and purpose");
  writer.pair(["Building", shown("House")], ["Day of the test", shown("TestDate"), dateFormat]);
  writer.line("Address", shown("Address"));
  writer.pair(["Client", shown("Client")], ["Report", shown("ReportNumber")]);
  writer.line("Construction", shown("Construction"));
  writer.pair(["Purpose", shown("Purpose")], ["Kind of test", shown("KindOfTest")]);
  writer.pair(["Tested by", shown("Tester")], ["Checked by", shown("Reviewer")]);
  writer.pair(["Firm", shown("Firm")], ["Standard", shown("TestStandard")]);
  writer.pair(["Preparation", shown("PreparationMethod")], ["Technique of the line", shown("TestTechnique")]);
  writer.skip();
  writer.heading("Result");
  writer.line(
    "Criterion",
    'IF(TargetName="","no criterion chosen",TargetName&", limit "&IFERROR(TargetLimit&" "&TargetUnit,""))',
  );
  const number = (cell: string, format: string) => `IFERROR(IF(${cell}="","–",TEXT(${cell},"${format}")),"–")`;
  const digits = runs[0].form.units.system === "SI" ? "0.000" : "0.0000";
  writer.line(
    "Result ± expanded uncertainty",
    `${number(results.deciding, digits)}&" ± "&${number(results.uncertainty, digits)}&" "&IFERROR(TargetUnit,"")`,
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
  writer.heading("Building, flow device and services");
  for (const [label, cell] of preparationPlaces.facts) writer.line(label, shown(cell), 15);
  writer.line("Wind", 'IF(Beaufort="","","Beaufort "&Beaufort&"; ")&IF(WindPlace="","","speed read "&WindPlace)');
  writer.skip();
  writer.heading("Air and wind, run by run");
  airTable(writer, runs);
  writer.skip();
  writer.heading("Deviations from the standard, and remarks");
  for (const cell of preparationPlaces.deviations) writer.sentence(shown(cell));
  writer.sentence('IF(LowPressureReason="","","Reason for staying below 50 Pa: "&LowPressureReason)');
}

function airTable(writer: ReportWriter, runs: Runs): void {
  const { units } = runs[0].form;
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
    runRow(writer, runs, label, decimals(digits), (run) => shown(onRun(run)(reference)));
}
