import { areaAddress } from "../formula/parse/address";
import { isInside } from "../formula/values/value";
import type { Place } from "./book-view";
import type { Review } from "./review";

/** Points and characters: a reader sees no less, though the file does not call the row or column hidden. */
const flattest = 1;
const thinnest = 0.3;

/** What hides a cell, and the same in words. */
interface Hidden {
  readonly by: "row" | "column" | "merge";
  readonly why: string;
}

/** Why a cell cannot be seen: its row or column is hidden or has no size, or it lies under merged cells; undefined where it can be. */
export function hiddenBy({ book, state }: Pick<Review, "book" | "state">, place: Place): Hidden | undefined {
  const [sheet, of] = [book.sheets[place.sheet], state.sheets[place.sheet]];
  if (!sheet) return undefined;
  if (sheet.hiddenRows.has(place.row)) {
    return { by: "row", why: sheet.filteredRows.has(place.row) ? "its row is filtered away" : "its row is hidden" };
  }
  if (Number(of?.heights.get(place.row)) < flattest) return { by: "row", why: "its row has no height" };
  if (sheet.hiddenColumns.has(place.column)) return { by: "column", why: "its column is hidden" };
  if (Number(of?.widths.get(place.column)) < thinnest) return { by: "column", why: "its column has no width" };
  const merged = sheet.mergedAreas.find((area) => isInside(area, place.row, place.column));
  const isShown = merged === undefined || (merged.top === place.row && merged.left === place.column);
  return isShown ? undefined : { by: "merge", why: `it lies under the merged cells ${areaAddress(merged)}` };
}
