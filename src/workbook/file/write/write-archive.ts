import { deflateSync } from "fflate";
import type { Archive } from "../archive";
import type { EntrySizes as Sizes, ZipEntry } from "../zip/directory";
import { computeChecksum } from "../zip/unpack";

// Fields of APPNOTE.TXT 6.3.10, 4.3.7 and 4.3.12. No time of day: the same workbook gives the same bytes.
const version = 20;
const deflated = 8;
/** 1 January 1980, the earliest date in the format. */
const day = 0x21;
/** Bit 11: the name is UTF-8. */
const utf8Name = 1 << 11;

/** The local header of a part new to the archive. */
function writeNewHeader(name: string, sizes: Sizes): Uint8Array {
  const bytes = new TextEncoder().encode(name);
  const header = new Uint8Array(30 + bytes.length);
  const view = new DataView(header.buffer);
  view.setUint32(0, 0x04034b50, true);
  setCommon(view, 4, sizes, bytes.length);
  header.set(bytes, 30);
  return header;
}

/** Its record in the directory. */
function writeNewRecord(name: string, sizes: Sizes): Uint8Array {
  const bytes = new TextEncoder().encode(name);
  const record = new Uint8Array(46 + bytes.length);
  const view = new DataView(record.buffer);
  view.setUint32(0, 0x02014b50, true);
  view.setUint16(4, version, true);
  setCommon(view, 6, sizes, bytes.length);
  view.setUint32(42, sizes.at, true);
  record.set(bytes, 46);
  return record;
}

function setCommon(view: DataView, at: number, { checksum, packedSize, size }: Sizes, nameLength: number): void {
  view.setUint16(at, version, true);
  view.setUint16(at + 2, utf8Name, true);
  view.setUint16(at + 4, deflated, true);
  view.setUint16(at + 8, day, true);
  view.setUint32(at + 10, checksum, true);
  view.setUint32(at + 14, packedSize, true);
  view.setUint32(at + 18, size, true);
  view.setUint16(at + 22, nameLength, true);
}

/** Parts added to a copy, and parts removed from it. */
interface Differing {
  readonly added: ReadonlyMap<string, Uint8Array>;
  readonly removed: ReadonlySet<ZipEntry>;
}

/**
 * The archive with some parts replaced, added at its end, or left out. Entries keep their order, names, times and attributes; those not
 * replaced keep their packed bytes too. Only places, sizes and checksums in the directory change.
 */
export function writeArchive(
  archive: Archive,
  replaced: ReadonlyMap<ZipEntry, Uint8Array>,
  { added, removed }: Differing = { added: new Map(), removed: new Set() },
): Uint8Array {
  const { bytes, directory } = archive;
  const pieces: Uint8Array[] = [];
  let length = 0;
  const append = (piece: Uint8Array): void => {
    pieces.push(piece);
    length += piece.length;
  };
  const inOrder = [...directory.entries].sort((a, b) => a.headerAt - b.headerAt);
  const written = new Map<ZipEntry, WrittenEntry>();
  append(bytes.subarray(0, inOrder[0]?.headerAt ?? directory.directoryAt));
  inOrder.forEach((entry, index) => {
    if (removed.has(entry)) return;
    const content = replaced.get(entry);
    const at = length;
    if (content) {
      const packed = deflateSync(content, { level: 6 });
      const sizes = { at, checksum: computeChecksum(content), packedSize: packed.length, size: content.length };
      written.set(entry, { ...sizes, replaced: true });
      append(rewriteLocalHeader(bytes, entry, sizes));
      append(packed);
    } else {
      const { checksum: sum, packedSize, size } = entry;
      written.set(entry, { at, checksum: sum, packedSize, size, replaced: false });
      append(bytes.subarray(entry.headerAt, inOrder[index + 1]?.headerAt ?? directory.directoryAt));
    }
  });
  const fresh = [...added].map(([name, content]) => {
    const packed = deflateSync(content, { level: 6 });
    const sizes = { at: length, checksum: computeChecksum(content), packedSize: packed.length, size: content.length };
    append(writeNewHeader(name, sizes));
    append(packed);
    return writeNewRecord(name, sizes);
  });
  const directoryAt = length;
  const kept = directory.entries.filter((entry) => !removed.has(entry));
  for (const entry of kept) append(rewriteDirectoryRecord(bytes, entry, written.get(entry) as WrittenEntry));
  for (const record of fresh) append(record);
  // A copy: the record is changed, and a Buffer's own slice would change the file that was read.
  const end = new Uint8Array(bytes.subarray(directory.endAt));
  append(endRecord(end, length - directoryAt, directoryAt, kept.length + fresh.length));
  return join(pieces, length);
}

