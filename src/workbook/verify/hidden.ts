import { areaAddress } from "../book/address";
import { isInside, type Place } from "../book/area";

import type { Review } from "./review";

/** Points and characters: a reader sees no less, though the file does not call the row or column hidden. */
const flattest = 1;
const thinnest = 0.3;

/** Why a cell cannot be seen: its row or column is hidden or has no size, or it lies under merged cells; undefined where it can be. */
export function hiddenBy({ book, state }: Pick<Review, "book" | "state">, place: Place): string | undefined {
  const [sheet, of] = [book.sheets[place.sheet], state.sheets[place.sheet]];
  if (!sheet) return undefined;
  if (sheet.hiddenRows.has(place.row)) {
    return sheet.filteredRows.has(place.row) ? "its row is filtered away" : "its row is hidden";
  }
  if (Number(of?.heights.get(place.row)) < flattest) return "its row has no height";
  if (sheet.hiddenColumns.has(place.column)) return "its column is hidden";
  if (Number(of?.widths.get(place.column)) < thinnest) return "its column has no width";
  const merged = sheet.mergedAreas.find((area) => isInside(area, place.row, place.column));
  const isShown = merged === undefined || (merged.top === place.row && merged.left === place.column);
  return isShown ? undefined : `it lies under the merged cells ${areaAddress(merged)}`;
}
