import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const { resolve } = createRequire(import.meta.url);

/** Advance widths of a font file, in thousandths of its letter size, read from its tables (OpenType: head, hhea, hmtx, cmap format 4). */
export function fontWidths(file: string): (letter: string) => number | undefined {
  const bytes = readFileSync(resolve(file));
  const tables = new Map<string, number>();
  for (let index = 0; index < bytes.readUInt16BE(4); index++) {
    const record = 12 + 16 * index;
    tables.set(bytes.toString("latin1", record, record + 4), bytes.readUInt32BE(record + 8));
  }
  const at = (name: string) => tables.get(name) ?? 0;
  const unitsPerEm = bytes.readUInt16BE(at("head") + 18);
  const longMetrics = bytes.readUInt16BE(at("hhea") + 34);
  const cmap = at("cmap");
  let map = 0;
  for (let index = 0; index < bytes.readUInt16BE(cmap + 2); index++) {
    const offset = cmap + bytes.readUInt32BE(cmap + 4 + 8 * index + 4);
    if (bytes.readUInt16BE(offset) === 4) map = offset;
  }
  const segments = bytes.readUInt16BE(map + 6) / 2;
  const glyphOf = (code: number): number => {
    for (let segment = 0; segment < segments; segment++) {
      if (code > bytes.readUInt16BE(map + 14 + 2 * segment)) continue;
      const start = bytes.readUInt16BE(map + 16 + 2 * (segments + segment));
      if (code < start) return 0;
      const delta = bytes.readUInt16BE(map + 16 + 2 * (2 * segments + segment));
      const place = map + 16 + 2 * (3 * segments + segment);
      const offset = bytes.readUInt16BE(place);
      if (offset === 0) return (code + delta) & 0xffff;
      const glyph = bytes.readUInt16BE(place + offset + 2 * (code - start));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
  return (letter) => {
    const glyph = glyphOf(letter.codePointAt(0) ?? 0);
    if (glyph === 0) return undefined;
    return (1000 * bytes.readUInt16BE(at("hmtx") + 4 * Math.min(glyph, longMetrics - 1))) / unitsPerEm;
  };
}
