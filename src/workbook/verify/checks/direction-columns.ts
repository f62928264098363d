import type { Place } from "../../book/area";
import type { Finding } from "../finding";
import { stepAlong, type Twins } from "../../book/like-formulas";
import type { Check, Review } from "../review";
import { showFormula } from "../../formatting";

const leastInLine = 3;
const nearby = [-3, -2, -1, 1, 2, 3];

/** A column of one direction's figures, with a cell that reads the other direction's sheet. */
export const checkDirectionColumns: Check = (review) => {
  const { view, twins } = review;
  const readers = view
    .listFormulaPlaces()
    .filter((place) => view.listPrecedents(place).some(({ sheet }) => sheet !== place.sheet));
  return twins.flatMap((pair) => findInColumns(review, pair, readers));
};

/** @param readers The formulas that read another sheet than their own. */
function findInColumns(review: Review, twins: Twins, readers: readonly Place[]): Finding[] {
  const columns = new Map<string, { readonly place: Place; readonly side: 0 | 1 }[]>();
  for (const place of readers) {
    const side = findSide(review, twins, place);
    if (side === undefined) continue;
    const key = `${place.sheet} ${place.column}`;
    const column = columns.get(key);
    if (column) column.push({ place, side });
    else columns.set(key, [{ place, side }]);
  }
  const findings: Finding[] = [];
  for (const cells of columns.values()) {
    for (const { place, side } of cells) {
      const others = cells.filter((cell) => cell.side !== side).length;
      if (others < leastInLine || others < 4 * (cells.length - others)) continue;
      // The other direction's own column is nearby: the two are now identical.
      const isPaired = nearby.some((step) => findSide(review, twins, stepAlong(place, "row", step)) === side);
      if (isPaired) findings.push(reportWrongSide(review, twins, place, side));
    }
  }
  return findings;
}

/** Which of two sheets a formula on a third reads, if it reads only one of them. */
function findSide({ view }: Review, { sheets }: Twins, place: Place): 0 | 1 | undefined {
  if (sheets.includes(place.sheet) || !view.findCell(place)?.formula) return undefined;
  const read = view.listPrecedents(place);
  const first = read.some(({ sheet }) => sheet === sheets[0]);
  return first === read.some(({ sheet }) => sheet === sheets[1]) ? undefined : first ? 0 : 1;
}

function reportWrongSide({ view, book }: Review, { sheets }: Twins, place: Place, side: 0 | 1): Finding {
  const name = (which: number): string => book.sheets[which]?.name ?? "";
  return {
    kind: "wrong direction's cells",
    severity: "error",
    place: view.formatAddress(place),
    what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} reads the sheet ${name(sheets[side])}; the other cells of its column read ${name(sheets[side === 0 ? 1 : 0])}.`,
    why: "The same direction then counts twice and the other not at all.",
    todo: "Point the formula to its own direction's sheet.",
  };
}
