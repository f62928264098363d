import { formatCount, describeFaults, formatList } from "../formatting";
import { shorten } from "../file/problem";
import { type Assurance, beyondPrograms } from "./assurance";
import type { Finding } from "./finding";
import { countInWords, countOf, type FileReport, judgeOutcome, type Outcome, type Verification } from "./verify";

const lineWidth = 110;
const mostPlaces = 8;

/** A workbook's report as lines of text; among several, one without errors or warnings takes one line. */
export function reviewAsText(report: FileReport, all: boolean, isOneOfMany: boolean): string[] {
  if (report.status === "unreadable") return [report.file, `  Not read: ${report.problem}.`];
  const { verification } = report;
  if (isOneOfMany && !all && judgeOutcome(report) === "nothing found") {
    return [
      `${report.file}: ${verification.findings.length > 0 ? `${countInWords(verification)}, ` : ""}no errors or warnings.`,
    ];
  }
  return [
    report.file,
    `  ${describeBasis(verification)}`,
    `  ${capitalize(countInWords(verification))}.`,
    ...gatherFindings(verification.findings, all).flatMap(writeFindingLines),
    ...(isOneOfMany ? [] : writeAssuranceLines(verification)),
    ...(isOneOfMany ? [""] : []),
  ];
}

function writeAssuranceLines({ checked }: Verification): string[] {
  if (checked.length === 0) return [];
  return [
    "",
    "  What was checked:",
    ...checked.map((one) => `      ${describeAssurance(one)}`),
    "  What no program can find:",
    ...beyondPrograms.flatMap((line) => wrapText(`– ${line}`)),
  ];
}

/** "12 runs computed again by the method", or "11 of 12 runs …". */
export const describeAssurance = ({ what, right, of }: Assurance): string => `${what}: ${right} of ${of}`;

/** One line over several workbooks. */
export function reviewTotals(reports: readonly FileReport[]): string {
  const count = (outcome: Outcome): number => reports.filter((report) => judgeOutcome(report) === outcome).length;
  const faults = reports.filter((report) => report.status === "unreadable" && report.fault).length;
  return (
    `${formatCount(reports.length, "workbook")}: ${count("nothing found")} without errors or warnings, ${count("findings")} with findings, ` +
    `${count("not fully read")} unreadable or not fully recomputed${describeFaults(faults)}`
  );
}

/** The basis of the review: how much was recomputed, and which tests and verdicts were found. */
export function describeBasis({ formulaCells, evaluatedCells, tests, verdicts }: Verification): string {
  if (formulaCells === 0) return "There are no formulas, so nothing can be recomputed.";
  const words = new Set(verdicts.map(({ word }) => word));
  const [first] = verdicts;
  const verdict =
    first === undefined
      ? "no verdict"
      : verdicts.length === 1
        ? `the verdict “${shorten(first.word)}” in ${first.place}`
        : `${formatCount(verdicts.length, "verdict")} (${formatList(
            [...words].map((word) => shorten(word)),
            mostPlaces,
          )})`;
  const count = tests.length === 0 ? "no complete test" : formatCount(tests.length, "test");
  return `Recomputed ${evaluatedCells} of ${formatCount(formulaCells, "formula")}, blank cells passed both ways; ${count}, ${verdict}.`;
}

function writeFindingLines({ first, rest }: Gathered): string[] {
  const { severity, kind, place, what, why, todo } = first;
  const head = `  ${severity === "note" ? "note" : severity.toUpperCase()}  ${kind}  ${place}${first.decides === true ? "  (turns the verdict)" : ""}`;
  if (severity === "note") return ["", head, ...wrapText(what)];
  const more =
    rest.length > 0
      ? wrapText(
          `The same in ${formatList(
            rest.map((finding) => finding.place),
            mostPlaces,
          )}.`,
        )
      : [];
  return ["", head, ...wrapText(what), ...more, ...wrapText(`Why: ${why}`), ...wrapText(`Do: ${todo}`)];
}

function wrapText(text: string): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + word.length + 1 > lineWidth) {
      lines.push(`      ${line}`);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, `      ${line}`];
}

const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Findings of one kind and severity, represented by the first. */
export interface Gathered {
  readonly first: Finding;
  readonly rest: readonly Finding[];
}

/** From this many on, findings of one kind are gathered into one; fewer are listed individually. */
const fewest = 4;

export function gatherFindings(findings: readonly Finding[], all: boolean): Gathered[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const key = `${finding.severity} ${finding.kind}`;
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].flatMap((group) => {
    if (all || group.length < fewest) return group.map((first) => ({ first, rest: [] }));
    const [first, ...rest] = group;
    return first ? [{ first, rest }] : [];
  });
}

/** The report as lines of Markdown: a table of the workbooks, then the findings of each. */
export function reviewAsMarkdown(reports: readonly FileReport[], written: Date): string[] {
  return [
    "# Review of workbooks",
    "",
    `${reviewTotals(reports)}. Written ${written.toISOString().slice(0, 10)}.`,
    "",
    "| workbook | errors | warnings | notes | verdict |",
    "|---|---:|---:|---:|---|",
    ...reports.map(writeRow),
    ...reports.flatMap(writeSection),
  ];
}

function writeRow(report: FileReport): string {
  if (report.status === "unreadable") return `| ${escapeMarkdown(report.file)} | – | – | – | not read |`;
  const { verification } = report;
  const counts = ["error", "warning", "note"].map((severity) => countOf(verification, severity));
  const verdicts = [...new Set(verification.verdicts.map(({ word }) => word))].join(", ");
  return `| ${escapeMarkdown(report.file)} | ${counts.join(" | ")} | ${verdicts === "" ? "none" : verdicts} |`;
}

function writeSection(report: FileReport): string[] {
  const head = ["", `## ${escapeMarkdown(report.file)}`, ""];
  if (report.status === "unreadable") return [...head, `Not read: ${escapeMarkdown(report.problem)}.`];
  const { verification } = report;
  return [
    ...head,
    `${escapeMarkdown(describeBasis(verification))} ${countInWords(verification)}.`,
    ...gatherFindings(verification.findings, false).flatMap(
      ({ first: { severity, kind, decides, place, what, why, todo }, rest }) => [
        "",
        `### ${severity}: ${kind}, ${escapeMarkdown(place)}${decides === true ? " (turns the verdict)" : ""}`,
        "",
        escapeMarkdown(what),
        "",
        ...rest.map((finding) => `- The same in ${escapeMarkdown(finding.place)}: ${escapeMarkdown(finding.what)}`),
        `- Why: ${escapeMarkdown(why)}`,
        `- Do: ${escapeMarkdown(todo)}`,
      ],
    ),
    ...(verification.checked.length > 0
      ? ["", "### What was checked", "", ...verification.checked.map((one) => `- ${describeAssurance(one)}`)]
      : []),
    "",
    "### What no program can find",
    "",
    ...beyondPrograms.map((line) => `- ${line}`),
  ];
}

/** Characters with a meaning in Markdown. */
const escapeMarkdown = (text: string): string => text.replace(/[\\`*_[\]<>|#]/g, (letter) => `\\${letter}`);
