import { existsSync, statSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { BadArgument } from "../shared/bad-argument";
import { codeOf } from "../shared/find-files";

/** Refuses, before any work is done, a place that a report must not be written to: a workbook above all. */
export function checkReportFile(option: string, target: string, overwrite: boolean): void {
  const folder = dirname(target);
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new BadArgument(`${option}: there is no folder ${folder}`);
  if (/\.xls[xmb]?$/i.test(target)) throw new BadArgument(`${option}: ${target} is a workbook's name`);
  if (!existsSync(target)) return;
  if (!statSync(target).isFile()) throw new BadArgument(`${option}: ${target} is not a file`);
  if (!overwrite) throw new BadArgument(`${option}: ${target} exists; choose another name or add --overwrite`);
}

export function writeReport(option: string, target: string, text: string): void {
  try {
    writeFileSync(target, text);
  } catch (problem) {
    throw new BadArgument(`${option}: ${target} cannot be written (${codeOf(problem)})`);
  }
}
