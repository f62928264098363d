import type { Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import type { Review } from "./review";
import { escapePattern } from "./verdicts";

/** How a column of houses is headed. */
const houseHeading =
  /(?<!\p{L})(house|home|dwelling|plot|flat|building|property|address|project|haus|gebäude|wohnung|objekt|adresse|maison|logement|bâtiment|casa|vivienda|edificio|woning|gebouw|budynek|dom)(?!\p{L})/iu;

/** Whether a cell is in a typed line of a list of houses, under a name that the workbook knows nowhere else: an archive, which says nothing of this test. */
export function isOfOtherHouse(review: Review, place: Place): boolean {
  const { view, book } = review;
  const line = view.listCells({ sheet: place.sheet, top: place.row, bottom: place.row, left: 0, right: place.column });
  if (!line.every((cell) => view.isTyped(cell))) return false;
  const list = line.map((cell) => listHouses(view, cell, place)).find((houses) => houses.length > 0);
  const own = list?.find(({ row }) => row === place.row);
  if (!list || !own) return false;
  // Where a formula fetches the figure of any house, those of the list are tested here.
  if (list.some(({ row }) => view.findCell({ ...place, row })?.formula)) return false;
  const name = view.readText(own);
  const elsewhere = view
    .listTexts()
    .filter(({ place: cell }) => cell.sheet !== own.sheet || cell.column !== own.column);
  const isTestedNamed = (): boolean =>
    elsewhere.some((one) => view.isTyped(one.place) && houseHeading.test(view.labels.readWordsBefore(one.place)));
  if (list.every((house) => view.readText(house) === name) && !isTestedNamed()) return false;
  const word = new RegExp(`(?<![\\p{L}\\d])${escapePattern(name)}(?![\\p{L}\\d])`, "iu");
  return ![...elsewhere.map(({ text }) => text), ...book.sheets.map((one) => one.name)].some((text) => word.test(text));
}

/** The names in a cell's column from the heading of a list of houses on, each with an entry in the column of a figure; none if there is no such list. */
function listHouses(view: Inspector, { sheet, row, column }: Place, figure: Place): Place[] {
  const isEntry = (at: number): boolean =>
    view.readText({ sheet, row: at, column }) !== "" && view.readValue({ ...figure, row: at }) !== null;
  if (!isEntry(row)) return [];
  let top = row;
  while (top > 0 && isEntry(top - 1)) top--;
  const isHeaded =
    houseHeading.test(view.readText({ sheet, row: top, column })) && view.readText({ ...figure, row: top });
  if (top === row || !isHeaded) return [];
  const houses: Place[] = [];
  for (let at = top + 1; isEntry(at); at++) houses.push({ sheet, row: at, column });
  return houses;
}
