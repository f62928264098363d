import { limits, formatMegabytes } from "../limits";
import { sentence, WorkbookProblem } from "../problem";

/** One entry of a zip directory, with the file positions needed for a faithful copy. */
export interface ZipEntry {
  readonly name: string;
  readonly method: number;
  readonly checksum: number;
  readonly packedSize: number;
  readonly size: number;
  /** Where the local header starts, and where the packed bytes start. */
  readonly headerAt: number;
  readonly dataAt: number;
  /** Where this entry's record in the central directory starts and ends. */
  readonly recordAt: number;
  readonly recordEnd: number;
}

/** The position and size of an entry in a copy. */
export interface EntrySizes {
  readonly at: number;
  readonly checksum: number;
  readonly packedSize: number;
  readonly size: number;
}

const oleSignature = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const zipSignature = [0x50, 0x4b];

/** Refuses what is plainly not an .xlsx, naming what it looks like, so that the user knows what to do. */
function refuseForeignFormats(bytes: Uint8Array): void {
  if (bytes.length === 0) throw new WorkbookProblem("not a zip", "the file is empty");
  if (hasSignature(bytes, oleSignature)) {
    // Both hide in the same container (MS-CFB); stream names are UTF-16LE in its directory (MS-OFFCRYPTO, MS-XLS).
    if (containsName(bytes, "EncryptedPackage")) {
      throw new WorkbookProblem(
        "legacy or encrypted",
        "the workbook is encrypted with a password; save it without one",
      );
    }
    if (containsName(bytes, "Workbook") || containsName(bytes, "Book")) {
      throw new WorkbookProblem("legacy or encrypted", "this is an Excel 97-2003 workbook (.xls); save it as .xlsx");
    }
    throw new WorkbookProblem("legacy or encrypted", "this is an old compound document, not an .xlsx workbook");
  }
  if (!hasSignature(bytes, zipSignature)) {
    throw new WorkbookProblem("not a zip", "this is not an .xlsx workbook: the file is not a zip archive");
  }
  if (bytes.length < 22) throw new WorkbookProblem("damaged", "the zip archive is damaged: the file is cut short");
}

function hasSignature(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, index) => bytes[index] === byte);
}

function containsName(bytes: Uint8Array, name: string): boolean {
  const wanted = [...name].flatMap((letter) => [letter.charCodeAt(0), 0]);
  for (let at = bytes.indexOf(wanted[0] ?? 0); at >= 0; at = bytes.indexOf(wanted[0] ?? 0, at + 1)) {
    if (wanted.every((byte, index) => bytes[at + index] === byte)) return true;
  }
  return false;
}

/** Refuses a file by size, which a caller may know before reading it. */
export function refuseLargeFile(size: number): void {
  if (size <= limits.file) return;
  throw new WorkbookProblem(
    "too large",
    `the file has ${formatMegabytes(size)}; the limit is ${formatMegabytes(limits.file)}`,
  );
}

