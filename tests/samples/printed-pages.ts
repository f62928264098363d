import { inflateSync } from "node:zlib";

/** A piece of text on paper; sizes and places in points, the origin at the lower left. */
export interface PrintedText {
  readonly text: string;
  readonly size: number;
  readonly x: number;
  readonly y: number;
  /** Along the page: a turned text has none. */
  readonly width: number;
  /** What of the page may show it, where its cell is smaller than the page. */
  readonly clip: Box;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** Texts that a cell's edge cuts or hides; a little of the air above a capital may be missing. */
export function findCutTexts(page: readonly PrintedText[]): PrintedText[] {
  return page.filter(({ x, y, width, size, clip: { left, right, bottom, top } }) => {
    const air = 0.1 * size;
    return x < left - air || x + width > right + air || y < bottom - air || y + 0.6 * size > top + air;
  });
}

/** Pairs of texts of which one is printed over the other. */
export function findOverprints(page: readonly PrintedText[]): [PrintedText, PrintedText][] {
  return page.flatMap((one, index) =>
    page
      .slice(index + 1)
      .filter((other) => {
        const size = Math.min(one.size, other.size);
        const across = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x);
        return across > 0.2 * size && Math.abs(one.y - other.y) < 0.6 * size;
      })
      .map((other): [PrintedText, PrintedText] => [one, other]),
  );
}

/** Whether a text is a subscript or a superscript: much smaller than one beside it, and a little above or below its line. */
export function isRaised(text: PrintedText, page: readonly PrintedText[]): boolean {
  return page.some(({ size, x, y }) => {
    const away = Math.abs(text.y - y);
    return (
      text.text.length <= 10 &&
      text.size < 0.7 * size &&
      away > 0.02 * size &&
      away < 0.6 * size &&
      Math.abs(text.x - x) < 250
    );
  });
}

/** The pages of a PDF by LibreOffice, with their texts in the order in which they are drawn. */
export function readPrintedPages(pdf: Uint8Array): PrintedText[][] {
  const file = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength);
  const objects = findObjects(file);
  const fonts = readFonts(objects);
  return [...objects.values()]
    .filter(({ head }) => /\/Type\s*\/Page\b/.test(head))
    .map(({ head }) => {
      const contents = objects.get(Number(/\/Contents (\d+) 0 R/.exec(head)?.[1]));
      return contents ? readTexts(contents.stream(), fonts) : [];
    });
}

interface PdfObject {
  /** What comes before the stream. */
  readonly head: string;
  readonly stream: () => string;
}

function findObjects(file: Buffer): Map<number, PdfObject> {
  const all = file.toString("latin1");
  const objects = new Map<number, PdfObject>();
  for (const [, at] of all.slice(all.lastIndexOf("\nxref")).matchAll(/^(\d{10}) \d{5} n/gm)) {
    const start = Number(at);
    const name = /^(\d+) 0 obj\s*/.exec(all.slice(start, start + 20));
    if (!name) continue;
    const end = all.indexOf("endobj", start);
    const streamAt = all.indexOf("stream\n", start);
    const hasStream = streamAt !== -1 && streamAt < end;
    const from = streamAt + "stream\n".length;
    objects.set(Number(name[1]), {
      head: all.slice(start + name[0].length, hasStream ? streamAt : end),
      stream: () => (hasStream ? inflateSync(file.subarray(from)).toString("latin1") : ""),
    });
  }
  return objects;
}

interface Font {
  /** The characters behind its codes, two digits each. */
  readonly letters: ReadonlyMap<string, string>;
  /** Widths of the codes in thousandths of the size. */
  readonly widths: readonly number[];
}

