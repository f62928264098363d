import { createHash } from "node:crypto";

/** The SHA-256 of a text in UTF-8, as a page's policy names it. */
export function sha256(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("base64");
}
