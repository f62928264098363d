import type { Edge, FontLook, Side } from "../file/looks/cell-styles";
import { typeface } from "../palette";

/** How one cell is to look, all sources put together. */
export interface Look {
  readonly font: FontLook;
  readonly fill?: string | undefined;
  readonly edges: Readonly<Partial<Record<Side, Edge>>>;
  readonly align: "left" | "center" | "right";
  readonly vertical: "top" | "middle" | "bottom";
  readonly wrap: boolean;
  readonly indent: number;
}

/** Classes for looks, widths and heights: each is written once, whatever the number of cells, and no cell has a style of its own, which a page's policy would refuse. */
export class StyleSheet {
  private readonly names = new Map<string, string>();

  lookClass(look: Look): string {
    return this.classOf(declarations(look));
  }

  /** A column's width in characters; Excel adds five pixels of air to seven a character. */
  widthClass(characters: number): string {
    return this.classOf(`width:${em(7 * characters + 5)}`);
  }

  heightClass(points: number): string {
    return this.classOf(`height:${em((points * 4) / 3)}`);
  }

  tableClass(pixels: number): string {
    return this.classOf(`width:${em(pixels)}`);
  }

  /** On paper a table is as small as its page asks for, down to what can still be read. */
  printClass(scale: number): string {
    return `p${Math.round(100 * scale)}`;
  }

  css(): string {
    return [...this.names].map(([declared, name]) => `.${name}{${declared}}`).join("\n");
  }

  private classOf(declared: string): string {
    const known = this.names.get(declared);
    if (known !== undefined) return known;
    const name = `x${this.names.size.toString(36)}`;
    this.names.set(declared, name);
    return name;
  }
}

/** Sheets are measured in letters of 16 pixels, so that they grow with the reader's own letter size. */
function em(pixels: number): string {
  return `${Number((pixels / 16).toFixed(3))}em`;
}

const lines: ReadonlyMap<string, string> = new Map(
  Object.entries({
    thin: "1px solid",
    hair: "1px dotted",
    dotted: "1px dotted",
    dashed: "1px dashed",
    dashDot: "1px dashed",
    dashDotDot: "1px dashed",
    slantDashDot: "2px dashed",
    medium: "2px solid",
    mediumDashed: "2px dashed",
    mediumDashDot: "2px dashed",
    mediumDashDotDot: "2px dashed",
    thick: "3px solid",
    double: "3px double",
  }),
);

function declarations({ font, fill, edges, align, vertical, wrap, indent }: Look): string {
  const size = ((font.size ?? 11) * 4) / 3;
  const decoration = [font.underline ? "underline" : "", font.strike ? "line-through" : ""].filter(
    (word) => word !== "",
  );
  const sides = (["top", "right", "bottom", "left"] as const).flatMap((side) => {
    const edge = edges[side];
    return edge ? [`border-${side}:${lines.get(edge.style) ?? "1px solid"} #${edge.colour}`] : [];
  });
  const inset = Number(((3 + 9 * indent) / size).toFixed(2));
  return [
    `font-size:${em(size)}`,
    font.name !== undefined && font.name !== typeface ? `font-family:${familyOf(font.name)}` : "",
    font.bold ? "font-weight:700" : "",
    font.italic ? "font-style:italic" : "",
    decoration.length > 0 ? `text-decoration:${decoration.join(" ")}` : "",
    `color:#${font.colour ?? "000000"}`,
    fill === undefined ? "" : `background-color:#${fill}`,
    ...sides,
    `text-align:${align}`,
    `vertical-align:${vertical}`,
    wrap ? "white-space:pre-wrap" : "",
    indent > 0 && align !== "center" ? `padding-${align}:${inset}em` : "",
  ]
    .filter((declared) => declared !== "")
    .join(";");
}

/** A font's name goes into the style sheet only where it is plainly a name. */
function familyOf(name: string): string {
  const kind = /mono|consol|courier/i.test(name)
    ? "monospace"
    : /times|serif|georgia|cambria/i.test(name) && !/sans/i.test(name)
      ? "serif"
      : "sans-serif";
  return /^[\p{L}\p{N} -]{1,40}$/u.test(name) ? `"${name}",${kind}` : kind;
}
