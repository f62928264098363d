import type { EntrySizes as Sizes } from "./zip-entry";

// Fields of APPNOTE.TXT 6.3.10, 4.3.7 and 4.3.12. No time of day: the same workbook gives the same bytes.
const version = 20;
const deflated = 8;
/** 1 January 1980, the earliest day that the format knows. */
const day = 0x21;
/** Bit 11: the name is UTF-8. */
const utf8Name = 1 << 11;

/** The local header of a part that the archive did not have. */
export function newHeader(name: string, sizes: Sizes): Uint8Array {
  const bytes = new TextEncoder().encode(name);
  const header = new Uint8Array(30 + bytes.length);
  const view = new DataView(header.buffer);
  view.setUint32(0, 0x04034b50, true);
  setCommon(view, 4, sizes, bytes.length);
  header.set(bytes, 30);
  return header;
}

/** Its record in the directory. */
export function newRecord(name: string, sizes: Sizes): Uint8Array {
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
