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

/** A file that a command is to write, with the option that asked for it. */
export interface Target {
  readonly option: string;
  readonly path: string;
  /** What is written; only a workbook takes a workbook's name. */
  readonly holds: "a workbook" | "a report";
}

export interface Content {
  readonly target: Target;
  readonly bytes: Uint8Array | string;
}

/**
 * The one way in which commands write files. Made before any work is done, it refuses targets that must not or cannot be written to: one of the workbooks
 * that are read, be it by another name or through a link; a file that exists, unless it may be replaced; one file twice. Every file is written whole or not
 * at all: to a temporary file beside it, which then takes its name.
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

  /** Writes all of the files or none; throws BadArgument. Without permission to overwrite, the first of two writers to one new name has it. */
  write(contents: readonly Content[]): void {
    const steps: Step[] = [];
    let current = contents[0]?.target;
    try {
      for (const { target, bytes } of contents) {
        current = target;
        const temporary = writeTemporary(dirname(target.path), toBytes(bytes));
        steps.push({ target, temporary });
      }
      // Minutes may have passed since the first look.
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
        throw new BadArgument(`${option}: ${path} was written by someone else meanwhile`);
      throw new BadArgument(`${option}: ${path} cannot be written (${readErrorCode(problem)})`);
    }
    for (const { aside } of steps) if (aside !== undefined) rmSync(aside, { force: true });
  }

  private check({ option, path, holds }: Target): void {
    const folder = dirname(path);
    if (!existsSync(folder) || !statSync(folder).isDirectory())
      throw new BadArgument(`${option}: there is no folder ${folder}`);
    const found = lstatSync(path, { throwIfNoEntry: false });
    // A link is asked for what it leads to, which may be nothing.
    const stats = found && statSync(path, { throwIfNoEntry: false });
    if (stats && this.inputs.some((input) => isSameFile(path, input)))
      throw new BadArgument(`${option} names the workbook itself; nothing is ever written over it`);
    if (holds === "a report" && /\.xl(s[xmb]?|t[xm]?|am)$/i.test(path))
      throw new BadArgument(`${option}: ${path} is a workbook's name`);
    if (stats && !stats.isFile()) throw new BadArgument(`${option}: ${path} is not a file`);
    if (found && !this.overwrite)
      throw new BadArgument(`${option}: ${path} exists; choose another name or add --overwrite`);
  }
}

interface Step {
  readonly target: Target;
  readonly temporary: string;
  /** A copy of the file that is replaced, to put back should a later one fail. */
  aside?: string;
  done?: boolean;
}

/**
 * Several files that are replaced belong together. All but the first go before the first is replaced: a process killed just then leaves one of them alone,
 * never a new one beside an old one.
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

/** Systems of files that know no hard links, such as FAT and some network drives. */
const withoutLinks = new Set(["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"]);

/** Renaming would replace what is there; a link and a file opened as new fail instead, at the very moment. */
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

/** Temporary files lie beside their targets; the machine and the process in their names tell which ones a killed process left. */
const machine = createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
const pattern = new RegExp(`^\\.stillair-${machine}-(\\d+)-[0-9a-f]{8}\\.tmp$`);

/** Writes bytes to a new file in the folder, down to the disk; throws the system's error, and leaves nothing then. */
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

/** Copies a file to a new one beside it. */
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

/** Removes the temporary files that killed processes of this machine left in a folder; one that cannot be removed does no harm. */
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

/** Whether a process of this number is at work. This one has no temporary file while it looks: its number was another's before. */
function isAnotherProcess(id: number): boolean {
  if (id === process.pid) return false;
  try {
    // Signal 0 only asks.
    process.kill(id, 0);
    return true;
  } catch (problem) {
    return problem instanceof Error && "code" in problem && problem.code === "EPERM";
  }
}
