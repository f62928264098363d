import type { Place } from "./book-view";
import type { Review } from "./review";

/** Why a cell cannot be seen: its row or column is hidden or has no size; undefined where it can be. */
export function hiddenBy({ book, state }: Pick<Review, "book" | "state">, place: Place): string | undefined {
  const [sheet, of] = [book.sheets[place.sheet], state.sheets[place.sheet]];
  if (!sheet) return undefined;
  if (sheet.hiddenRows.has(place.row)) {
    return sheet.filteredRows.has(place.row) ? "its row is filtered away" : "its row is hidden";
  }
  if (of?.flatRows.has(place.row)) return "its row has no height";
  if (sheet.hiddenColumns.has(place.column)) return "its column is hidden";
  return of?.thinColumns.has(place.column) ? "its column has no width" : undefined;
}
