import { type FileReport, judgeOutcome } from "../../workbook/index";
import type { Span } from "./pool";

/** One document: every workbook with its findings, and which thread processed it when (ms since the start). */
export function writeJson(reports: readonly FileReport[], spans: readonly Span[], exitCode: number): string {
  const threads = [...new Set(spans.map(({ thread }) => thread))].sort((a, b) => a - b);
  const document = {
    exitCode,
    workbooks: reports.map(describeReport),
    threads: threads.map((number) => ({
      thread: number,
      worked: spans
        .filter(({ thread }) => thread === number)
        .map(({ file, from, to }) => ({ file, from: round(from), to: round(to) })),
    })),
  };
  return JSON.stringify(document, undefined, 2);
}

/** One workbook as a line of JSON by itself. */
export const writeJsonLine = (report: FileReport): string => JSON.stringify(describeReport(report));

const describeReport = (report: FileReport): object =>
  report.status === "unreadable"
    ? report
    : { file: report.file, status: report.status, outcome: judgeOutcome(report), ...report.verification };

const round = (milliseconds: number): number => Math.round(milliseconds * 10) / 10;
