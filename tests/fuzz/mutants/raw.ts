import { drawsOf, type Draws } from "../draws";
import type { Mutant } from "./mutant";

/** Numbers at the edges of the fields of a zip archive. */
const edges = [0, 1, 0x7f, 0xff, 0x7fff, 0xffff, 0x7fffffff, 0xfffffffe, 0xffffffff];

/** A local header, a directory record and the end record begin with these (APPNOTE 4.3). */
const signatures = [0x04034b50, 0x02014b50, 0x06054b50];

type Damage = (bytes: Uint8Array, draws: Draws) => Uint8Array;

const damages: Readonly<Record<string, Damage>> = {
  "cut short": (bytes, draws) => bytes.slice(0, draws.below(bytes.length)),
  "flip a bit": (bytes, draws) => {
    const at = draws.below(bytes.length);
    bytes[at] = (bytes[at] ?? 0) ^ (1 << draws.below(8));
    return bytes;
  },
  "take a span out": (bytes, draws) => {
    const at = draws.below(bytes.length);
    return joined(bytes.subarray(0, at), bytes.subarray(at + 1 + draws.below(200)));
  },
  "double a span": (bytes, draws) => {
    const at = draws.below(bytes.length);
    const end = at + 1 + draws.below(200);
    return joined(bytes.subarray(0, end), bytes.subarray(at));
  },
  "fill a span": (bytes, draws) => {
    const at = draws.below(bytes.length);
    return bytes.fill(draws.pick([0, 0xff, 0x3c, 0x50]), at, at + 1 + draws.below(60));
  },
  "change a field of the archive": (bytes, draws) => {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    const places: number[] = [];
    for (let at = 0; at + 4 <= bytes.length; at++) if (signatures.includes(view.getUint32(at, true))) places.push(at);
    const at = draws.pick(places.length > 0 ? places : [0]) + 4 + draws.below(42);
    if (draws.onceIn(2) && at + 4 <= bytes.length) view.setUint32(at, draws.pick(edges), true);
    else if (at + 2 <= bytes.length) view.setUint16(at, draws.pick(edges) & 0xffff, true);
    return bytes;
  },
};

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  return Uint8Array.from(Buffer.concat(parts));
}

/** A workbook whose bytes are damaged without a thought of what they mean; most do not open. */
export function rawMutant(name: string, seedBytes: Uint8Array, draws: Draws): Mutant {
  const steps = Array.from({ length: 1 + draws.below(3) }, () => ({
    kind: draws.pick(Object.keys(damages)),
    seed: draws.seed(),
  }));
  return {
    words: `bytes of ${name}: ${steps.map(({ kind }) => kind).join(", ")}`,
    steps: steps.length,
    build: (kept) => {
      let bytes: Uint8Array = seedBytes.slice();
      for (const [step, { kind, seed }] of steps.entries())
        if (kept.includes(step)) bytes = damages[kind]!(bytes, drawsOf(seed));
      return bytes;
    },
  };
}
