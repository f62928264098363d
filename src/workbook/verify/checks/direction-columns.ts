import type { Place } from "../../book/area";
import type { Finding } from "../finding";
import { stepAlong, type Twins } from "../../book/like-formulas";
import type { Check, Review } from "../review";
import { showFormula } from "../../words";

const leastInLine = 3;
const nearby = [-3, -2, -1, 1, 2, 3];

/** A column of one direction's figures, with a cell that reads the other direction's sheet. */
export const checkDirectionColumns: Check = (review) => review.twins.flatMap((twins) => findInColumns(review, twins));

function findInColumns(review: Review, twins: Twins): Finding[] {
  const columns = new Map<string, { readonly place: Place; readonly side: 0 | 1 }[]>();
  for (const place of review.view.listFormulaPlaces()) {
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
  const read = new Set(view.listPrecedents(place).map(({ sheet }) => sheet));
  const [first, second] = [read.has(sheets[0]), read.has(sheets[1])];
  return first === second ? undefined : first ? 0 : 1;
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
