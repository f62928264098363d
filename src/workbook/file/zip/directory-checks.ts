import type { ZipEntry } from "./zip-entry";
import { limits, megabytes } from "../limits";
import { sentence, WorkbookProblem } from "../problem";

/** Refuses a file by its size, which a caller may know before it reads the file. */
export function refuseLargeFile(size: number): void {
  if (size <= limits.file) return;
  throw new WorkbookProblem("too large", `the file has ${megabytes(size)}; at most ${megabytes(limits.file)} are read`);
}

/** Refuses entries that are there twice or whose names point outside the archive. */
export function refuseOddNames(entries: readonly ZipEntry[]): void {
  const seen = new Set<string>();
  for (const { name } of entries) {
    const plain = partKey(name);
    if (plain.startsWith("/") || /^[a-z]:/.test(plain) || plain.split("/").includes("..") || plain.includes("\0")) {
      throw new WorkbookProblem(
        "hostile name",
        sentence`the zip entry "${name}" points outside the archive; the file is not a sound workbook`,
      );
    }
    // Part names are compared without regard to case (ECMA-376 part 2, part names).
    if (seen.has(plain))
      throw new WorkbookProblem(
        "hostile name",
        sentence`the zip holds the entry "${name}" twice, so what it says is ambiguous`,
      );
    seen.add(plain);
  }
}

/** Refuses entries that share bytes, by which a small file could unpack without end. */
export function refuseOverlaps(entries: readonly ZipEntry[], directoryAt: number): void {
  const inOrder = [...entries].sort((a, b) => a.headerAt - b.headerAt);
  inOrder.forEach((entry, index) => {
    const next = inOrder[index + 1]?.headerAt ?? directoryAt;
    if (entry.dataAt + entry.packedSize > next) {
      throw new WorkbookProblem(
        "zip bomb",
        sentence`the zip entry ${entry.name} overlaps another; the file is not a sound workbook`,
      );
    }
  });
}

/** Refuses sizes beyond the limits, as the directory declares them. */
export function refuseBombs(entries: readonly ZipEntry[]): void {
  let total = 0;
  for (const { name, size } of entries) {
    if (size > limits.part) {
      throw new WorkbookProblem(
        "zip bomb",
        sentence`the part ${name} unpacks to ${megabytes(size)}; at most ${megabytes(limits.part)} are read`,
      );
    }
    total += size;
  }
  if (total > limits.total) {
    throw new WorkbookProblem(
      "zip bomb",
      `the file unpacks to ${megabytes(total)}; at most ${megabytes(limits.total)} are read`,
    );
  }
}

/** Part names are compared in lower case, with "/" even where an old writer used "\". */
export function partKey(name: string): string {
  return name.replaceAll("\\", "/").toLowerCase();
}
