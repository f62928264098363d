import { createHash, randomBytes } from "node:crypto";
import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { readErrorCode } from "./find-files";
import { BadArgument } from "./parse-options";

/** A file for a command to write, with the option that requested it. */
export interface Target {
  readonly option: string;
  readonly path: string;
  /** What is written; only a workbook may have a workbook's extension. */
  readonly holds: "a workbook" | "a report";
}

export interface Content {
  readonly target: Target;
  readonly bytes: Uint8Array | string;
}

/**
 * The only way commands write files. Created before any work is done, it refuses targets that must not or cannot be written to: one of the input
 * workbooks, even by another name or through a link; an existing file, unless it may be replaced; the same file twice. Every file is written whole or not
 * at all: to a temporary file next to it, which is then renamed.
 */
export class FileWriter {
  constructor(
    targets: readonly Target[],
    private readonly inputs: readonly string[],
    private readonly overwrite: boolean,
  ) {
    for (const target of targets) this.check(target);
    refuseSameFile(targets);
    for (const folder of new Set(targets.map(({ path }) => dirname(path)))) removeLeftTemporaries(folder);
  }

  /** Writes all of the files or none; throws BadArgument. Without permission to overwrite, the first of two writers of one new name wins. */
  write(contents: readonly Content[]): void {
    const steps: Step[] = [];
    let current = contents[0]?.target;
    try {
      for (const { target, bytes } of contents) {
        current = target;
        const temporary = writeTemporary(dirname(target.path), toBytes(bytes));
        steps.push({ target, temporary });
      }
      // Minutes may have passed since the first check.
      for (const { target } of contents) this.check(target);
      if (this.overwrite && steps.length > 1) setAside(steps);
      for (const step of steps) {
        current = step.target;
        if (this.overwrite) renameSync(step.temporary, step.target.path);
        else giveNewName(step.temporary, step.target.path);
        step.done = true;
      }
    } catch (problem) {
      for (const step of steps) undo(step);
      if (problem instanceof BadArgument || !current) throw problem;
      const { option, path } = current;
      if (readErrorCode(problem) === "EEXIST")
        throw new BadArgument(`${option}: ${path} was written by someone else in the meantime`);
      throw new BadArgument(`${option}: ${path} cannot be written (${readErrorCode(problem)})`);
    }
    for (const { aside } of steps) if (aside !== undefined) rmSync(aside, { force: true });
  }

  private check({ option, path, holds }: Target): void {
    const folder = dirname(path);
    if (!existsSync(folder) || !statSync(folder).isDirectory())
      throw new BadArgument(`${option}: there is no folder ${folder}`);
    const found = lstatSync(path, { throwIfNoEntry: false });
    // A link is resolved to its target, which may not exist.
    const stats = found && statSync(path, { throwIfNoEntry: false });
    if (stats && this.inputs.some((input) => isSameFile(path, input)))
      throw new BadArgument(`${option} names the workbook itself, which is never overwritten`);
    if (holds === "a report" && /\.xl(s[xmb]?|t[xm]?|am)$/i.test(path))
      throw new BadArgument(`${option}: ${path} has a workbook's extension`);
    if (stats && !stats.isFile()) throw new BadArgument(`${option}: ${path} is not a file`);
    if (found && !this.overwrite)
      throw new BadArgument(`${option}: ${path} exists; choose another name or add --overwrite`);
  }
}

interface Step {
  readonly target: Target;
  readonly temporary: string;
  /** A copy of the replaced file, to restore if a later one fails. */
  aside?: string;
  done?: boolean;
}

/**
 * Files replaced together belong together. All but the first are removed before the first is replaced: a process killed at that point leaves only one of
 * them, never a new one next to an old one.
 */
function setAside(steps: readonly Step[]): void {
  for (const step of steps) if (existsSync(step.target.path)) step.aside = copyToTemporary(step.target.path);
  for (const { target } of steps.slice(1)) rmSync(target.path, { force: true });
}

function undo({ target, temporary, aside, done }: Step): void {
  rmSync(temporary, { force: true });
  if (aside !== undefined) renameSync(aside, target.path);
  else if (done) rmSync(target.path, { force: true });
}

/** File systems without hard links, such as FAT and some network drives. */
const withoutLinks = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"]);

/** Renaming would replace an existing file; linking, or opening a file as new, fails atomically instead. */
function giveNewName(temporary: string, path: string): void {
  try {
    linkSync(temporary, path);
    rmSync(temporary, { force: true });
  } catch (problem) {
    if (!withoutLinks.has(readErrorCode(problem))) throw problem;
    closeSync(openSync(path, "wx"));
    renameSync(temporary, path);
  }
}

function toBytes(content: Uint8Array | string): Uint8Array {
  return typeof content === "string" ? new TextEncoder().encode(content) : content;
}

/** The same file by another path, through a link, or by a hard link. */
function isSameFile(path: string, other: string): boolean {
  const [one, two] = [path, other].map((name) => statSync(name, { throwIfNoEntry: false, bigint: true }));
  if (!one || !two) return false;
  return realpathSync(path) === realpathSync(other) || (one.ino !== 0n && one.ino === two.ino && one.dev === two.dev);
}

function refuseSameFile(targets: readonly Target[]): void {
  const seen = new Map<string, string>();
  for (const { option, path } of targets) {
    const place = existsSync(path) ? realpathSync(path) : join(realpathSync(dirname(path)), basename(path));
    const other = seen.get(place);
    if (other !== undefined) throw new BadArgument(`${other} and ${option} name the same file`);
    seen.set(place, option);
  }
}

/** Temporary files are next to their targets; the machine and process in their names identify those left by a killed process. */
const machine = createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
const pattern = new RegExp(`^\\.stillair-${machine}-(\\d+)-[0-9a-f]{8}\\.tmp$`);

/** Writes bytes to a new file in the folder and flushes it to disk; on failure throws the system's error and leaves nothing behind. */
function writeTemporary(folder: string, bytes: Uint8Array): string {
  return createTemporary(folder, (path) => {
    const handle = openSync(path, "wx");
    try {
      for (let at = 0; at < bytes.length;) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  });
}

/** Copies a file to a new one next to it. */
function copyToTemporary(file: string): string {
  return createTemporary(dirname(file), (path) => copyFileSync(file, path, constants.COPYFILE_EXCL));
}

function createTemporary(folder: string, fill: (path: string) => void): string {
  const path = join(folder, `.stillair-${machine}-${process.pid}-${randomBytes(4).toString("hex")}.tmp`);
  try {
    fill(path);
    return path;
  } catch (problem) {
    rmSync(path, { force: true });
    throw problem;
  }
}

/** Removes temporary files left in a folder by killed processes of this machine; one that cannot be removed does no harm. */
function removeLeftTemporaries(folder: string): void {
  for (const name of listNames(folder)) {
    const [, id] = pattern.exec(name) ?? [];
    if (id === undefined || isAnotherProcess(Number(id))) continue;
    try {
      rmSync(join(folder, name), { force: true });
    } catch {
      continue;
    }
  }
}

function listNames(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

/** Whether another process with this id is running. This process has no temporary file while it checks: its own id belonged to an earlier one. */
function isAnotherProcess(id: number): boolean {
  if (id === process.pid) return false;
  try {
    // Signal 0 only tests.
    process.kill(id, 0);
    return true;
  } catch (problem) {
    return problem instanceof Error && "code" in problem && problem.code === "EPERM";
  }
}
