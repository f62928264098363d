import { encodingOf } from "./xml";

/** A part's text, its byte order mark kept as its first character. */
export function decodePart(bytes: Uint8Array): string {
  return new TextDecoder(encodingOf(bytes), { fatal: true, ignoreBOM: true }).decode(bytes);
}

/** The inverse of decodePart, in the encoding that the original bytes had. */
export function encodePart(text: string, original: Uint8Array): Uint8Array {
  const encoding = encodingOf(original);
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < text.length; at++) view.setUint16(at * 2, text.charCodeAt(at), encoding === "utf-16le");
  return bytes;
}
