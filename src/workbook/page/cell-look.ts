import type { CellStyle, ConditionalStyle } from "../file/looks/cell-styles";
import { ErrorValue, type CellValue } from "../model";
import type { Look } from "./style-sheet";

/** How a cell looks: its own style, what holds of its conditions, the colour of its number format, and Excel's alignment by kind of value. */
export function lookOf(
  style: CellStyle,
  conditional: readonly ConditionalStyle[],
  value: CellValue,
  formatColour: string | undefined,
): Look {
  let { font, fill, edges } = style;
  // The strongest condition comes first, so it is laid on last.
  for (const change of [...conditional].reverse()) {
    font = { ...font, ...change.font };
    fill = change.fill ?? fill;
    edges = { ...edges, ...change.edges };
  }
  if (formatColour !== undefined) font = { ...font, colour: formatColour };
  return {
    font: readable(font, fill),
    fill,
    edges,
    align: alignmentOf(style.horizontal, value),
    vertical: style.vertical === "top" ? "top" : style.vertical === "center" ? "middle" : "bottom",
    wrap: style.wrap === true || style.horizontal === "justify" || style.vertical === "justify",
    indent: style.indent ?? 0,
  };
}

/** An automatic colour is black, also on a dark ground where Excel leaves it so. */
function readable(font: Look["font"], fill: string | undefined): Look["font"] {
  return font.colour === undefined && fill === "000000" ? { ...font, colour: "FFFFFF" } : font;
}

function alignmentOf(horizontal: string | undefined, value: CellValue): Look["align"] {
  if (horizontal === "left" || horizontal === "right") return horizontal;
  if (horizontal === "center" || horizontal === "centerContinuous") return "center";
  if (horizontal === "justify" || horizontal === "fill" || horizontal === "distributed") return "left";
  if (typeof value === "number") return "right";
  return typeof value === "boolean" || value instanceof ErrorValue ? "center" : "left";
}
