import type { Archive } from "./archive";
import { booleanAttribute } from "./xml";

/** What of a cell's style decides whether a reader sees its value, and whether it can be typed over. */
export interface CellLook {
  /** RRGGBB, or a theme colour as "theme 4"; undefined for the automatic one. */
  readonly font: string | undefined;
  /** Undefined without a solid fill. */
  readonly fill: string | undefined;
  readonly locked: boolean;
}

/** A look that a condition brings about; only what it says of it. */
export interface ConditionalLook {
  readonly font: string | undefined;
  readonly fill: string | undefined;
  readonly numberFormat: string | undefined;
}

type Attributes = Record<string, string>;

/** The first two theme colours are the window's white and its black (ECMA-376 part 1, 18.8.3); so are some of the old palette's. */
const plainColours: Readonly<Record<string, string>> = {
  "theme 0": "FFFFFF",
  "theme 1": "000000",
  "indexed 0": "000000",
  "indexed 1": "FFFFFF",
  "indexed 8": "000000",
  "indexed 9": "FFFFFF",
  "indexed 64": "000000",
  "indexed 65": "FFFFFF",
};

function colourOf({ rgb, theme, indexed, tint }: Attributes): string | undefined {
  if (rgb !== undefined) return rgb.slice(-6).toUpperCase();
  const named = theme !== undefined ? `theme ${theme}` : indexed !== undefined ? `indexed ${indexed}` : undefined;
  if (named === undefined) return undefined;
  return tint === undefined ? (plainColours[named] ?? named) : `${named} ${tint}`;
}

interface Fill {
  colour: string | undefined;
  solid: boolean;
}

/** The looks of all cell styles, by the index that a cell's `s` attribute gives, and of all conditional ones (ECMA-376 part 1, 18.8.10, 18.8.14). */
export function readLooks(archive: Archive, partName: string): { cells: CellLook[]; conditional: ConditionalLook[] } {
  const fonts: (string | undefined)[] = [];
  const fills: Fill[] = [];
  const cells: { font: number; fill: number; locked: boolean }[] = [];
  const conditional: { font?: string | undefined; fill?: string | undefined; numberFormat?: string }[] = [];
  const inside: string[] = [];
  const isIn = (name: string): boolean => inside.includes(name);
  archive.read(partName, {
    open(name, attributes) {
      const one = isIn("dxf") ? conditional.at(-1) : undefined;
      if (name === "dxf") conditional.push({});
      else if (name === "font" && isIn("fonts")) fonts.push(undefined);
      else if (name === "fill" && isIn("fills")) fills.push({ colour: undefined, solid: false });
      else if (name === "patternFill" && isIn("fills") && fills.length > 0) {
        fills[fills.length - 1] = { colour: undefined, solid: attributes["patternType"] === "solid" };
      } else if (name === "color" && isIn("font")) {
        if (one) one.font = colourOf(attributes);
        else if (isIn("fonts")) fonts[fonts.length - 1] = colourOf(attributes);
      } else if (name === "fgColor" || name === "bgColor") {
        // A conditional fill keeps its colour where a plain one keeps its background.
        if (one) one.fill = colourOf(attributes);
        else if (name === "fgColor" && isIn("fills")) {
          const last = fills.at(-1);
          if (last) last.colour = colourOf(attributes);
        }
      } else if (name === "numFmt" && one) one.numberFormat = attributes["formatCode"] ?? "General";
      else if (name === "xf" && isIn("cellXfs")) {
        cells.push({ font: Number(attributes["fontId"] ?? 0), fill: Number(attributes["fillId"] ?? 0), locked: true });
      } else if (name === "protection" && isIn("cellXfs")) {
        const last = cells.at(-1);
        if (last) last.locked = booleanAttribute(attributes["locked"], true);
      }
      inside.push(name);
    },
    close() {
      inside.pop();
    },
  });
  return {
    cells: cells.map(({ font, fill, locked }) => {
      const ground = fills[fill];
      return { font: fonts[font], fill: ground?.solid ? ground.colour : undefined, locked };
    }),
    conditional: conditional.map(({ font, fill, numberFormat }) => ({ font, fill, numberFormat })),
  };
}
