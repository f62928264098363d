import { detectEncoding, type XmlReader } from "./xml";

/** Undoes Excel's way of writing characters that XML cannot hold: _x000D_ (ECMA-376 part 1, 22.9.2.19 ST_Xstring). */
export function decodeText(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)));
}

/** The inverse of decodeText, and XML's own escapes: the text as allowed inside an element. */
export function encodeText(text: string): string {
  return text
    .replace(/_(?=x[0-9A-Fa-f]{4}_)/g, "_x005F_")
    .replace(notInXml, (character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`)
    .replace(/[&<>]/g, (character) => (character === "&" ? "&amp;" : character === "<" ? "&lt;" : "&gt;"));
}

// Control characters other than tab and line feed (a carriage return would be read as a line feed), halves of surrogate pairs, and the
// two noncharacters: XML 1.0, production 2.
const notInXml =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u0008\u000B-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

/**
 * Collects the text of a string item or an inline string: the runs of rich text joined, phonetic guides left out
 * (ECMA-376 part 1, 18.4.8 si, 18.4.6 rPh). Give it every element inside the item.
 */
export class StringItem implements XmlReader {
  private parts = "";
  private insidePhonetic = false;

  open(name: string, _attributes: Record<string, string>, part: Parameters<XmlReader["open"]>[2]): void {
    if (name === "rPh") this.insidePhonetic = true;
    else if (name === "t" && !this.insidePhonetic) part.wantText();
  }

  close(name: string, part: Parameters<XmlReader["close"]>[1]): void {
    if (name === "rPh") this.insidePhonetic = false;
    else if (name === "t") part.ignoreText();
  }

  addText(text: string): void {
    this.parts += text;
  }

  /** The text so far; then resets. */
  take(): string {
    const text = decodeText(this.parts);
    this.parts = "";
    return text;
  }
}

/** A part's text, its byte order mark kept as its first character. */
export function decodePart(bytes: Uint8Array): string {
  return new TextDecoder(detectEncoding(bytes), { fatal: true, ignoreBOM: true }).decode(bytes);
}

/** The inverse of decodePart, in the encoding that the original bytes had. */
export function encodePart(text: string, original: Uint8Array): Uint8Array {
  const encoding = detectEncoding(original);
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < text.length; at++) view.setUint16(at * 2, text.charCodeAt(at), encoding === "utf-16le");
  return bytes;
}
