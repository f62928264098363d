import type { Archive } from "../archive";
import { parseBoolean } from "../xml/xml";

export interface FontLook {
  readonly name?: string;
  /** Points. */
  readonly size?: number;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly underline?: boolean;
  readonly strike?: boolean;
  /** RRGGBB. */
  readonly colour?: string;
}

export interface Edge {
  /** "thin", "medium", "dashed", … (ECMA-376 part 1, 18.18.3). */
  readonly style: string;
  readonly colour: string;
}

export type Side = "left" | "right" | "top" | "bottom";

/** How a cell looks. */
export interface CellStyle {
  readonly font: FontLook;
  readonly fill?: string;
  readonly edges: Readonly<Partial<Record<Side, Edge>>>;
  readonly horizontal?: string;
  readonly vertical?: string;
  readonly wrap?: boolean;
  readonly shrink?: boolean;
  readonly indent?: number;
  readonly locked: boolean;
}

/** The style changes of a conditional format. */
export interface ConditionalStyle {
  readonly font: FontLook;
  readonly fill?: string;
  readonly edges: Readonly<Partial<Record<Side, Edge>>>;
  readonly format?: string;
}

export interface CellStyles {
  /** By the index that a cell's `s` attribute gives. */
  readonly cells: readonly CellStyle[];
  /** By the index that a rule's `dxfId` gives. */
  readonly conditional: readonly ConditionalStyle[];
}

type Attributes = Record<string, string>;

interface Draft {
  font: Writable<FontLook>;
  fill: string | undefined;
  edges: Partial<Record<Side, Edge>>;
  format: string | undefined;
}

type Writable<T> = { -readonly [Key in keyof T]: T[Key] };

const createDraft = (): Draft => ({ font: {}, fill: undefined, edges: {}, format: undefined });

/** Reads every style in the style part: fonts, fills, borders, alignment (ECMA-376 part 1, 18.8); done only on request, to save time. */
export function readCellStyles(archive: Archive, partName: string, colourOf: ColourReader): CellStyles {
  const fonts: Draft[] = [];
  const fills: Draft[] = [];
  const borders: Draft[] = [];
  const conditional: Draft[] = [];
  const cells: { attributes: Attributes; alignment: Attributes; locked: boolean }[] = [];
  const lists: ReadonlyMap<string, Draft[]> = new Map(Object.entries({ fonts, fills, borders, dxfs: conditional }));
  const members = new Set(["font", "fill", "border", "dxf"]);
  let list = "";
  let current: Draft | undefined;
  let solid = false;
  let side: Side | undefined;
  let edgeStyle = "none";
  archive.read(partName, {
    open(name, attributes) {
      if (lists.has(name) || name === "cellXfs") list = name;
      else if (members.has(name) && !(list === "dxfs" && name !== "dxf"))
        lists.get(list)?.push((current = createDraft()));
      else if (list === "cellXfs") openCell(name, attributes);
      else if (current) openPart(name, attributes, current);
    },
    close(name) {
      if (name === list) list = "";
      if (members.has(name) && !(list === "dxfs" && name !== "dxf")) current = undefined;
      if (name === side || (side !== undefined && (name === "start" || name === "end"))) side = undefined;
    },
  });

  function openCell(name: string, attributes: Attributes): void {
    if (name === "xf") cells.push({ attributes, alignment: {}, locked: true });
    const last = cells.at(-1);
    if (last && name === "alignment") last.alignment = attributes;
    if (last && name === "protection") last.locked = parseBoolean(attributes["locked"], true);
  }

  function openPart(name: string, attributes: Attributes, into: Draft): void {
    const { font } = into;
    const on = parseBoolean(attributes["val"], true);
    switch (name) {
      case "b":
        font.bold = on;
        break;
      case "i":
        font.italic = on;
        break;
      case "strike":
        font.strike = on;
        break;
      case "u":
        font.underline = attributes["val"] !== "none";
        break;
      case "sz":
        font.size = Number(attributes["val"]);
        break;
      case "name":
        if (attributes["val"] !== undefined) font.name = attributes["val"];
        break;
      case "numFmt":
        into.format = attributes["formatCode"];
        break;
      case "patternFill":
        solid = attributes["patternType"] === "solid" || (list === "dxfs" && attributes["patternType"] === undefined);
        break;
      case "fgColor":
        if (solid && list === "fills") into.fill = colourOf(attributes);
        break;
      case "bgColor":
        // A conditional fill stores its colour where a plain one stores its background.
        if (solid && list === "dxfs") into.fill = colourOf(attributes);
        break;
      case "left":
      case "start":
      case "right":
      case "end":
      case "top":
      case "bottom":
        side = name === "start" ? "left" : name === "end" ? "right" : name;
        edgeStyle = attributes["style"] ?? "none";
        if (edgeStyle !== "none") into.edges[side] = { style: edgeStyle, colour: "000000" };
        break;
      case "color": {
        const colour = colourOf(attributes);
        if (side !== undefined) {
          if (edgeStyle !== "none") into.edges[side] = { style: edgeStyle, colour: colour ?? "000000" };
        } else if (colour !== undefined) font.colour = colour;
        break;
      }
    }
  }

  return {
    cells: cells.map(({ attributes, alignment, locked }) => {
      const findDraft = (from: readonly Draft[], key: string): Draft | undefined => from[Number(attributes[key] ?? 0)];
      const { horizontal, vertical, indent } = alignment;
      const fill = findDraft(fills, "fillId")?.fill;
      return {
        font: findDraft(fonts, "fontId")?.font ?? {},
        edges: findDraft(borders, "borderId")?.edges ?? {},
        locked,
        ...(fill !== undefined && { fill }),
        ...(horizontal !== undefined && { horizontal }),
        ...(vertical !== undefined && { vertical }),
        ...(indent !== undefined && { indent: Number(indent) }),
        ...(parseBoolean(alignment["wrapText"]) && { wrap: true }),
        ...(parseBoolean(alignment["shrinkToFit"]) && { shrink: true }),
      };
    }),
    conditional: conditional.map(({ font, fill, edges, format }) => ({
      font,
      edges,
      ...(fill !== undefined && { fill }),
      ...(format !== undefined && { format }),
    })),
  };
}

