import { formatCount, describeFaults, formatList } from "../formatting";
import { shorten } from "../file/problem";
import { type Assurance, beyondPrograms } from "./assurance";
import { type Cause, type CausedFinding, gatherByCause, joinPlaces } from "./causes";
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
    `  ${describeCounts(verification)}`,
    ...gatherByCause(verification.findings, all).flatMap(writeCauseLines),
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

function writeCauseLines(cause: Cause): string[] {
  const { first, severity, decides } = cause;
  const { kind, place, what, why, todo } = first;
  const head = `  ${severity === "note" ? "note" : severity.toUpperCase()}  ${kind}  ${place}${decides ? "  (changes the verdict)" : ""}`;
  const others = describeOthers(cause).flatMap(wrapText);
  if (severity === "note") return ["", head, ...wrapText(what), ...others];
  const figure = describeFigure(first);
  return [
    "",
    head,
    ...(figure === "" ? [] : wrapText(`Figure: ${figure}`)),
    ...wrapText(what),
    ...others,
    ...wrapText(`Why: ${why}`),
    ...wrapText(`Do: ${todo}`),
  ];
}

/** What the sheet calls the figure at a finding's place: "air change rate at 50 Pa, n50, 1/h". */
export function describeFigure({ figure }: CausedFinding): string {
  if (!figure) return "";
  const { text, symbol, unit } = figure;
  const parts = [text, symbol, text.endsWith(unit) ? "" : unit].filter((part) => part !== "");
  return [...new Set(parts)].map((part) => shorten(part)).join(", ");
}

/** Where else a cause shows, and as what: a line for each kind. */
function describeOthers({ same, related }: Cause): string[] {
  const list = (findings: readonly CausedFinding[]): string =>
    formatList(joinPlaces(findings.map(({ place }) => place)), mostPlaces);
  const kinds = [...new Set(related.map(({ kind }) => kind))];
  return [
    ...(same.length > 0 ? [`The same in ${list(same)}.`] : []),
    ...kinds.map((kind) => {
      const ofKind = related.filter((finding) => finding.kind === kind);
      const [only, ...more] = ofKind;
      return `Shows also as ${kind} in ${list(ofKind)}${more.length === 0 ? `: ${only!.what}` : "."}`;
    }),
  ];
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

/** "10 errors, 3 warnings, from 2 causes." */
export function describeCounts(verification: Verification): string {
  const causes = gatherByCause(verification.findings).filter(({ severity }) => severity !== "note").length;
  const found = verification.findings.filter(({ severity }) => severity !== "note").length;
  return `${capitalize(countInWords(verification))}${causes < found ? `, from ${formatCount(causes, "cause")}` : ""}.`;
}

const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

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
    `${escapeMarkdown(describeBasis(verification))} ${describeCounts(verification)}`,
    ...gatherByCause(verification.findings).flatMap(({ first, same, related, severity, decides }) => {
      const { kind, place, what, why, todo } = first;
      const figure = describeFigure(first);
      return [
        "",
        `### ${severity}: ${kind}, ${escapeMarkdown(place)}${decides ? " (changes the verdict)" : ""}`,
        "",
        ...(figure === "" ? [] : [`Figure: ${escapeMarkdown(figure)}.`, ""]),
        escapeMarkdown(what),
        "",
        ...same.map((finding) => `- The same in ${escapeMarkdown(finding.place)}: ${escapeMarkdown(finding.what)}`),
        ...related.map(
          (finding) =>
            `- Shows also as ${finding.kind} in ${escapeMarkdown(finding.place)}: ${escapeMarkdown(finding.what)}`,
        ),
        `- Why: ${escapeMarkdown(why)}`,
        `- Do: ${escapeMarkdown(todo)}`,
      ];
    }),
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
