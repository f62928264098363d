import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { BadArgument } from "./bad-argument";
import { codeOf } from "./find-files";

/** Refuses, before any work is done, a place that a copy must not or cannot be written to. */
export function checkTarget(target: string, input: string, overwrite: boolean): void {
  const folder = dirname(target);
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new BadArgument(`--out: there is no folder ${folder}`);
  if (!existsSync(target)) return;
  const stats = statSync(target);
  const original = statSync(input);
  if (
    realpathSync(target) === realpathSync(input) ||
    (stats.ino !== 0 && stats.ino === original.ino && stats.dev === original.dev)
  ) {
    throw new BadArgument("--out names the workbook itself; a copy is never written over it");
  }
  if (!stats.isFile()) throw new BadArgument(`--out: ${target} is not a file`);
  if (!overwrite) throw new BadArgument(`--out: ${target} exists; choose another name or add --overwrite`);
}

/** Writes a file whole or not at all: into a new file beside it, which then takes its name. */
export function writeWhole(target: string, bytes: Uint8Array): void {
  const temporary = join(dirname(target), `.${basename(target)}.${process.pid}.tmp`);
  try {
    const handle = openSync(temporary, "wx");
    try {
      for (let at = 0; at < bytes.length;) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(temporary, target);
  } catch (problem) {
    rmSync(temporary, { force: true });
    throw new BadArgument(`--out: ${target} cannot be written (${codeOf(problem)})`);
  }
}
