import { readFileSync } from "node:fs";
import { join } from "node:path";
import { renderPicture } from "../graph/picture";

/** The add-in's own mark, which also stands for its functions, and one drawing for each other button of the ribbon. */
export const iconNames = ["icon", "trace", "graph", "check"] as const;

/** Every size that Office takes for a button, in pixels. */
export const iconSizes = [16, 20, 24, 32, 40, 48, 64, 80, 96] as const;

/** Up to this size a drawing is taken whose edges stand on a grid of 16 pixels; the other one would be a blur. */
const largestSmall = 20;

/** Renders the icons from their drawings, by file name. */
export async function drawIcons(folder: string): Promise<Map<string, Uint8Array>> {
  const icons = new Map<string, Uint8Array>();
  for (const name of iconNames) {
    for (const size of iconSizes) {
      const svg = readFileSync(join(folder, `${name}${size > largestSmall ? "" : "-small"}.svg`), "utf8");
      icons.set(`${name}-${size}.png`, await renderPicture(svg, { mode: "width", value: size }));
    }
  }
  return icons;
}
