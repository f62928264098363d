import { parsePlace } from "../../book/address";
import { parseBoolean, XmlPart, type XmlReader } from "../xml/xml";

/** A span of the part's text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** An element's position: where its start tag starts and ends, where its end tag starts, and where it ends. */
export interface ElementPlace extends Span {
  readonly tagName: string;
  readonly openEnd: number;
  /** Where the end tag starts; the same as `end` for an empty element (<v/>). */
  readonly closeStart: number;
  readonly selfClosing: boolean;
  readonly attributes: ReadonlyMap<string, AttributePlace>;
}

/** An attribute's value between its quotes, and the whole with the blank space before it. */
export interface AttributePlace {
  readonly value: Span;
  readonly whole: Span;
}

export interface CellPlace {
  readonly column: number;
  readonly element: ElementPlace;
  readonly formula?: ElementPlace;
  readonly value?: ElementPlace;
  readonly inline?: ElementPlace;
}

export interface RowPlace {
  readonly row: number;
  readonly element: ElementPlace;
  /** The row's own style, which a new cell in it takes, when it has one. */
  readonly style?: string;
  readonly cells: CellPlace[];
}

export interface SheetPlaces {
  readonly data: ElementPlace;
  readonly dimension?: ElementPlace;
  /** Rows in file order; cells only for the requested rows. */
  readonly rows: RowPlace[];
  readonly columnStyles: { first: number; last: number; style: string }[];
}

/** Finds the positions of rows and cells in the text of a sheet part. */
export function findPlaces(partName: string, text: string, wantedRows: ReadonlySet<number>): SheetPlaces {
  const reader = new PlaceReader(text, wantedRows);
  const part = new XmlPart(partName, reader);
  part.parse(text);
  return reader.finish(part);
}

interface OpenElement {
  readonly name: string;
  readonly tagName: string;
  readonly start: number;
  readonly openEnd: number;
  readonly attributes: ReadonlyMap<string, AttributePlace>;
}

const none: ReadonlyMap<string, AttributePlace> = new Map();

class PlaceReader implements XmlReader {
  private readonly stack: OpenElement[] = [];
  private readonly rows: RowPlace[] = [];
  private readonly columnStyles: SheetPlaces["columnStyles"] = [];
  private data: ElementPlace | undefined;
  private dimension: ElementPlace | undefined;
  private attributeEnds: { name: string; end: number }[] = [];
  private row = -1;
  private column = -1;
  private rowStyle: string | undefined;
  private cells: CellPlace[] = [];
  private inCell: { -readonly [Key in "formula" | "value" | "inline"]?: ElementPlace } = {};

  constructor(
    private readonly source: string,
    private readonly wantedRows: ReadonlySet<number>,
  ) {}

  noteAttributeEnd(name: string, end: number): void {
    this.attributeEnds.push({ name, end });
  }

  open(name: string, attributes: Record<string, string>, part: XmlPart): void {
    const openEnd = part.parser.position;
    const start = this.source.lastIndexOf("<", openEnd - 1);
    const tagName = /^<([^\s/>]+)/.exec(this.source.slice(start, start + 64))?.[1] ?? name;
    const parent = this.stack.at(-1)?.name;
    if (name === "row" && parent === "sheetData") this.startRow(attributes);
    const place = this.isWanted(name) ? this.placeAttributes(start + 1 + tagName.length) : none;
    this.attributeEnds = [];
    this.stack.push({ name, tagName, start, openEnd, attributes: place });
    if (name === "c" && parent === "row") {
      this.column = attributes["r"] === undefined ? this.column + 1 : (parsePlace(attributes["r"])?.column ?? -1);
      this.inCell = {};
    } else if (name === "col" && attributes["style"] !== undefined) {
      const { min, max, style } = attributes;
      this.columnStyles.push({ first: Number(min) - 1, last: Number(max) - 1, style });
    }
  }

  close(name: string, part: XmlPart): void {
    const opened = this.stack.pop();
    if (!opened) return;
    const parent = this.stack.at(-1)?.name;
    const end = part.parser.position;
    const selfClosing = end === opened.openEnd;
    const { tagName, start, openEnd, attributes } = opened;
    const closeStart = selfClosing ? end : this.source.lastIndexOf("<", end - 1);
    const element: ElementPlace = { tagName, start, openEnd, closeStart, end, selfClosing, attributes };
    if (parent === "c") {
      if (name === "f") this.inCell.formula = element;
      else if (name === "v") this.inCell.value = element;
      else if (name === "is") this.inCell.inline = element;
    } else if (name === "c" && parent === "row") {
      if (this.wantedRows.has(this.row)) this.cells.push({ column: this.column, element, ...this.inCell });
    } else if (name === "row" && parent === "sheetData") {
      const { row, rowStyle: style, cells } = this;
      this.rows.push(style === undefined ? { row, element, cells } : { row, element, cells, style });
    } else if (name === "sheetData") this.data = element;
    else if (name === "dimension") this.dimension = element;
  }

  finish(part: XmlPart): SheetPlaces {
    const { data, dimension, rows, columnStyles } = this;
    if (!data) throw part.reportBroken("there is no sheetData element");
    return dimension ? { data, dimension, rows, columnStyles } : { data, rows, columnStyles };
  }

  private startRow(attributes: Record<string, string>): void {
    const { r: number, s: style, customFormat } = attributes;
    this.row = number === undefined ? this.row + 1 : Number(number) - 1;
    this.rowStyle = parseBoolean(customFormat) ? style : undefined;
    this.column = -1;
    this.cells = [];
  }

  private isWanted(name: string): boolean {
    if (name === "row" || name === "c" || name === "f") return this.wantedRows.has(this.row);
    return name === "dimension";
  }

  private placeAttributes(nameEnd: number): ReadonlyMap<string, AttributePlace> {
    const places = new Map<string, AttributePlace>();
    let before = nameEnd;
    for (const { name, end } of this.attributeEnds) {
      const quote = this.source[end - 1] ?? '"';
      const valueStart = this.source.lastIndexOf(quote, end - 2) + 1;
      places.set(name, { value: { start: valueStart, end: end - 1 }, whole: { start: before, end } });
      before = end;
    }
    return places;
  }
}
