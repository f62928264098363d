import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { drawsOf, type Draws } from "../draws";
import type { Mutant } from "./mutant";
import { oddTexts } from "./odd-values";

type Parts = Record<string, Uint8Array>;

/** A tag of a part: where it begins and ends. */
interface Tag {
  readonly from: number;
  readonly to: number;
  readonly name: string;
}

const tagPattern = /<(\/?[A-Za-z][\w:.-]*)(?:\s[^<>]*)?>/g;

const tagsOf = (text: string): Tag[] =>
  [...text.matchAll(tagPattern)].map((found) => ({
    from: found.index,
    to: found.index + found[0].length,
    name: found[1] ?? "",
  }));

/** From the opening tag to behind its closing one, as far as names are counted; the tag alone where it closes itself. */
export function elementFrom(text: string, { from, to, name }: Tag): [from: number, to: number] {
  if (text[to - 2] === "/" || name.startsWith("/")) return [from, to];
  let depth = 1;
  const same = new RegExp(`<(/?)${name}(?=[\\s/>])[^<>]*>`, "g");
  same.lastIndex = to;
  for (let found = same.exec(text); found; found = same.exec(text)) {
    if (!found[0].endsWith("/>")) depth += found[1] === "/" ? -1 : 1;
    if (depth === 0) return [from, found.index + found[0].length];
  }
  return [from, to];
}

const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

/** A value to put in: an odd one, or one that the part has elsewhere. */
function valueFor(text: string, draws: Draws): string {
  const there = [...text.matchAll(/="([^"]*)"/g)].map(([, value = ""]) => value);
  return there.length > 0 && draws.onceIn(3) ? draws.pick(there) : escaped(draws.pick(oddTexts));
}

function replaced(text: string, from: number, to: number, by: string): string {
  return text.slice(0, from) + by + text.slice(to);
}

/** A change of one part's text; `others` are the texts of the other parts. */
type Change = (text: string, draws: Draws, others: readonly string[]) => string;

const ofTag =
  (change: (text: string, tag: Tag, draws: Draws, others: readonly string[]) => string): Change =>
  (text, draws, others) => {
    const tags = tagsOf(text).filter(({ name }) => !name.startsWith("/"));
    return tags.length === 0 ? text : change(text, draws.pick(tags), draws, others);
  };

const changes: Readonly<Record<string, Change>> = {
  "take an element out": ofTag((text, tag) => replaced(text, ...elementFrom(text, tag), "")),
  "double an element": ofTag((text, tag) => {
    const [from, to] = elementFrom(text, tag);
    return replaced(text, to, to, text.slice(from, to));
  }),
  "repeat an element": ofTag((text, tag, draws) => {
    const [from, to] = elementFrom(text, tag);
    const most = Math.max(1, Math.floor(300_000 / (to - from)));
    return replaced(text, to, to, text.slice(from, to).repeat(1 + draws.below(Math.min(most, 2_000))));
  }),
  "move an element": ofTag((text, tag, draws) => {
    const [from, to] = elementFrom(text, tag);
    const rest = replaced(text, from, to, "");
    const place = draws.pick([...tagsOf(rest).map(({ to: end }) => end), rest.length]);
    return replaced(rest, place, place, text.slice(from, to));
  }),
  "nest an element in itself": ofTag((text, tag, draws) => {
    const opening = text.slice(tag.from, tag.to);
    if (opening.endsWith("/>")) return text;
    const [from, to] = elementFrom(text, tag);
    const times = draws.pick([1, 10, 300, 5_000]);
    return replaced(text, from, to, opening.repeat(times) + text.slice(from, to) + `</${tag.name}>`.repeat(times));
  }),
  "rename an element": ofTag((text, tag, draws) => {
    const [from, to] = elementFrom(text, tag);
    const all = tagsOf(text).map(({ name }) => name.replace("/", ""));
    const name = draws.pick(["toString", "x:constructor", "html", ...all]);
    const inner = text.slice(from, to).replace(`<${tag.name}`, `<${name}`);
    return replaced(text, from, to, inner.replace(new RegExp(`</${tag.name}>$`), `</${name}>`));
  }),
  "change an attribute": ofTag((text, tag, draws) => {
    const opening = text.slice(tag.from, tag.to);
    const attributes = [...opening.matchAll(/="[^"]*"/g)];
    if (attributes.length === 0) return text;
    const { index, 0: old } = draws.pick(attributes);
    return replaced(text, tag.from + index, tag.from + index + old.length, `="${valueFor(text, draws)}"`);
  }),
  "take an attribute out": ofTag((text, tag, draws) => {
    const attributes = [...text.slice(tag.from, tag.to).matchAll(/\s[\w:]+="[^"]*"/g)];
    if (attributes.length === 0) return text;
    const { index, 0: old } = draws.pick(attributes);
    return replaced(text, tag.from + index, tag.from + index + old.length, "");
  }),
  "change a text": (text, draws) => {
    const texts = [...text.matchAll(/>([^<>]+)</g)];
    if (texts.length === 0) return text;
    const { index, 1: old = "" } = draws.pick(texts);
    return replaced(text, index + 1, index + 1 + old.length, valueFor(text, draws));
  },
  "put another part in place": (text, draws, others) =>
    draws.pick([...others, "<html><body>x</body></html>", "", text]),
  "put a long piece in": (text, draws) => {
    const place = draws.pick([...tagsOf(text).map(({ to }) => to), text.length]);
    const long = draws.pick([1_000, 200_000]);
    const piece = draws.pick([
      `<!--${" -".repeat(long)}-->`,
      `<![CDATA[${"]".repeat(long)}]]>`,
      `<?x ${"?".repeat(long)}?>`,
      "&#x41;".repeat(long / 10),
      "<!DOCTYPE x>",
    ]);
    return replaced(text, place, place, piece);
  },
};

function changed(parts: Parts, kind: string, draws: Draws): Parts {
  const names = Object.keys(parts).filter((name) => /\.(xml|rels|vml)$/.test(name));
  if (names.length === 0) return parts;
  const sheets = names.filter((name) => name.includes("/worksheets/"));
  const name = draws.pick(sheets.length > 0 && draws.onceIn(2) ? sheets : names);
  const others = names.filter((other) => other !== name).map((other) => strFromU8(parts[other]!));
  return { ...parts, [name]: strToU8(changes[kind]!(strFromU8(parts[name]!), draws, others)) };
}

/** A workbook with sound checksums whose parts say odd things. */
export function xmlMutant(name: string, seedBytes: Uint8Array, draws: Draws): Mutant {
  const steps = Array.from({ length: 1 + draws.below(4) }, () => ({
    kind: draws.pick(Object.keys(changes)),
    seed: draws.seed(),
  }));
  return {
    words: `parts of ${name}: ${steps.map(({ kind }) => kind).join(", ")}`,
    steps: steps.length,
    build: (kept) => {
      const parts = steps
        .filter((_, step) => kept.includes(step))
        .reduce((so, { kind, seed }) => changed(so, kind, drawsOf(seed)), unzipSync(seedBytes) as Parts);
      return zipSync(parts, { level: 1, mtime: new Date(2026, 0, 5, 12) });
    },
  };
}
