import type { Archive } from "../archive";
import type { ColourReader } from "./colours";
import { booleanAttribute } from "../xml/xml";

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

/** What a condition changes of a look. */
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

const draft = (): Draft => ({ font: {}, fill: undefined, edges: {}, format: undefined });

/** Reads every look of the style part: fonts, fills, borders, alignment (ECMA-376 part 1, 18.8); only who asks for looks pays for them. */
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
      else if (members.has(name) && !(list === "dxfs" && name !== "dxf")) lists.get(list)?.push((current = draft()));
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
    if (last && name === "protection") last.locked = booleanAttribute(attributes["locked"], true);
  }

  function openPart(name: string, attributes: Attributes, into: Draft): void {
    const { font } = into;
    const on = booleanAttribute(attributes["val"], true);
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
        // A conditional fill keeps its colour where a plain one keeps its background.
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
      const at = (from: readonly Draft[], key: string): Draft | undefined => from[Number(attributes[key] ?? 0)];
      const { horizontal, vertical, indent } = alignment;
      const fill = at(fills, "fillId")?.fill;
      return {
        font: at(fonts, "fontId")?.font ?? {},
        edges: at(borders, "borderId")?.edges ?? {},
        locked,
        ...(fill !== undefined && { fill }),
        ...(horizontal !== undefined && { horizontal }),
        ...(vertical !== undefined && { vertical }),
        ...(indent !== undefined && { indent: Number(indent) }),
        ...(booleanAttribute(alignment["wrapText"]) && { wrap: true }),
        ...(booleanAttribute(alignment["shrinkToFit"]) && { shrink: true }),
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
