import { areaOf, type BookView, type Place } from "./book-view";
import { upstream } from "./chain";

/** The typed numbers that a cell rests on, its own if it is typed. */
export function typedSources(view: BookView, place: Place): Place[] {
  const found = [...upstream(view, [areaOf(place)]).values()];
  return found
    .filter((source) => view.isTyped(source) && view.number(source) !== undefined)
    .sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
}
