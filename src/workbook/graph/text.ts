import { colours } from "./looks";
import { element, escaped } from "./svg";
import { textWidth } from "./text-width";

/** Arial where a person looks at it, Arimo where it is turned into a picture: both are equally wide. */
const family = "Arial, Arimo, 'Liberation Sans', Helvetica, sans-serif";

export interface TextLook {
  readonly size: number;
  readonly colour?: string;
  readonly bold?: boolean;
  readonly anchor?: "start" | "middle" | "end";
  /** A white edge, so that lines below do not disturb. */
  readonly edge?: boolean;
  readonly turned?: boolean;
}

/** A line of text with its baseline at y. */
export function textAt(x: number, y: number, text: string, look: TextLook): string {
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
    ? element(
        "text",
        { ...attributes, stroke: colours.white, "stroke-width": 4, "stroke-linejoin": "round", "aria-hidden": "true" },
        escaped(text),
      )
    : "";
  return halo + element("text", attributes, escaped(text));
}

/** The place that something takes. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The box of a line of text. */
export function textBox(x: number, y: number, text: string, { size, bold, anchor = "start" }: TextLook): Box {
  const width = textWidth(text, size, bold);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - 0.75 * size, bottom: y + 0.22 * size };
}

export function boxesMeet(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}
