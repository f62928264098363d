import type { Area } from "../model";
import { parseArea, parsePlace } from "./address";
import { readLooks, type CellLook, type ConditionalLook } from "./looks";
import type { OpenedWorkbook } from "./open";
import { relationshipsOf } from "./relationships";
import { booleanAttribute, type XmlPart, type XmlReader } from "./xml";

/** A conditional format that changes how a value looks, with the formula of its condition where it has one. */
export interface ConditionalFormat {
  readonly areas: readonly Area[];
  readonly look: ConditionalLook;
  readonly formula: string;
}

/** What a reviewer asks of a sheet beyond its cells. */
export interface SheetState {
  readonly isProtected: boolean;
  readonly conditional: readonly ConditionalFormat[];
  /** Rows of no height and columns of no width, which are hidden without saying so. */
  readonly flatRows: ReadonlySet<number>;
  readonly thinColumns: ReadonlySet<number>;
  lookOf(row: number, column: number): CellLook;
  /** The index of the cell's style, which cells made alike share. */
  styleOf(row: number, column: number): number;
}

/** What a reviewer asks of a workbook beyond its cells. */
export interface ReviewState {
  readonly sheets: readonly SheetState[];
  /** "auto", "autoNoTable" or "manual" (ECMA-376 part 1, 18.2.2). */
  readonly calculationMode: string;
  /** Other workbooks that this one is linked to. */
  readonly externalLinks: number;
}

const unlocked: CellLook = { font: undefined, fill: undefined, locked: true };
const thinnest = 0.3;
const flattest = 1;

/** Reads styles, protection, conditional formats, calculation mode and links once more from their parts: the book leaves them out. */
export function readReviewState(opened: OpenedWorkbook): ReviewState {
  const { archive } = opened;
  const main = relationshipsOf(archive, "").find(({ kind }) => kind === "officeDocument")?.target ?? "";
  const links = main === "" ? [] : relationshipsOf(archive, main);
  const styles = links.find(({ kind }) => kind === "styles")?.target;
  const looks = styles === undefined ? { cells: [], conditional: [] } : readLooks(archive, styles);
  let calculationMode = "auto";
  if (main !== "") {
    archive.read(main, {
      open(name, attributes) {
        if (name === "calcPr") calculationMode = attributes["calcMode"] ?? "auto";
      },
      close() {},
    });
  }
  const sheets = opened.sheetParts.map((partName): SheetState => {
    const reader = new SheetStateReader(looks.conditional);
    if (partName !== undefined) archive.read(partName, reader);
    return {
      isProtected: reader.isProtected,
      conditional: reader.conditional,
      flatRows: reader.flatRows,
      thinColumns: reader.thinColumns,
      styleOf: (row, column) => reader.styleAt(row, column),
      lookOf: (row, column) => looks.cells[reader.styleAt(row, column)] ?? unlocked,
    };
  });
  return { sheets, calculationMode, externalLinks: links.filter(({ kind }) => kind === "externalLink").length };
}

type Attributes = Record<string, string>;

class SheetStateReader implements XmlReader {
  isProtected = false;
  readonly conditional: ConditionalFormat[] = [];
  readonly flatRows = new Set<number>();
  readonly thinColumns = new Set<number>();
  private readonly columns: { readonly first: number; readonly last: number; readonly style: number }[] = [];
  private readonly rowStyles = new Map<number, number>();
  /** By "row column"; a style stands on blank cells too. */
  private readonly cellStyles = new Map<string, number>();
  private row = -1;
  private column = -1;
  private areas: readonly Area[] = [];
  private rule: ConditionalLook | undefined;
  private formula: string | undefined;

  constructor(private readonly looks: readonly ConditionalLook[]) {}

  open(name: string, attributes: Attributes, part: XmlPart): void {
    switch (name) {
      case "sheetProtection":
        this.isProtected = booleanAttribute(attributes["sheet"]);
        break;
      case "col":
        this.readColumn(attributes);
        break;
      case "row":
        this.row = attributes["r"] === undefined ? this.row + 1 : Number(attributes["r"]) - 1;
        this.column = -1;
        if (booleanAttribute(attributes["customFormat"])) this.rowStyles.set(this.row, Number(attributes["s"] ?? 0));
        if (Number(attributes["ht"] ?? 15) < flattest) this.flatRows.add(this.row);
        break;
      case "c":
        this.column = parsePlace(attributes["r"] ?? "")?.column ?? this.column + 1;
        this.cellStyles.set(`${this.row} ${this.column}`, Number(attributes["s"] ?? 0));
        break;
      case "conditionalFormatting":
        this.areas = (attributes["sqref"] ?? "").split(/\s+/).flatMap((text) => parseArea(text) ?? []);
        break;
      case "cfRule":
        this.rule = this.looks[Number(attributes["dxfId"])];
        this.formula = "";
        break;
      case "formula":
        if (this.rule) part.wantText();
        break;
    }
  }

  text(text: string): void {
    if (this.formula !== undefined) this.formula += text;
  }

  close(name: string, part: XmlPart): void {
    if (name === "formula" && this.rule) part.noText();
    if (name !== "cfRule") return;
    if (this.rule) this.conditional.push({ areas: this.areas, look: this.rule, formula: this.formula ?? "" });
    this.rule = undefined;
    this.formula = undefined;
  }

  styleAt(row: number, column: number): number {
    const ofColumn = this.columns.find(({ first, last }) => column >= first && column <= last)?.style;
    return this.cellStyles.get(`${row} ${column}`) ?? this.rowStyles.get(row) ?? ofColumn ?? 0;
  }

  private readColumn({ min, max, style = "0", width }: Attributes): void {
    const [first, last] = [Number(min) - 1, Number(max) - 1];
    this.columns.push({ first, last, style: Number(style) });
    if (!(Number(width ?? 9) < thinnest)) return;
    for (let column = first; column <= Math.min(last, first + 255); column++) this.thinColumns.add(column);
  }
}
