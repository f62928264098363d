import { format } from "numfmt";
import { formatAreaAddress } from "../book/address";
import { isInside, type Place } from "../book/area";
import type { Review } from "./review";

/** Points and characters: anything smaller is invisible, even if the file does not mark the row or column hidden. */
const flattest = 1;
const thinnest = 0.3;

/** What hides a cell, as a code and in words. */
interface Hiding {
  readonly by: "row" | "column" | "merge";
  readonly why: string;
}

/** Why a cell cannot be seen: its row or column is hidden or has no size, or it is covered by merged cells; undefined if visible. */
export function explainHiding({ book, state }: Pick<Review, "book" | "state">, place: Place): Hiding | undefined {
  const [sheet, of] = [book.sheets[place.sheet], state.sheets[place.sheet]];
  if (!sheet) return undefined;
  if (sheet.hiddenRows.has(place.row)) {
    return { by: "row", why: sheet.filteredRows.has(place.row) ? "its row is filtered out" : "its row is hidden" };
  }
  if (Number(of?.heights.get(place.row)) < flattest) return { by: "row", why: "its row has no height" };
  if (sheet.hiddenColumns.has(place.column)) return { by: "column", why: "its column is hidden" };
  if (Number(of?.widths.get(place.column)) < thinnest) return { by: "column", why: "its column has no width" };
  const merged = sheet.mergedAreas.find((area) => isInside(area, place.row, place.column));
  const isShown = merged === undefined || (merged.top === place.row && merged.left === place.column);
  return isShown ? undefined : { by: "merge", why: `it is covered by the merged cells ${formatAreaAddress(merged)}` };
}

/** A number as its format shows it. */
export function formatShown(value: number, pattern: string): string {
  return format(pattern, value, { throws: false, invalid: String(value) }).trim();
}

/** The bare figure that a format shows, without the words and units it adds, which may contain digits (1/h, m3). */
export function readShownFigure(value: number, pattern: string): number | undefined {
  return readShownNumber(formatShown(value, pattern.replace(literals, "")));
}

/** Whether a format adds digits next to the figure's: "0.4"0 shows an 8 as 0.48. */
export function addsDigits(pattern: string): boolean {
  if (!/[1-9"\\]/.test(pattern)) return false;
  const parts = pattern.match(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]|[^]/g) ?? [];
  const kinds = parts.map((part) => {
    if (/^[_*[]./.test(part)) return "";
    if (/^["\\]./.test(part))
      return part
        .replace(/^\\|"/g, "")
        .replace(/[^\d.,]/g, "-")
        .replace(/\d/g, "d");
    return part.replace(/[1-9]/, "d").replace(/[#?]/, "0");
  });
  // A fixed denominator is just how the sheet shows a fraction.
  const plain = kinds.join("").replace(/\/[d0]+/g, "/");
  return /d[.,]?0|0[.,]?d/.test(plain);
}

/** The number a reader would see; undefined if there is none. */
function readShownNumber(text: string): number | undefined {
  const plain = text.replace(/[−–]/g, "-").replace(/[^\d.eE+-]/g, "");
  return /\d/.test(plain) && Number.isFinite(Number(plain)) ? Number(plain) : undefined;
}

const literals = /"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g;

/** Whether a format shows a number at all, rather than nothing or fixed words. */
export function showsNumber(value: number, pattern: string): boolean {
  const sections = pattern.split(";");
  const used =
    sections.length === 1
      ? sections[0]
      : value < 0
        ? sections[1]
        : value === 0 && sections.length > 2
          ? sections[2]
          : sections[0];
  // Conditions choose sections in their own way; such formats are left alone.
  if (/\[[<>=]/.test(pattern)) return true;
  return /[0#?@]|general|[dmyhs]/i.test((used ?? "").replace(literals, ""));
}