/** The fonts by the names that the pages call them. */
function readFonts(objects: ReadonlyMap<number, PdfObject>): Map<string, Font> {
  const fonts = new Map<string, Font>();
  for (const { head } of objects.values())
    for (const [, name = "", number] of head.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
      const font = objects.get(Number(number))?.head ?? "";
      const map = objects.get(Number(/\/ToUnicode (\d+) 0 R/.exec(font)?.[1]));
      const letters = new Map<string, string>();
      for (const [, code = "", hex = ""] of map?.stream().matchAll(/<(\w\w)> <(\w+)>/g) ?? [])
        letters.set(code, String.fromCharCode(...(hex.match(/.{4}/g) ?? []).map((unit) => parseInt(unit, 16))));
      const widths = (/\/Widths\s*\[([^\]]*)\]/.exec(font)?.[1] ?? "").trim().split(/\s+/).map(Number);
      fonts.set(name, { letters, widths });
    }
  return fonts;
}

type Matrix = readonly [number, number, number, number, number, number];

const multiply = ([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix => [
  a * A + b * C,
  a * B + b * D,
  c * A + d * C,
  c * B + d * D,
  e * A + f * C + E,
  e * B + f * D + F,
];

const unit: Matrix = [1, 0, 0, 1, 0, 0];

const everywhere: Box = { left: -Infinity, right: Infinity, bottom: -Infinity, top: Infinity };

const within = (one: Box, other: Box): Box => ({
  left: Math.max(one.left, other.left),
  right: Math.min(one.right, other.right),
  bottom: Math.max(one.bottom, other.bottom),
  top: Math.min(one.top, other.top),
});

/** The texts that a page's operators draw (ISO 32000-1, 8.4, 8.5 and 9.4); of what clips them, the rectangles that are not turned. */
function readTexts(content: string, fonts: ReadonlyMap<string, Font>): PrintedText[] {
  const texts: PrintedText[] = [];
  const stack: [Matrix, Box][] = [];
  let [page, line] = [unit, unit];
  let [clip, path] = [everywhere, everywhere];
  let [font, size] = ["", 0];
  let operands: string[] = [];
  const numbers = (): Matrix => operands.slice(-6).map(Number) as unknown as Matrix;
  for (const [token] of content.matchAll(/\[[^\]]*\]|<<|>>|<[\dA-Fa-f\s]*>|\([^)]*\)|[^\s[\]<>()]+/g)) {
    switch (token) {
      case "q":
        stack.push([page, clip]);
        break;
      case "Q":
        [page, clip] = stack.pop() ?? [unit, everywhere];
        break;
      case "cm":
        page = multiply(numbers(), page);
        break;
      case "re": {
        const [left, bottom, across, up] = operands.slice(-4).map(Number) as [number, number, number, number];
        const [, , , , x, y] = multiply([1, 0, 0, 1, left, bottom], page);
        path = { left: x, right: x + across * page[0], bottom: y, top: y + up * page[3] };
        break;
      }
      case "m":
        path = everywhere;
        break;
      case "W":
      case "W*":
        clip = within(clip, path);
        break;
      case "BT":
        line = unit;
        break;
      case "Tm":
        line = numbers();
        break;
      case "Td":
        line = multiply([1, 0, 0, 1, ...(operands.slice(-2).map(Number) as [number, number])], line);
        break;
      case "Tf":
        [font, size] = [(operands.at(-2) ?? "").slice(1), Number(operands.at(-1))];
        break;
      case "Tj":
      case "TJ": {
        const { letters, widths } = fonts.get(font) ?? { letters: new Map<string, string>(), widths: [] };
        const drawn = operands.at(-1) ?? "";
        const codes = [...drawn.matchAll(/<([^>]*)>/g)].flatMap(([, hex = ""]) => hex.match(/../g) ?? []);
        const text = codes.map((code) => letters.get(code.toUpperCase()) ?? "?").join("");
        const kerned = [...drawn.matchAll(/>\s*(-?[\d.]+)/g)].reduce((sum, [, shift]) => sum + Number(shift), 0);
        const em = codes.reduce((sum, code) => sum + (widths[parseInt(code, 16)] ?? 0), -kerned) / 1000;
        const [a, , c, d, x, y] = multiply(line, page);
        const place = { x, y, size: size * Math.hypot(c, d), width: em * size * Math.abs(a), clip };
        if (text.trim() !== "") texts.push({ text, ...place });
        break;
      }
      default:
        operands.push(token);
        continue;
    }
    operands = [];
  }
  return texts;
}
