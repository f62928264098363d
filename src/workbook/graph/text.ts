import { colours } from "./line-style";
import { writeElement } from "./svg";
import { escapeHtml } from "../html";

/** Arial on screen, Arimo when rendered to a picture: both have the same widths. */
const family = "Arial, Arimo, 'Liberation Sans', Helvetica, sans-serif";

export interface TextLook {
  readonly size: number;
  readonly colour?: string;
  readonly bold?: boolean;
  readonly anchor?: "start" | "middle" | "end";
  /** A white outline, so that lines underneath do not interfere. */
  readonly edge?: boolean;
  readonly turned?: boolean;
}

/** A line of text with its baseline at y. */
export function drawText(x: number, y: number, text: string, look: TextLook): string {
  const { size, colour = colours.ink, bold = false, anchor = "start", edge = false, turned = false } = look;
  const attributes = {
    x,
    y,
    "font-family": family,
    "font-size": size,
    fill: colour,
    "font-weight": bold ? "bold" : undefined,
    "text-anchor": anchor === "start" ? undefined : anchor,
    transform: turned ? `rotate(-90 ${Number(x.toFixed(2))} ${Number(y.toFixed(2))})` : undefined,
  };
  const halo = edge
    ? writeElement(
        "text",
        { ...attributes, stroke: colours.white, "stroke-width": 4, "stroke-linejoin": "round", "aria-hidden": "true" },
        escapeHtml(text),
      )
    : "";
  return halo + writeElement("text", attributes, escapeHtml(text));
}

/** The space something occupies. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The box of a line of text. */
export function measureTextBox(x: number, y: number, text: string, { size, bold, anchor = "start" }: TextLook): Box {
  const width = measureText(text, size, bold);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - 0.75 * size, bottom: y + 0.22 * size };
}

export function isOverlapping(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

/** Widths of Arial's characters in thousandths of the font size; Arimo and Liberation Sans share them. */
const widths: readonly (readonly [width: number, letters: string])[] = [
  [191, "'"],
  [222, "ijl"],
  [278, " !,./:;I[]ft\\"],
  [260, "|"],
  [333, "()-`r·²³"],
  [355, '"'],
  [389, "*"],
  [400, "°"],
  [500, "Jcksvxyz"],
  [549, "±≤≥≈√"],
  [556, "#$0123456789?L_abdeghnopqu–"],
  [584, "+<=>~×−"],
  [611, "FTZ"],
  [667, "&ABEKPSVXY"],
  [668, "Δ"],
  [722, "CDHNRUw"],
  [778, "GOQ"],
  [833, "Mm"],
  [889, "%"],
  [944, "W"],
  [1000, "…"],
  [1015, "@"],
];

const widthOf = new Map(widths.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width] as const)));

/** Characters not in the list: accented ones are no wider than 0.78, those of other scripts about as wide as high. */
const estimateWidth = (letter: string): number => (letter < "\u0250" ? 780 : 1000);

/** Bold letters are wider by at most a ninth on average. */
const boldFactor = 1.11;

/** Width of a text in units of its font size. */
export function measureText(text: string, size: number, bold = false): number {
  let sum = 0;
  for (const letter of text) sum += widthOf.get(letter) ?? estimateWidth(letter);
  return (sum / 1000) * size * (bold ? boldFactor : 1);
}

/** A text no wider than `width`: truncated with a mark if longer. */
export function fitText(text: string, width: number, size: number, bold = false): string {
  if (measureText(text, size, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 0 && measureText(`${letters.join("")}…`, size, bold) > width) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** A text wrapped at spaces into at most `most` lines of a width; the last is truncated if there is more. */
export function wrapText(text: string, width: number, size: number, most: number): string[] {
  const lines: string[] = [];
  let line = "";
  const words = text.split(/\s+/).filter((word) => word !== "");
  for (const [index, word] of words.entries()) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line === "" || measureText(longer, size) <= width) {
      line = longer;
      continue;
    }
    if (lines.length === most - 1) {
      line = [line, ...words.slice(index)].join(" ");
      break;
    }
    lines.push(line);
    line = word;
  }
  if (line !== "") lines.push(line);
  return lines.map((text) => fitText(text, width, size));
}
