import { onSheet } from "../blocks/address";
import { letterhead, pageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { palette } from "../blocks/style";
import { footer, sheets, testedCount } from "./places";
import type { RunPlaces } from "./run-results";
import { blockHeight, unitBlock } from "./unit-block";

const top = 5;
const perPage = 2;

/** Where the results of the units that were tested are found, in the order of their blocks. */
export interface TestedPlaces {
  readonly name: string;
  readonly unguarded: RunPlaces;
  readonly guarded: RunPlaces;
}

/** A block for each tested unit: the run without guarding fans, and the run with the neighbours held at the same pressure. */
export function runsPage(): Page & { readonly tested: readonly TestedPlaces[] } {
  const widths = [1.5, 12, 12, 12, 12, 12, 2.5, 10, 11, 10, 10, 2.5, 10, 11, 10, 10, 3, 20, 22];
  const row = (index: number) => top + index * blockHeight;
  const pages = Math.ceil(testedCount / perPage);
  const areas = Array.from(
    { length: pages },
    (_, page) => `B${page === 0 ? 1 : row(page * perPage)}:P${row((page + 1) * perPage) - 1}`,
  );
  const sheet = new Sheet(sheets.runs, widths, palette.copper, {
    orientation: "landscape",
    areas,
    titleRows: "1:4",
    footer,
  });
  const lead =
    "Depressurization. Unguarded: neighbours as they are. Guarded: fans hold the neighbours at the same pressure, so that only leaks to outdoors count. Pressures below zero.";
  pageHead(sheet, letterhead, ["B", "P"], sheets.runs, lead);
  sheet.heightOf(13, top, row(testedCount));
  const tested = Array.from({ length: testedCount }, (_, index) => unitBlock(sheet, row(index), index));
  const names = tested.map(({ name }) => name);
  return {
    sheet,
    names: {},
    tested: tested.map((block, index) => ({ ...block, name: onSheet(sheets.runs, names[index]!) })),
  };
}
