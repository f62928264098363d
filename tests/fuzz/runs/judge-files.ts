import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { outputs } from "./commands";
import { around } from "./judge";
import type { Fault } from "./outcome";

const active =
  /<script(?![^>]*\bnonce)(?=[^>]*\bsrc=)|<(?:iframe|object|embed|base|meta[^>]+refresh)\b|<[a-z][^<>]*\s(?:on[a-z]+|formaction)\s*=|(?:href|src|xlink:href)\s*=\s*["']?\s*(?:javascript|data:text|https?:\/\/(?!www\.w3\.org))/i;

/** What a page or a drawing must not hold: a script from elsewhere, an event handler, a foreign address. */
function faultsOfPage(name: string, text: string): Fault[] {
  // Within quotes a value may hold anything: only tags outside of them count.
  const found = active.exec(
    text.replace(/="[^"]*"/g, (value) => (/^="\s*(?:javascript:|https?:)/i.test(value) ? value : '=""')),
  );
  return found ? [{ kind: "active content", words: `${name}: ${around(found.input, found.index)}` }] : [];
}

/** What is wrong with the files that a command wrote into its folder, and with what it left there. */
export function faultsOfFiles(folder: string): Fault[] {
  const faults: Fault[] = [];
  for (const name of readdirSync(folder)) {
    if (!outputs.includes(name)) faults.push({ kind: "left behind", words: name });
    if (/\.(html|svg)$/.test(name)) faults.push(...faultsOfPage(name, readFileSync(join(folder, name), "utf8")));
  }
  return faults;
}