interface WrittenEntry extends Sizes {
  readonly replaced: boolean;
}

/** Bit 3: sizes follow the data (APPNOTE 4.4.4); a replaced entry has them in its header. */
const sizesFollow = 1 << 3;

/** The entry's own local header with new sizes; the fields' places are those of APPNOTE 4.3.7. */
function rewriteLocalHeader(bytes: Uint8Array, entry: ZipEntry, sizes: Sizes): Uint8Array {
  const nameEnd =
    entry.headerAt + 30 + new DataView(bytes.buffer, bytes.byteOffset).getUint16(entry.headerAt + 26, true);
  const extra = removeZip64(bytes.subarray(nameEnd, entry.dataAt));
  const header = join([bytes.subarray(entry.headerAt, nameEnd), extra]);
  const view = new DataView(header.buffer);
  view.setUint16(6, view.getUint16(6, true) & ~sizesFollow, true);
  view.setUint16(8, deflated, true);
  setSizes(view, 14, sizes);
  view.setUint16(28, extra.length, true);
  return header;
}

/** The entry's own directory record with its new place and sizes (APPNOTE 4.3.12). */
function rewriteDirectoryRecord(bytes: Uint8Array, entry: ZipEntry, written: WrittenEntry): Uint8Array {
  const original = new DataView(bytes.buffer, bytes.byteOffset + entry.recordAt, entry.recordEnd - entry.recordAt);
  const nameEnd = entry.recordAt + 46 + original.getUint16(28, true);
  const extraEnd = nameEnd + original.getUint16(30, true);
  const extra = removeZip64(bytes.subarray(nameEnd, extraEnd));
  const record = join([bytes.subarray(entry.recordAt, nameEnd), extra, bytes.subarray(extraEnd, entry.recordEnd)]);
  const view = new DataView(record.buffer);
  if (written.replaced) {
    view.setUint16(8, view.getUint16(8, true) & ~sizesFollow, true);
    view.setUint16(10, deflated, true);
  }
  setSizes(view, 16, written);
  view.setUint16(30, extra.length, true);
  view.setUint32(42, written.at, true);
  return record;
}

function setSizes(view: DataView, at: number, sizes: Sizes): void {
  view.setUint32(at, sizes.checksum, true);
  view.setUint32(at + 4, sizes.packedSize, true);
  view.setUint32(at + 8, sizes.size, true);
}

function endRecord(record: Uint8Array, directorySize: number, directoryAt: number, count: number): Uint8Array {
  const view = new DataView(record.buffer, record.byteOffset);
  view.setUint16(8, count, true);
  view.setUint16(10, count, true);
  view.setUint32(12, directorySize, true);
  view.setUint32(16, directoryAt, true);
  return record;
}

/** The extra field without its zip64 block, whose sizes are now in the ordinary fields. */
function removeZip64(extra: Uint8Array): Uint8Array {
  const view = new DataView(extra.buffer, extra.byteOffset, extra.byteLength);
  const kept: Uint8Array[] = [];
  let at = 0;
  while (at + 4 <= extra.length) {
    const end = at + 4 + view.getUint16(at + 2, true);
    if (view.getUint16(at, true) !== 1) kept.push(extra.subarray(at, end));
    at = end;
  }
  if (at < extra.length) kept.push(extra.subarray(at));
  return join(kept);
}

function join(
  pieces: readonly Uint8Array[],
  length = pieces.reduce((sum, piece) => sum + piece.length, 0),
): Uint8Array {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
