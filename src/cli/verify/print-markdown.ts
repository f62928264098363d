import { gathered } from "./gather";
import { basisOf, totalsOf } from "./print-text";
import { countOf, countsInWords, type FileReport } from "./report";

/** The report as lines of Markdown: a table of the workbooks, then each one's findings. */
export function markdownOf(reports: readonly FileReport[], written: Date): string[] {
  return [
    "# Review of workbooks",
    "",
    `${totalsOf(reports)}. Written ${written.toISOString().slice(0, 10)}.`,
    "",
    "| workbook | wrong | doubtful | notes | verdict |",
    "|---|---:|---:|---:|---|",
    ...reports.map(rowOf),
    ...reports.flatMap(sectionOf),
  ];
}

function rowOf(report: FileReport): string {
  if (report.status === "unreadable") return `| ${plain(report.file)} | – | – | – | not read |`;
  const { verification } = report;
  const counts = ["wrong", "doubtful", "note"].map((severity) => countOf(verification, severity));
  const verdicts = [...new Set(verification.verdicts.map(({ word }) => word))].join(", ");
  return `| ${plain(report.file)} | ${counts.join(" | ")} | ${verdicts === "" ? "none" : verdicts} |`;
}

function sectionOf(report: FileReport): string[] {
  const head = ["", `## ${plain(report.file)}`, ""];
  if (report.status === "unreadable") return [...head, `Not read: ${plain(report.problem)}.`];
  const { verification } = report;
  return [
    ...head,
    `${plain(basisOf(verification))} ${countsInWords(verification)}.`,
    ...gathered(verification.findings, false).flatMap(({ first: { severity, kind, place, what, why, todo }, rest }) => [
      "",
      `### ${severity}: ${kind}, ${plain(place)}`,
      "",
      plain(what),
      "",
      ...rest.map((finding) => `- The same in ${plain(finding.place)}: ${plain(finding.what)}`),
      `- Why: ${plain(why)}`,
      `- Do: ${plain(todo)}`,
    ]),
  ];
}

/** Letters that Markdown would take for itself. */
const plain = (text: string): string => text.replace(/[\\`*_[\]<>|#]/g, (letter) => `\\${letter}`);
