import { createHash, randomBytes } from "node:crypto";
import { closeSync, constants, copyFileSync, fsyncSync, openSync, readdirSync, rmSync, writeSync } from "node:fs";
import { hostname } from "node:os";
import { dirname, join } from "node:path";

/** Temporary files lie beside their targets; the machine and the process in their names tell which ones a killed process left. */
const machine = createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
const pattern = new RegExp(`^\\.stillair-${machine}-(\\d+)-[0-9a-f]{8}\\.tmp$`);

/** Writes bytes to a new file in the folder, down to the disk; throws the system's error, and leaves nothing then. */
export function writeTemporary(folder: string, bytes: Uint8Array): string {
  return temporaryIn(folder, (path) => {
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
export function copyToTemporary(file: string): string {
  return temporaryIn(dirname(file), (path) => copyFileSync(file, path, constants.COPYFILE_EXCL));
}

function temporaryIn(folder: string, fill: (path: string) => void): string {
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
export function removeLeftTemporaries(folder: string): void {
  for (const name of namesIn(folder)) {
    const [, id] = pattern.exec(name) ?? [];
    if (id === undefined || isAnotherProcess(Number(id))) continue;
    try {
      rmSync(join(folder, name), { force: true });
    } catch {
      continue;
    }
  }
}

function namesIn(folder: string): string[] {
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
