import { inflateSync } from "node:zlib";

/** A piece of text on paper; sizes and places in points, the origin at the lower left. */
export interface PrintedText {
  readonly text: string;
  readonly size: number;
  readonly x: number;
  readonly y: number;
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

/** The characters behind the codes of each font, by the name that the pages call it. */
function readFonts(objects: ReadonlyMap<number, PdfObject>): Map<string, Map<string, string>> {
  const fonts = new Map<string, Map<string, string>>();
  for (const { head } of objects.values())
    for (const [, name = "", number] of head.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
      const map = objects.get(Number(/\/ToUnicode (\d+) 0 R/.exec(objects.get(Number(number))?.head ?? "")?.[1]));
      const letters = new Map<string, string>();
      for (const [, code = "", hex = ""] of map?.stream().matchAll(/<(\w\w)> <(\w+)>/g) ?? [])
        letters.set(code, String.fromCharCode(...(hex.match(/.{4}/g) ?? []).map((unit) => parseInt(unit, 16))));
      fonts.set(name, letters);
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

/** The texts that a page's operators draw (ISO 32000-1, 8.4 and 9.4). */
function readTexts(content: string, fonts: ReadonlyMap<string, ReadonlyMap<string, string>>): PrintedText[] {
  const texts: PrintedText[] = [];
  const stack: Matrix[] = [];
  let [page, line] = [unit, unit];
  let [font, size] = ["", 0];
  let operands: string[] = [];
  const numbers = (): Matrix => operands.slice(-6).map(Number) as unknown as Matrix;
  for (const [token] of content.matchAll(/\[[^\]]*\]|<<|>>|<[\dA-Fa-f\s]*>|\([^)]*\)|[^\s[\]<>()]+/g)) {
    switch (token) {
      case "q":
        stack.push(page);
        break;
      case "Q":
        page = stack.pop() ?? unit;
        break;
      case "cm":
        page = multiply(numbers(), page);
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
        const codes = [...(operands.at(-1) ?? "").matchAll(/<([^>]*)>/g)].map(([, hex = ""]) => hex).join("");
        const text = (codes.match(/../g) ?? []).map((code) => fonts.get(font)?.get(code.toUpperCase()) ?? "?").join("");
        const [, , c, d, x, y] = multiply(line, page);
        if (text.trim() !== "") texts.push({ text, size: size * Math.hypot(c, d), x, y });
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
