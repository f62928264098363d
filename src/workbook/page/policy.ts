import { sha256 } from "../sha256";
import { tag } from "./html";

/** The tag by which a page allows its style sheet and, where it has one, its script, and nothing else: nothing of a workbook can run or load anything. */
export function policyTag(style: string, script?: string): string {
  const scripts = script === undefined ? "" : ` script-src 'sha256-${base64Digest(script)}';`;
  const policy = `default-src 'none'; style-src 'sha256-${base64Digest(style)}';${scripts} base-uri 'none'; form-action 'none'`;
  return tag("meta", { "http-equiv": "Content-Security-Policy", content: policy });
}

function base64Digest(text: string): string {
  const bytes = (sha256(text).match(/../g) ?? []).map((digits) => parseInt(digits, 16));
  return btoa(String.fromCharCode(...bytes));
}
