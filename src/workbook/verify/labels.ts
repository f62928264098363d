import type { Place } from "../book/area";
import type { Inspector } from "../book/inspector";

const furthestLeft = 12;
const furthestUp = 60;
const linesOfHeading = 3;

/** The words that stand before a cell in its row: the nearest typed text to its left. */
export function labelOf(view: Inspector, { sheet, row, column }: Place): string {
  for (let left = column - 1; left >= Math.max(0, column - furthestLeft); left--) {
    const text = labelText(view, { sheet, row, column: left });
    if (text !== "") return text;
  }
  return "";
}

/** The words above a cell in its column: the nearest typed text and the lines right above that. */
export function headingOf(view: Inspector, { sheet, row, column }: Place): string {
  for (let up = row - 1; up >= Math.max(0, row - furthestUp); up--) {
    const text = labelText(view, { sheet, row: up, column });
    if (text === "") continue;
    const lines = [text];
    for (let above = up - 1; lines.length < linesOfHeading && above >= 0; above--) {
      const more = labelText(view, { sheet, row: above, column });
      if (more === "") break;
      lines.unshift(more);
    }
    return lines.join(" ");
  }
  return "";
}

/** Text that is typed, or made by a plain formula as a label often is; not a single letter, which is a choice or a mark. */
function labelText(view: Inspector, place: Place): string {
  const text = view.text(place);
  return text.length > 1 && /\p{L}/u.test(text) ? text : "";
}
