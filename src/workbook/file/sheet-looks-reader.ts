import type { Area } from "../model";
import { parseArea, parsePlace } from "./address";
import type { CellStyle, CellStyles, ConditionalStyle } from "./cell-styles";
import type { Drawing } from "./drawings";
import { booleanAttribute, type XmlPart, type XmlReader } from "./xml";

/** A rule by which cells change their looks; the formulas are as its first area's first cell has them. */
export interface ConditionalRule {
  readonly areas: readonly Area[];
  /** "expression", "cellIs", "containsText", … (ECMA-376 part 1, 18.18.12). */
  readonly kind: string;
  readonly operator: string;
  readonly formulas: readonly string[];
  readonly style: ConditionalStyle;
  readonly priority: number;
  readonly stops: boolean;
}

/** How a sheet looks beyond its values. */
export interface SheetLooks {
  readonly isProtected: boolean;
  readonly showsGrid: boolean;
  /** In characters of the standard font. */
  readonly defaultWidth: number;
  readonly widths: ReadonlyMap<number, number>;
  /** In points; rows that are not listed are as high as their content. */
  readonly heights: ReadonlyMap<number, number>;
  readonly rules: readonly ConditionalRule[];
  /** Kinds of rules that are not read: colour scales, bars, icons, rankings. */
  readonly otherRules: ReadonlySet<string>;
  /** Charts and pictures that lie on the sheet. */
  readonly drawings: readonly Drawing[];
  /** The outermost row and column with a styled cell; −1 for none. */
  readonly lastStyledRow: number;
  readonly lastStyledColumn: number;
  styleOf(row: number, column: number): CellStyle;
}

const plain: CellStyle = { font: {}, edges: {}, locked: true };

type Attributes = Record<string, string>;

/** Rules whose formula alone says whether they hold, and the comparison with one or two values. */
const readKinds =
  /^(expression|cellIs|containsText|notContainsText|beginsWith|endsWith|containsBlanks|notContainsBlanks|containsErrors|notContainsErrors)$/;

/** Streams one sheet part for its looks (ECMA-376 part 1, 18.3.1). */
export class SheetLooksReader implements XmlReader {
  private isProtected = false;
  private showsGrid = true;
  private defaultWidth = 9.14;
  private readonly widths = new Map<number, number>();
  private readonly heights = new Map<number, number>();
  private readonly rules: ConditionalRule[] = [];
  private readonly otherRules = new Set<string>();
  private readonly columns: { readonly first: number; readonly last: number; readonly style: number }[] = [];
  private readonly rowStyles = new Map<number, number>();
  private readonly cellStyles = new Map<number, number>();
  private lastRow = -1;
  private lastColumn = -1;
  private row = -1;
  private column = -1;
  private areas: readonly Area[] = [];
  private rule: Attributes | undefined;
  private formulas: string[] = [];
  private collecting = false;

  constructor(private readonly styles: CellStyles) {}

  open(name: string, attributes: Attributes, part: XmlPart): void {
    switch (name) {
      case "sheetView":
        this.showsGrid = booleanAttribute(attributes["showGridLines"], true);
        break;
      case "sheetFormatPr":
        this.defaultWidth = Number(attributes["defaultColWidth"] ?? this.defaultWidth);
        break;
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
        if (attributes["ht"] !== undefined) this.heights.set(this.row, Number(attributes["ht"]));
        break;
      case "c":
        this.readCell(attributes);
        break;
      case "conditionalFormatting":
        this.areas = (attributes["sqref"] ?? "").split(/\s+/).flatMap((text) => parseArea(text) ?? []);
        break;
      case "cfRule":
        this.rule = attributes;
        this.formulas = [];
        break;
      case "formula":
        if (!this.rule) break;
        this.formulas.push("");
        this.collecting = true;
        part.wantText();
        break;
    }
  }

  text(text: string): void {
    if (this.collecting) this.formulas[this.formulas.length - 1] += text;
  }

  close(name: string, part: XmlPart): void {
    if (name === "formula" && this.collecting) {
      this.collecting = false;
      part.noText();
    } else if (name === "cfRule" && this.rule) {
      this.endRule(this.rule);
      this.rule = undefined;
    }
  }

  finish(drawings: readonly Drawing[]): SheetLooks {
    const { isProtected, showsGrid, defaultWidth, widths, heights, rules, otherRules } = this;
    return {
      isProtected,
      showsGrid,
      defaultWidth,
      widths,
      heights,
      rules: rules.sort((one, other) => one.priority - other.priority),
      otherRules,
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

  private readColumn({ min, max, style = "0", width }: Attributes): void {
    const [first, last] = [Number(min) - 1, Number(max) - 1];
    this.columns.push({ first, last, style: Number(style) });
    if (width === undefined) return;
    for (let column = first; column <= Math.min(last, first + 255); column++) this.widths.set(column, Number(width));
  }

  private endRule({ type: kind = "", operator = "", priority = "0", dxfId, stopIfTrue }: Attributes): void {
    const style = dxfId === undefined ? undefined : this.styles.conditional[Number(dxfId)];
    if (!readKinds.test(kind) || !style || this.formulas.length === 0 || this.areas.length === 0) {
      this.otherRules.add(kind);
      return;
    }
    const { areas, formulas } = this;
    const stops = booleanAttribute(stopIfTrue);
    this.rules.push({ areas, kind, operator, formulas, style, priority: Number(priority), stops });
  }

  private styleAt(row: number, column: number): number {
    const ofColumn = this.columns.find(({ first, last }) => column >= first && column <= last)?.style;
    return this.cellStyles.get(row * 16_384 + column) ?? this.rowStyles.get(row) ?? ofColumn ?? 0;
  }
}
