import { parseFormula } from "../formula/parse/parse";
import { unrollChain, type Node, type Parsed } from "../formula/parse/syntax";
import { errors } from "../formula/values/value";
import type { Book, ErrorValue } from "../model";

/** Finds sheets by name, in any case. */
export class SheetNames {
  private readonly byName = new Map<string, number>();

  constructor(book: Book) {
    for (const [place, sheet] of book.sheets.entries()) this.byName.set(sheet.name.toLowerCase(), place);
  }

  find(name: string): number | undefined {
    return this.byName.get(name.toLowerCase());
  }
}

/** Defined names, of the whole workbook and of single sheets. */
export class Names {
  private readonly ofBook = new Map<string, string>();
  private readonly known = new Map<string, Parsed>();
  private readonly ofSheets = new Map<number, Map<string, string>>();

  constructor(
    private readonly book: Book,
    private readonly sheets: SheetNames,
  ) {
    for (const { name, sheet, text } of book.names) {
      if (sheet === undefined) this.ofBook.set(name.toLowerCase(), text);
      else
        this.ofSheets.set(sheet, (this.ofSheets.get(sheet) ?? new Map<string, string>()).set(name.toLowerCase(), text));
    }
  }

  /**
   * What a name refers to: the sheet's own name takes precedence over the workbook's; a table's name alone means its data.
   * References in names are stored relative to A1, so that relative ones shift with the cell using the name.
   */
  find(name: string, sheet: string, place: number): Parsed | ErrorValue | undefined {
    const scope = sheet === "" ? place : this.sheets.find(sheet);
    if (scope === undefined) return errors.reference;
    const text = this.ofSheets.get(scope)?.get(name) ?? this.ofBook.get(name);
    if (text !== undefined) return this.parseOnce(text);
    if (sheet !== "" || !this.book.tables.some((table) => table.name.toLowerCase() === name)) return undefined;
    return this.parseOnce(`${name}[]`);
  }

  /** A name used a thousand times is parsed once. */
  private parseOnce(text: string): Parsed {
    let parsed = this.known.get(text);
    if (!parsed) this.known.set(text, (parsed = parseFormula(text, 0, 0)));
    return parsed;
  }

  /** A reference given as text, parsed; undefined if it is not one. */
  parseText(text: string): Node | undefined {
    const { root } = parseFormula(text, 0, 0);
    return isReferenceText(root) ? root : undefined;
  }
}

function isReferenceText(node: Node): boolean {
  if (node.type === "area" || node.type === "name" || node.type === "table" || node.type === "spill") return true;
  // INDIRECT's treatment of unions and intersections is undocumented.
  if (node.type !== "join") return false;
  const { first, steps } = unrollChain(node);
  return isReferenceText(first) && steps.every(({ operator, right }) => operator === ":" && isReferenceText(right));
}
