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
export function checkTarget(target: string, input: string, overwrite: boolean, option = "--out"): void {
  const folder = dirname(target);
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new BadArgument(`${option}: there is no folder ${folder}`);
  if (!existsSync(target)) return;
  const stats = statSync(target);
  const original = statSync(input);
  if (
    realpathSync(target) === realpathSync(input) ||
    (stats.ino !== 0 && stats.ino === original.ino && stats.dev === original.dev)
  ) {
    throw new BadArgument(`${option} names the workbook itself; nothing is ever written over it`);
  }
  if (!stats.isFile()) throw new BadArgument(`${option}: ${target} is not a file`);
  if (!overwrite) throw new BadArgument(`${option}: ${target} exists; choose another name or add --overwrite`);
}

/** Writes a file whole or not at all: into a new file beside it, which then takes its name. */
export function writeWhole(target: string, bytes: Uint8Array, option = "--out"): void {
  writeAllWhole([{ target, bytes }], option);
}

/** Writes several files, each whole, and none takes its name before all are written. */
export function writeAllWhole(
  files: readonly { readonly target: string; readonly bytes: Uint8Array }[],
  option = "--out",
): void {
  const written: { readonly target: string; readonly temporary: string }[] = [];
  let current = "";
  try {
    for (const { target, bytes } of files) {
      current = target;
      const temporary = join(dirname(target), `.${basename(target)}.${process.pid}.tmp`);
      written.push({ target, temporary });
      writeDurably(temporary, bytes);
    }
    for (const { target, temporary } of written) {
      current = target;
      renameSync(temporary, target);
    }
  } catch (problem) {
    for (const { temporary } of written) rmSync(temporary, { force: true });
    throw new BadArgument(`${option}: ${current} cannot be written (${codeOf(problem)})`);
  }
}

function writeDurably(path: string, bytes: Uint8Array): void {
  const handle = openSync(path, "wx");
  try {
    for (let at = 0; at < bytes.length;) at += writeSync(handle, bytes, at);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
