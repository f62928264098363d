import { Inflate } from "fflate";
import { limits, formatMegabytes } from "../limits";
import { sentence, WorkbookProblem } from "../problem";
import type { ZipEntry } from "./directory";

const table = new Uint32Array(256).map((_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** CRC-32 as zip uses it (APPNOTE 4.4.7), continued from `before` over the next bytes; start with 0. fflate computes it but does not expose it. */
export function computeChecksum(bytes: Uint8Array, before = 0): number {
  let value = ~before;
  for (let index = 0; index < bytes.length; index++) {
    value = (table[(value ^ (bytes[index] as number)) & 0xff] as number) ^ (value >>> 8);
  }
  return ~value >>> 0;
}

// Deflate grows at most about 1 032-fold, so one push of this many bytes yields at most some 17 MB before the size is checked.
const bytesAtATime = 16 * 1024;

/**
 * Unpacks one entry piece by piece. The actual size is checked against the directory's and against the limit as it grows, and the
 * checksum at the end, so that neither a bomb nor a flipped bit goes unnoticed.
 */
export function unpack(bytes: Uint8Array, entry: ZipEntry, take: (piece: Uint8Array) => void): void {
  let size = 0;
  let sum = 0;
  const check = (piece: Uint8Array): void => {
    size += piece.length;
    if (size > entry.size || size > limits.part) {
      throw new WorkbookProblem(
        "zip bomb",
        sentence`the part ${entry.name} unpacks to more than the ${formatMegabytes(entry.size)} declared in the zip`,
      );
    }
    sum = computeChecksum(piece, sum);
    take(piece);
  };
  const packed = bytes.subarray(entry.dataAt, entry.dataAt + entry.packedSize);
  if (entry.method === 0) {
    check(packed);
  } else {
    inflate(packed, entry.name, check);
  }
  if (size !== entry.size || sum !== entry.checksum) {
    throw new WorkbookProblem(
      "damaged",
      sentence`the part ${entry.name} is damaged: its contents do not match the zip's checksum`,
    );
  }
}

/** Unpacks one entry as a whole. */
export function unpackWhole(bytes: Uint8Array, entry: ZipEntry): Uint8Array {
  const whole = new Uint8Array(entry.size);
  let at = 0;
  unpack(bytes, entry, (piece) => {
    whole.set(piece, at);
    at += piece.length;
  });
  return whole;
}

function inflate(packed: Uint8Array, name: string, take: (piece: Uint8Array) => void): void {
  const inflater = new Inflate((piece) => take(piece));
  try {
    for (let at = 0; at === 0 || at < packed.length; at += bytesAtATime) {
      inflater.push(packed.subarray(at, at + bytesAtATime), at + bytesAtATime >= packed.length);
    }
  } catch (problem) {
    if (problem instanceof Error && "code" in problem && typeof problem.code === "number") {
      throw new WorkbookProblem(
        "damaged",
        sentence`the part ${name} is damaged: it cannot be unpacked (${problem.message})`,
      );
    }
    throw problem;
  }
}
