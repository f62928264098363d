import { tag } from "./html";

/** Gives the base64 SHA-256 of a text. */
export type HashOf = (text: string) => string;

/** The tag by which a page allows its style sheet and, where it has one, its script, and nothing else: nothing of a workbook can run or load anything. */
export function policyTag(hashOf: HashOf, style: string, script?: string): string {
  const scripts = script === undefined ? "" : ` script-src 'sha256-${hashOf(script)}';`;
  const policy = `default-src 'none'; style-src 'sha256-${hashOf(style)}';${scripts} base-uri 'none'; form-action 'none'`;
  return tag("meta", { "http-equiv": "Content-Security-Policy", content: policy });
}
