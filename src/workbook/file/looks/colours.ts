import type { Archive } from "../archive";

type Attributes = Record<string, string>;

/** Gives the RRGGBB of a colour element, undefined for an automatic colour (ECMA-376 part 1, 18.8.3, 18.8.19, 18.8.27). */
export type ColourReader = (attributes: Attributes) => string | undefined;

/** Theme colours stand in the file as dk1, lt1, dk2, lt2, …; cells count light before dark. */
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

/** The palette that indices mean where a workbook brings none of its own (18.8.27); the first eight repeat. */
const indexedColours = (
  "000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF " +
  "800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF " +
  "000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99 " +
  "3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333"
).split(" ");

/** How colours of this workbook are read; without a theme part, theme colours are automatic. */
export function colourReader(archive: Archive, themePart: string | undefined): ColourReader {
  const theme = themePart === undefined || !archive.entry(themePart) ? [] : readTheme(archive, themePart);
  return ({ rgb, theme: place, indexed, tint }) => {
    const plain =
      rgb !== undefined
        ? rgb.slice(-6).toUpperCase()
        : place !== undefined
          ? theme[Number(place)]
          : indexedColours[Number(indexed ?? -1)];
    if (plain === undefined || !/^[0-9A-F]{6}$/.test(plain)) return undefined;
    return tint === undefined ? plain : tinted(plain, Number(tint));
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
function tinted(colour: string, tint: number): string {
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
