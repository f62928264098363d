import type { Edge, FontLook, Side } from "../file/appearance/cell-styles";
import { palette, tokens, typeface } from "../palette";

/** The final style of one cell, from all sources. */
export interface Look {
  readonly font: FontLook;
  readonly fill?: string | undefined;
  readonly edges: Readonly<Partial<Record<Side, Edge>>>;
  readonly align: "left" | "center" | "right";
  readonly vertical: "top" | "middle" | "bottom";
  readonly wrap: boolean;
  readonly indent: number;
}

/** Classes for styles, widths and heights: each is written once, however many cells use it, and no cell has an inline style, which the page's policy would block. */
export class StyleSheet {
  private readonly names = new Map<string, string>();

  lookClass(look: Look): string {
    return this.registerClass(writeDeclarations(look));
  }

  /** A column's width in characters; Excel uses seven pixels per character plus five of padding. */
  registerWidth(characters: number): string {
    return this.registerClass(`width:${toEm(7 * characters + 5)}`);
  }

  registerHeight(points: number): string {
    return this.registerClass(`height:${toEm((points * 4) / 3)}`);
  }

  registerTableWidth(pixels: number): string {
    return this.registerClass(`width:${toEm(pixels)}`);
  }

  /** In print a table is scaled to fit its page, down to a legible minimum. */
  printClass(scale: number): string {
    return `p${Math.round(100 * scale)}`;
  }

  writeCss(): string {
    return [...this.names].map(([declared, name]) => `.${name}{${declared}}`).join("\n");
  }

  private registerClass(declared: string): string {
    const known = this.names.get(declared);
    if (known !== undefined) return known;
    const name = `x${this.names.size.toString(36)}`;
    this.names.set(declared, name);
    return name;
  }
}

