import { parsePlace } from "../../book/address";
import type { Archive } from "../archive";
import { limits } from "../limits";
import { readRelationships, type Relationship } from "../sheet/relationships";
import { parseBoolean, type XmlPart, type XmlReader } from "../xml/xml";
import { type CellStyle, type CellStyles, createColourReader, readCellStyles } from "./cell-styles";
import { type ConditionalRule, ConditionalRules } from "./conditional-rules";
import { type Drawing, readDrawings } from "./drawings";

/** The parts of an opened workbook that say how its sheets look. */
interface Opened {
  readonly archive: Archive;
  readonly sheetParts: readonly (string | undefined)[];
  readonly looks?: readonly SheetLooks[];
}

/** How every sheet looks: read on opening if asked for, else now, in a second pass, since recalculation has no use for it. */
export function readSheetLooks({ archive, sheetParts, looks }: Opened): readonly SheetLooks[] {
  if (looks) return looks;
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument")?.target ?? "";
  const reader = new LooksReader(archive, readRelationships(archive, main));
  for (const [index, partName] of sheetParts.entries())
    if (partName !== undefined) archive.read(partName, reader.startSheet(index));
  return reader.finish(sheetParts);
}

/** Reads the looks of a workbook's sheets, one after the other. */
export class LooksReader {
  private readonly styles: CellStyles;
  private readonly sheets: SheetLooksReader[] = [];

  /** @param links The relationships of the workbook part. */
  constructor(
    private readonly archive: Archive,
    links: readonly Relationship[],
  ) {
    const partOf = (wanted: string) => links.find(({ kind }) => kind === wanted)?.target;
    const stylePart = partOf("styles");
    this.styles =
      stylePart === undefined
        ? { cells: [], conditional: [] }
        : readCellStyles(archive, stylePart, createColourReader(archive, partOf("theme")));
  }

  /** Streams the part of the sheet with this index. */
  startSheet(index: number): XmlReader {
    return (this.sheets[index] = new SheetLooksReader(this.styles));
  }

  /** The looks of all sheets, those without a part included. */
  finish(sheetParts: readonly (string | undefined)[]): SheetLooks[] {
    const { archive } = this;
    return sheetParts.map((partName, index) => {
      const reader = this.sheets[index] ?? new SheetLooksReader(this.styles);
      const links = partName === undefined ? [] : readRelationships(archive, partName);
      const drawings = links.filter(({ kind, target }) => kind === "drawing" && archive.findEntry(target));
      return reader.finish(drawings.flatMap(({ target }) => readDrawings(archive, target)));
    });
  }
}

/** How a sheet looks beyond its values. */
export interface SheetLooks {
  readonly isProtected: boolean;
  readonly showsGrid: boolean;
  /** In characters of the standard font. */
  readonly defaultWidth: number;
  readonly widths: ReadonlyMap<number, number>;
  /** In points; rows not listed are as high as their content. */
  readonly heights: ReadonlyMap<number, number>;
  /** Conditional formats that can be evaluated, in order of precedence. */
  readonly rules: readonly ConditionalRule[];
  /** Others that change the style: rankings, duplicates, dates. */
  readonly unjudgedRules: readonly ConditionalRule[];
  /** The kinds of all not evaluated, including colour scales, bars and icons. */
  readonly otherRules: ReadonlySet<string>;
  /** Charts and pictures on the sheet. */
  readonly drawings: readonly Drawing[];
  /** The outermost row and column with a styled cell; −1 for none. */
  readonly lastStyledRow: number;
  readonly lastStyledColumn: number;
  styleOf(row: number, column: number): CellStyle;
}

const plain: CellStyle = { font: {}, edges: {}, locked: true };

type Attributes = Record<string, string>;

/** Streams one sheet part for its styles (ECMA-376 part 1, 18.3.1). */
export class SheetLooksReader implements XmlReader {
  private isProtected = false;
  private showsGrid = true;
  private defaultWidth = 9.14;
  private readonly widths = new Map<number, number>();
  private readonly heights = new Map<number, number>();
  private readonly rules: ConditionalRules;
  private readonly columnStyles = new Map<number, number>();
  private columnsRead = 0;
  private readonly rowStyles = new Map<number, number>();
  private readonly cellStyles = new Map<number, number>();
  private lastRow = -1;
  private lastColumn = -1;
  private row = -1;
  private column = -1;

  constructor(private readonly styles: CellStyles) {
    this.rules = new ConditionalRules(styles.conditional);
  }

  open(name: string, attributes: Attributes, part: XmlPart): void {
    switch (name) {
      case "sheetView":
        this.showsGrid = parseBoolean(attributes["showGridLines"], true);
        break;
      case "sheetFormatPr":
        this.defaultWidth = Number(attributes["defaultColWidth"] ?? this.defaultWidth);
        break;
      case "sheetProtection":
        this.isProtected = parseBoolean(attributes["sheet"]);
        break;
      case "col":
        this.readColumn(attributes);
        break;
      case "row":
        this.row = attributes["r"] === undefined ? this.row + 1 : Number(attributes["r"]) - 1;
        this.column = -1;
        if (parseBoolean(attributes["customFormat"])) this.rowStyles.set(this.row, Number(attributes["s"] ?? 0));
        if (attributes["ht"] !== undefined) this.heights.set(this.row, Number(attributes["ht"]));
        break;
      case "c":
        this.readCell(attributes);
        break;
      default:
        this.rules.open(name, attributes, part);
    }
  }

  addText(text: string): void {
    this.rules.addText(text);
  }

  close(name: string, part: XmlPart): void {
    this.rules.close(name, part);
  }

  finish(drawings: readonly Drawing[]): SheetLooks {
    const { isProtected, showsGrid, defaultWidth, widths, heights } = this;
    const { judged, unjudged, otherKinds } = this.rules;
    return {
      isProtected,
      showsGrid,
      defaultWidth,
      widths,
      heights,
      rules: judged.sort((one, other) => one.priority - other.priority),
      unjudgedRules: unjudged,
      otherRules: otherKinds,
      drawings,
      lastStyledRow: this.lastRow,
      lastStyledColumn: this.lastColumn,
      styleOf: (row, column) => this.styles.cells[this.styleAt(row, column)] ?? plain,
    };
  }

  private readCell(attributes: Attributes): void {
    this.column = parsePlace(attributes["r"] ?? "")?.column ?? this.column + 1;
    const style = Number(attributes["s"] ?? 0);
    this.cellStyles.set(this.row * 16_384 + this.column, style);
    const look = this.styles.cells[style];
    if (look?.fill === undefined && Object.keys(look?.edges ?? {}).length === 0) return;
    this.lastRow = Math.max(this.lastRow, this.row);
    this.lastColumn = Math.max(this.lastColumn, this.column);
  }

  /** As in SheetFrame, each column is visited once. */
  private readColumn({ min, max, style = "0", width }: Attributes): void {
    const first = Math.max(Number(min) - 1, this.columnsRead);
    const end = Math.min(Number(max), limits.columns);
    if (!(first < end)) return;
    this.columnsRead = end;
    for (let column = first; column < end; column++) {
      this.columnStyles.set(column, Number(style));
      if (width !== undefined) this.widths.set(column, Number(width));
    }
  }

  private styleAt(row: number, column: number): number {
    const own = this.cellStyles.get(row * 16_384 + column) ?? this.rowStyles.get(row);
    return own ?? this.columnStyles.get(column) ?? 0;
  }
}
