import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import type { Mutant } from "./mutants/mutant";
import { elementFrom } from "./mutants/xml";

/** Says whether a smaller workbook still shows the fault. */
export type StillFaulty = (bytes: Uint8Array) => Promise<boolean>;

/** How often a smaller workbook is tried: enough for a small one, and an end in sight for a slow one. */
const mostTries = 120;

/** The smallest workbook found that still shows the fault: fewer steps of the mutant, then fewer parts, elements and signs. */
export async function shrink(mutant: Mutant, stillFaulty: StillFaulty): Promise<Uint8Array> {
  let tries = 0;
  const holds = async (bytes: Uint8Array): Promise<boolean> => tries++ < mostTries && (await stillFaulty(bytes));
  let kept = Array.from({ length: mutant.steps }, (_, step) => step);
  for (const step of kept) {
    const fewer = kept.filter((other) => other !== step);
    if (await holds(mutant.build(fewer))) kept = fewer;
  }
  const bytes = mutant.build(kept);
  return (await shrinkParts(bytes, holds)) ?? bytes;
}

async function shrinkParts(bytes: Uint8Array, holds: StillFaulty): Promise<Uint8Array | undefined> {
  let parts: Record<string, Uint8Array>;
  try {
    parts = unzipSync(bytes);
  } catch {
    return undefined;
  }
  const zipped = (some: Record<string, Uint8Array>) => zipSync(some, { level: 6, mtime: new Date(2026, 0, 5, 12) });
  if (!(await holds(zipped(parts)))) return undefined;
  for (const name of Object.keys(parts)) {
    const rest = Object.fromEntries(Object.entries(parts).filter(([other]) => other !== name));
    if (await holds(zipped(rest))) parts = rest;
  }
  const bySize = Object.keys(parts).sort((one, other) => parts[other]!.length - parts[one]!.length);
  for (const name of bySize) {
    const withText = (text: string) => zipped({ ...parts, [name]: strToU8(text) });
    const text = await shrinkText(strFromU8(parts[name]!), (smaller) => holds(withText(smaller)));
    parts = { ...parts, [name]: strToU8(text) };
  }
  return zipped(parts);
}

/** Takes out elements, the largest first, and halves long texts, as long as the fault stays. */
async function shrinkText(text: string, holds: (text: string) => Promise<boolean>): Promise<string> {
  let smaller = text;
  for (let shrunk = true; shrunk;) {
    shrunk = false;
    for (const [from, to] of spansOf(smaller)) {
      const next = smaller.slice(0, from) + smaller.slice(to);
      if (!(await holds(next))) continue;
      smaller = next;
      shrunk = true;
      break;
    }
  }
  return smaller;
}

/** What may be left out of a text: some of its elements, and halves of its long texts. */
function spansOf(text: string): [number, number][] {
  const spans: [number, number][] = [];
  for (const { 0: whole, 1: name = "", index } of text.matchAll(/<([A-Za-z][\w:.-]*)(?:\s[^<>]*)?>/g)) {
    if (spans.length >= 400) break;
    spans.push(elementFrom(text, { from: index, to: index + whole.length, name }));
  }
  for (const { 0: whole, index } of text.matchAll(/[^<>]{60,}/g)) {
    const middle = index + Math.floor(whole.length / 2);
    spans.push([index, middle], [middle, index + whole.length]);
  }
  return spans
    .filter(([from, to]) => to > from && to - from < text.length)
    .sort(([a, b], [c, d]) => d - c - (b - a))
    .slice(0, 40);
}