/** Refuses duplicate entries and those whose names point outside the archive. */
function refuseOddNames(entries: readonly ZipEntry[]): void {
  const seen = new Set<string>();
  for (const { name } of entries) {
    const plain = partKey(name);
    if (plain.startsWith("/") || /^[a-z]:/.test(plain) || plain.split("/").includes("..") || plain.includes("\0")) {
      throw new WorkbookProblem(
        "hostile name",
        sentence`the zip entry "${name}" points outside the archive; the file is not a valid workbook`,
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

/** Refuses entries that share bytes, with which a small file could unpack endlessly. */
function refuseOverlaps(entries: readonly ZipEntry[], directoryAt: number): void {
  const inOrder = [...entries].sort((a, b) => a.headerAt - b.headerAt);
  inOrder.forEach((entry, index) => {
    const next = inOrder[index + 1]?.headerAt ?? directoryAt;
    if (entry.dataAt + entry.packedSize > next) {
      throw new WorkbookProblem(
        "zip bomb",
        sentence`the zip entry ${entry.name} overlaps another; the file is not a valid workbook`,
      );
    }
  });
}

/** Refuses sizes beyond the limits, as the directory declares them. */
function refuseBombs(entries: readonly ZipEntry[]): void {
  let total = 0;
  for (const { name, size } of entries) {
    if (size > limits.part) {
      throw new WorkbookProblem(
        "zip bomb",
        sentence`the part ${name} unpacks to ${formatMegabytes(size)}; the limit is ${formatMegabytes(limits.part)}`,
      );
    }
    total += size;
  }
  if (total > limits.total) {
    throw new WorkbookProblem(
      "zip bomb",
      `the file unpacks to ${formatMegabytes(total)}; the limit is ${formatMegabytes(limits.total)}`,
    );
  }
}

/** Part names are compared in lower case, with "/" even where an old writer used "\". */
export function partKey(name: string): string {
  return name.replaceAll("\\", "/").toLowerCase();
}

export interface ZipDirectory {
  readonly entries: readonly ZipEntry[];
  readonly directoryAt: number;
  /** Where the end record starts. */
  readonly endAt: number;
}

// Signatures and field places: PKWARE APPNOTE.TXT 6.3.10, 4.3.7 (local header), 4.3.12 (central directory), 4.3.16 (end record).
const localSignature = 0x04034b50;
const recordSignature = 0x02014b50;
const endSignature = 0x06054b50;
// What may be between the directory and its end record: the digital signature (4.3.13) and the zip64 end record (4.3.14).
const betweenSignatures = [0x05054b50, 0x06064b50];
const endSize = 22;
const longestComment = 65_535;
const inZip64 = 0xffff_ffff;

/**
 * Reads the directory of a zip archive and refuses, before unpacking anything, what no valid workbook contains: encrypted, repeated,
 * overlapping or oddly named entries, and sizes beyond the limits. fflate unpacks but does not expose an entry's position, which a copy
 * with every other byte unchanged needs; hence this reader.
 */
export function readDirectory(bytes: Uint8Array): ZipDirectory {
  refuseForeignFormats(bytes);
  refuseLargeFile(bytes.length);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const endAt = findEnd(view);
  const count = view.getUint16(endAt + 10, true);
  const directorySize = view.getUint32(endAt + 12, true);
  const directoryAt = view.getUint32(endAt + 16, true);
  if (count === 0xffff || directoryAt === inZip64)
    throw reportDamage("it uses the zip64 directory, which a workbook of this size does not need");
  if (directoryAt + directorySize > endAt) throw reportDamage("its directory points outside the file");
  if (count > limits.entries) {
    throw new WorkbookProblem("zip bomb", `the zip directory lists ${count} entries; the limit is ${limits.entries}`);
  }
  const entries: ZipEntry[] = [];
  let at = directoryAt;
  for (let index = 0; index < count; index++) {
    const entry = readRecord(view, bytes, at, directoryAt + directorySize);
    entries.push(entry);
    at = entry.recordEnd;
  }
  refuseOtherCount(view, endAt, at, directoryAt + directorySize);
  refuseOddNames(entries);
  refuseOverlaps(entries, directoryAt);
  refuseBombs(entries);
  return { entries, directoryAt, endAt };
}

/** The end record gives the count of entries twice, and the directory's size: entries beyond any of them would be silently lost. */
function refuseOtherCount(view: DataView, endAt: number, readTo: number, directoryEnd: number): void {
  const [onThisDisk, count] = [view.getUint16(endAt + 8, true), view.getUint16(endAt + 10, true)];
  const isFollowed = readTo < endAt && !betweenSignatures.includes(view.getUint32(readTo, true));
  if (onThisDisk === count && readTo === directoryEnd && !isFollowed) return;
  throw reportDamage(`its end record counts ${count} entries, but its directory holds a different number`);
}

function findEnd(view: DataView): number {
  const earliest = Math.max(0, view.byteLength - endSize - longestComment);
  for (let at = view.byteLength - endSize; at >= earliest; at--) {
    if (view.getUint32(at, true) === endSignature && at + endSize + view.getUint16(at + 20, true) <= view.byteLength)
      return at;
  }
  throw reportDamage("it has no directory at its end; the file is probably cut short");
}

function readRecord(view: DataView, bytes: Uint8Array, at: number, end: number): ZipEntry {
  if (at + 46 > end || view.getUint32(at, true) !== recordSignature) throw reportDamage("its directory is broken");
  const flags = view.getUint16(at + 8, true);
  const nameLength = view.getUint16(at + 28, true);
  const extraLength = view.getUint16(at + 30, true);
  const recordEnd = at + 46 + nameLength + extraLength + view.getUint16(at + 32, true);
  if (recordEnd > end) throw reportDamage("its directory is broken");
  const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
  if (flags & 1)
    throw new WorkbookProblem(
      "encrypted",
      sentence`the zip entry ${name} is encrypted; save the workbook without a password`,
    );
  const long = zip64Fields(view, at + 46 + nameLength, extraLength, [
    view.getUint32(at + 24, true),
    view.getUint32(at + 20, true),
    view.getUint32(at + 42, true),
  ]);
  const [size, packedSize, headerAt] = long;
  const method = view.getUint16(at + 10, true);
  if (method !== 0 && method !== 8)
    throw reportDamage(
      sentence`the entry ${name} is packed by method ${method}; only deflate and stored are supported`,
    );
  if (headerAt + 30 > view.byteLength || view.getUint32(headerAt, true) !== localSignature) {
    throw reportDamage(sentence`the entry ${name} is not where the directory says`);
  }
  const dataAt = headerAt + 30 + view.getUint16(headerAt + 26, true) + view.getUint16(headerAt + 28, true);
  if (dataAt + packedSize > view.byteLength) throw reportDamage(sentence`the entry ${name} is cut short`);
  return {
    name,
    method,
    checksum: view.getUint32(at + 16, true),
    packedSize,
    size,
    headerAt,
    dataAt,
    recordAt: at,
    recordEnd,
  };
}

/** Replaces each field that holds the zip64 mark by its long form from the extra field (APPNOTE 4.5.3: size, packed size, offset). */
function zip64Fields(
  view: DataView,
  extraAt: number,
  extraLength: number,
  fields: [number, number, number],
): [number, number, number] {
  if (!fields.includes(inZip64)) return fields;
  for (let at = extraAt; at + 4 <= extraAt + extraLength; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== 1) continue;
    let next = at + 4;
    const end = Math.min(next + view.getUint16(at + 2, true), extraAt + extraLength);
    return fields.map((field) => {
      if (field !== inZip64 || next + 8 > end) return field;
      next += 8;
      return Number(view.getBigUint64(next - 8, true));
    }) as [number, number, number];
  }
  return fields;
}

function reportDamage(what: string): WorkbookProblem {
  return new WorkbookProblem("damaged", `the zip archive is damaged: ${what}`);
}
