import type { Place } from "../book/area";
import { filledBy } from "./calls";
import type { Review } from "./review";

/** A version of the method as the file states it, in a cell of METHODVERSION or in the row "method" of a table. */
export interface StatedVersion {
  readonly place: Place;
  /** As it was saved. */
  readonly stored: string;
  /** What the cell gives now. */
  readonly computed: string;
}

const versionText = /^\d+\.\d+\.\d+$/;

/** Every version that the workbook states, in the order of its calls. Cells that hold anything but a version are left to the other checks. */
export function statedVersions({ view, calls }: Review): StatedVersion[] {
  const places = calls
    .filter(({ alone }) => alone)
    .flatMap((call): Place[] => {
      if (call.id === "METHODVERSION") return [call.place];
      const { sheet, top, bottom, left, right } = filledBy(view, call);
      if (right < left + 2) return [];
      const rows = Array.from({ length: bottom - top + 1 }, (_, index) => top + index);
      const isMethod = (row: number) => view.text({ sheet, row, column: left + 1 }) === "method";
      return rows.filter(isMethod).map((row) => ({ sheet, row, column: left + 2 }));
    });
  return places.flatMap((place) => {
    const stored = view.cell(place)?.value;
    if (typeof stored !== "string" || !versionText.test(stored)) return [];
    return [{ place, stored, computed: view.text(place) }];
  });
}
