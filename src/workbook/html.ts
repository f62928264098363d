import { sha256 } from "./sha256";

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Characters not allowed in XML 1.0. */
const forbidden = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

/** Text escaped for XML and HTML; characters not allowed in XML are dropped. */
export function escapeHtml(text: string): string {
  return text.replace(forbidden, "").replace(/[&<>"']/g, (sign) => escapes[sign] ?? sign);
}

type Value = string | number | boolean | undefined;

/** An HTML element with its content, which is already HTML; attributes that are undefined or false are omitted. */
export function writeTag(name: string, attributes: Readonly<Record<string, Value>>, content = ""): string {
  const given = Object.entries(attributes).flatMap(([key, value]) => {
    if (value === undefined || value === false) return [];
    return value === true ? [` ${key}`] : [` ${key}="${escapeHtml(String(value))}"`];
  });
  return `<${name}${given.join("")}>${isVoid.has(name) ? "" : `${content}</${name}>`}`;
}

const isVoid = new Set(["meta", "col", "br", "link"]);

/** Words for screen readers only. */
export function writeSpoken(text: string): string {
  return writeTag("span", { class: "spoken" }, escapeHtml(text));
}

/** The policy tag of a page: allows its style sheet, its script if any, and nothing else, so nothing from a workbook can run or load anything. */
export function writePolicyTag(style: string, script?: string): string {
  const scripts = script === undefined ? "" : ` script-src 'sha256-${computeBase64Digest(script)}';`;
  const policy = `default-src 'none'; style-src 'sha256-${computeBase64Digest(style)}';${scripts} base-uri 'none'; form-action 'none'`;
  return writeTag("meta", { "http-equiv": "Content-Security-Policy", content: policy });
}

function computeBase64Digest(text: string): string {
  const bytes = (sha256(text).match(/../g) ?? []).map((digits) => parseInt(digits, 16));
  return btoa(String.fromCharCode(...bytes));
}