/** Gives the RRGGBB of a colour element, undefined for an automatic colour (ECMA-376 part 1, 18.8.3, 18.8.19, 18.8.27). */
type ColourReader = (attributes: Attributes) => string | undefined;

/** Theme colours are stored as dk1, lt1, dk2, lt2, …; cells index light before dark. */
const themeOrder = [
  "lt1",
  "dk1",
  "lt2",
  "dk2",
  "accent1",
  "accent2",
  "accent3",
  "accent4",
  "accent5",
  "accent6",
  "hlink",
  "folHlink",
];

/** The default palette for colour indices if a workbook has none (18.8.27); the first eight repeat. */
const indexedColours = (
  "000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF " +
  "800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF " +
  "000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99 " +
  "3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333"
).split(" ");

/** How this workbook's colours are read; without a theme part, theme colours are automatic. */
export function createColourReader(archive: Archive, themePart: string | undefined): ColourReader {
  const theme = themePart === undefined || !archive.findEntry(themePart) ? [] : readTheme(archive, themePart);
  return ({ rgb, theme: place, indexed, tint }) => {
    const plain =
      rgb !== undefined
        ? rgb.slice(-6).toUpperCase()
        : place !== undefined
          ? theme[Number(place)]
          : indexedColours[Number(indexed ?? -1)];
    if (plain === undefined || !/^[0-9A-F]{6}$/.test(plain)) return undefined;
    return tint === undefined ? plain : tintColour(plain, Number(tint));
  };
}

function readTheme(archive: Archive, partName: string): (string | undefined)[] {
  const named = new Map<string, string>();
  let current = "";
  archive.read(partName, {
    open(name, attributes) {
      if (themeOrder.includes(name)) current = name;
      else if (current !== "" && (name === "srgbClr" || name === "sysClr")) {
        const colour = (name === "sysClr" ? attributes["lastClr"] : attributes["val"]) ?? "";
        if (!named.has(current)) named.set(current, colour.toUpperCase());
      }
    },
    close(name) {
      if (name === current) current = "";
    },
  });
  return themeOrder.map((name) => named.get(name));
}

/** Lightened (above 0) or darkened (below 0) in its luminance (18.8.19, tint). */
function tintColour(colour: string, tint: number): string {
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255);
  const [most, least] = [Math.max(red, green, blue), Math.min(red, green, blue)];
  const light = (most + least) / 2;
  const span = most - least;
  const saturation = span === 0 ? 0 : span / (light > 0.5 ? 2 - most - least : most + least);
  const sixth =
    span === 0
      ? 0
      : most === red
        ? (green - blue) / span
        : most === green
          ? 2 + (blue - red) / span
          : 4 + (red - green) / span;
  const shifted = tint < 0 ? light * (1 + tint) : light * (1 - tint) + tint;
  const chroma = saturation * Math.min(shifted, 1 - shifted);
  return [0, 8, 4]
    .map((offset) => {
      const k = (offset + 2 * (sixth + 6)) % 12;
      const share = shifted - chroma * Math.max(-1, Math.min(k - 3, 9 - k, 1));
      return Math.round(255 * Math.min(1, Math.max(0, share)))
        .toString(16)
        .padStart(2, "0");
    })
    .join("")
    .toUpperCase();
}