/** Sheets are measured relative to a 16-pixel font, so that they scale with the reader's font size. */
function toEm(pixels: number): string {
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

function writeDeclarations({ font, fill, edges, align, vertical, wrap, indent }: Look): string {
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
    `font-size:${toEm(size)}`,
    font.name !== undefined && font.name !== typeface ? `font-family:${chooseFamily(font.name)}` : "",
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

/** A font's name goes into the style sheet only if it is plainly a name. */
function chooseFamily(name: string): string {
  const kind = /mono|consol|courier/i.test(name)
    ? "monospace"
    : /times|serif|georgia|cambria/i.test(name) && !/sans/i.test(name)
      ? "serif"
      : "sans-serif";
  return /^[\p{L}\p{N} -]{1,40}$/u.test(name) ? `"${name}",${kind}` : kind;
}

const readColour = (name: keyof typeof palette) => `#${palette[name]}`;

/** Print scales of tables, in per cent. */
const printScales = Array.from({ length: 11 }, (_, step) => 30 + 5 * step);

/** The style of a sheet as a table. Sheets stay white in the dark scheme too, since their colours are made for it. */
export const sheetStyles = `
.paper{background:#FFFFFF;color:#000000;border:1px solid var(--rule);color-scheme:light}
.sheet{border-collapse:collapse;table-layout:fixed;font-size:1rem;background:#FFFFFF;color:#000000}
.sheet caption{position:absolute;left:-99em}
:where(.sheet) td,:where(.sheet) th{font-weight:400;padding:0 3px;line-height:1.15;overflow-wrap:break-word}
:where(.grid) td{border:1px solid #E1E1E1}
.sheet thead th,.sheet tbody th[scope=row],.sheet .corner{background:#EEF1F2;color:#4A5559;font-size:.66em;font-weight:400;text-align:center;vertical-align:middle;border:0}
.sheet tbody th[scope=row],.sheet .corner{position:sticky;left:0;z-index:1}
.sheet .one{white-space:nowrap}
.sheet .over-left{direction:rtl}
.sheet .over-left>span{direction:ltr;unicode-bidi:isolate}
.sheet .in{background-image:linear-gradient(135deg,${readColour("copper")} .33em,transparent .35em);background-repeat:no-repeat}
.sheet .addin{background-image:linear-gradient(225deg,${readColour("petrol")} .25em,transparent .27em);background-repeat:no-repeat}
.sheet .err>span,.key .err{text-decoration:underline wavy ${readColour("fail")};text-decoration-skip-ink:none}
.sheet .drawing{border:1px dashed ${readColour("rule")};color:${readColour("grey")};font-size:.75rem;padding:.75em;text-align:left;vertical-align:top}
.sheet .chart{padding:0;vertical-align:top;background:#FFFFFF}
.sheet .chart svg{display:block;width:100%;height:auto}
.sheet .drawing>span{display:block;max-width:20rem}
.sheet .old>span,.key .old{text-decoration:underline dotted 2px}
.sheet :target{box-shadow:inset 0 0 0 3px ${readColour("copper")}}
`.trim();

/** The page's own style. */
export const pageStyles = `
${tokens}
*{box-sizing:border-box}
html{font-family:Arial,Arimo,"Liberation Sans",Helvetica,sans-serif;line-height:1.4;background:var(--ground);color:var(--ink)}
body{margin:0}
.skip{position:absolute;left:-99em}
.skip:focus{position:fixed;left:.5rem;top:.5rem;z-index:9;padding:.5rem .75rem;background:${readColour("ink")};color:#FFFFFF}
header,main,footer,nav{padding:0 clamp(.75rem,3vw,2.5rem)}
header{padding-top:1.5rem}
h1{margin:0;font-size:1.6rem;font-weight:400;color:var(--accent);overflow-wrap:anywhere}
h2{margin:2.5rem 0 .5rem;font-size:1.15rem;font-weight:700;color:var(--accent);border-bottom:1px solid var(--accent);padding-bottom:.25rem;overflow-wrap:anywhere}
h3{margin:1.25rem 0 .4rem;font-size:1rem}
p{margin:.4rem 0;max-width:48rem}
a{color:var(--accent)}
a:focus-visible,[tabindex]:focus-visible,summary:focus-visible{outline:3px solid ${readColour("copper")};outline-offset:2px}
.soft{color:var(--soft)}
nav ul{display:flex;align-items:baseline;flex-wrap:wrap;gap:.35rem .9rem;margin:.75rem 0 0;padding:0;list-style:none}
nav a{display:inline-block;padding:.25rem 0}
.scroll{position:relative;overflow-x:auto;max-width:100%}
.list{border-collapse:collapse;font-size:.9rem}
.list caption{text-align:left;color:var(--soft);padding:.2rem 0}
.list th,.list td{padding:.3rem 1.1rem .3rem 0;text-align:left;vertical-align:top;border-bottom:1px solid var(--rule);font-weight:400}
.list thead th{color:var(--soft);font-size:.85rem}
.list .num{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}
.list code{overflow-wrap:anywhere}
.verdict td,.verdict th{font-weight:700}
code{font-family:Consolas,"Liberation Mono",Menlo,monospace;font-size:.92em}
ul.plain{margin:.4rem 0;padding-left:1.2rem;max-width:60rem}
figure{margin:.5rem 0}
figure svg{display:block;width:100%;min-width:34rem;max-width:52rem;height:auto}
${sheetStyles}
.key{display:flex;flex-wrap:wrap;gap:.4rem 1.5rem;margin:.5rem 0;padding:0;list-style:none;font-size:.85rem}
.key span.box{display:inline-block;width:2.4em;height:1.15em;margin-right:.5em;vertical-align:-.2em;background-color:#FFFFFF;border:1px solid ${readColour("rule")};color:#000000;text-align:center;line-height:1}
.key .in{background-image:linear-gradient(135deg,${readColour("copper")} .33em,transparent .35em)}
.key .addin{background-image:linear-gradient(225deg,${readColour("petrol")} .25em,transparent .27em)}
.spoken{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
details{margin:.6rem 0}
summary{cursor:pointer;padding:.2rem 0}
footer{margin:3rem 0 2rem;font-size:.85rem}
@media print{
@page{margin:14mm 12mm}
@page wide{size:A4 landscape;margin:12mm}
.wide{page:wide}
html{font-size:10pt}
nav,.skip,.key,details:not([open]){display:none}
.scroll{overflow:visible}
.paper{border:0}
h2{break-after:avoid}
.sheet-part{break-before:page}
tr,figure{break-inside:avoid}
figure svg{min-width:0;max-width:100%}
.sheet thead{display:table-header-group}
.sheet tbody th[scope=row],.sheet .corner{position:static}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}
${printScales.map((scale) => `.p${scale}{font-size:${(scale * 12) / 100}pt}`).join("")}
}`.trim();
