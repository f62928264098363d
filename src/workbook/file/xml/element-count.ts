import { limits } from "../limits";

/** Elements of cells, texts, lists of values and looks, of which a sound part has as many as it has cells. */
const ofCells = new Set(
  "row c v f is si t r rPr rFont b i u strike outline shadow condense extend sz color family charset scheme vertAlign rPh phoneticPr rv bk rc pt".split(
    " ",
  ),
);

/** Counts the elements of one part, since each costs time, and each outside the cells is remembered. */
export class ElementCount {
  private all = 0;
  private readonly others = new Map<string, number>();

  /** What is too much, or undefined. */
  excess(name: string): string | undefined {
    if (++this.all > limits.elements) return `more than ${limits.elements} elements`;
    if (ofCells.has(name)) return undefined;
    const count = (this.others.get(name) ?? 0) + 1;
    if (count > limits.records) return `more than ${limits.records} elements <${name}>`;
    // Names without end would fill the memory as well as elements without end.
    if (this.others.size >= limits.records) return `elements of more than ${limits.records} names`;
    this.others.set(name, count);
    return undefined;
  }
}
