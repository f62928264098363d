import { refuseBombs, refuseLargeFile, refuseOddNames, refuseOverlaps } from "./directory-checks";
import { limits } from "../limits";
import { sentence, WorkbookProblem } from "../problem";
import { refuseForeignFormats } from "./signature";
import type { ZipEntry } from "./zip-entry";

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
// What may lie between the directory and its end record: the digital signature (4.3.13) and the zip64 end record (4.3.14).
const betweenSignatures = [0x05054b50, 0x06064b50];
const endSize = 22;
const longestComment = 65_535;
const inZip64 = 0xffff_ffff;

/**
 * Reads the directory of a zip archive and refuses, before anything is unpacked, what no sound workbook contains: encrypted, repeated,
 * overlapping or oddly named entries, and sizes beyond the limits. fflate unpacks, but does not tell where an entry lies, which a copy
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
    throw damaged("it uses the zip64 directory, which a workbook of this size does not need");
  if (directoryAt + directorySize > endAt) throw damaged("its directory points outside the file");
  if (count > limits.entries) {
    throw new WorkbookProblem(
      "zip bomb",
      `the zip directory lists ${count} entries; at most ${limits.entries} are read`,
    );
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

/** The end record gives the count of entries twice, and the directory's size: entries beyond any of them would be lost in silence. */
function refuseOtherCount(view: DataView, endAt: number, readTo: number, directoryEnd: number): void {
  const [onThisDisk, count] = [view.getUint16(endAt + 8, true), view.getUint16(endAt + 10, true)];
  const isFollowed = readTo < endAt && !betweenSignatures.includes(view.getUint32(readTo, true));
  if (onThisDisk === count && readTo === directoryEnd && !isFollowed) return;
  throw damaged(`its end counts ${count} entries, but its directory holds another number of them`);
}

function findEnd(view: DataView): number {
  const earliest = Math.max(0, view.byteLength - endSize - longestComment);
  for (let at = view.byteLength - endSize; at >= earliest; at--) {
    if (view.getUint32(at, true) === endSignature && at + endSize + view.getUint16(at + 20, true) <= view.byteLength)
      return at;
  }
  throw damaged("it has no directory at its end; the file is probably cut short");
}

function readRecord(view: DataView, bytes: Uint8Array, at: number, end: number): ZipEntry {
  if (at + 46 > end || view.getUint32(at, true) !== recordSignature) throw damaged("its directory is broken");
  const flags = view.getUint16(at + 8, true);
  const nameLength = view.getUint16(at + 28, true);
  const extraLength = view.getUint16(at + 30, true);
  const recordEnd = at + 46 + nameLength + extraLength + view.getUint16(at + 32, true);
  if (recordEnd > end) throw damaged("its directory is broken");
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
    throw damaged(sentence`the entry ${name} is packed by method ${method}; only deflate and stored are known`);
  if (headerAt + 30 > view.byteLength || view.getUint32(headerAt, true) !== localSignature) {
    throw damaged(sentence`the entry ${name} is not where the directory says`);
  }
  const dataAt = headerAt + 30 + view.getUint16(headerAt + 26, true) + view.getUint16(headerAt + 28, true);
  if (dataAt + packedSize > view.byteLength) throw damaged(sentence`the entry ${name} is cut short`);
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

function damaged(what: string): WorkbookProblem {
  return new WorkbookProblem("damaged", `the zip archive is damaged: ${what}`);
}
