import { cellKey, type Area, type Cell, type Formula, type Sheet } from "../model";
import { cellAddress } from "../formula/address";
import { parseArea, parsePlace } from "./address";
import type { Archive } from "./archive";
import { limits } from "./limits";
import { WorkbookProblem } from "./problem";
import { SharedFormula } from "./shared-formula";
import { StringItem } from "./text";
import { cellValue, type ValueContext } from "./values";
import { booleanAttribute, type XmlPart, type XmlReader } from "./xml";

/** What a sheet's cells refer to outside their own part, and the count of cells of all sheets so far. */
export interface SheetContext {
  readonly strings: readonly string[];
  readonly formats: readonly string[];
  readonly dynamicMarks: ReadonlySet<number>;
  readonly date1904: boolean;
  cellCount: number;
}

/** A sheet's contents, before the workbook's own list adds its name and visibility. */
export type SheetContent = Omit<Sheet, "name" | "visibility"> & { readonly filter?: Area };

/** Streams one sheet part (ECMA-376 part 1, 18.3.1.99); cells that carry only a style are passed over, so they cost nothing. */
export function readSheet(archive: Archive, partName: string, context: SheetContext): SheetContent {
  const reader = new SheetReader(partName, context);
  archive.read(partName, reader);
  return reader.finish();
}

type Attributes = Record<string, string>;

class SheetReader implements XmlReader {
  private readonly cells = new Map<number, Cell>();
  private readonly hiddenRows = new Set<number>();
  private readonly hiddenColumns = new Set<number>();
  private readonly mergedAreas: Area[] = [];
  private readonly shared = new Map<string, SharedFormula>();
  private readonly inlineString = new StringItem();
  private readonly valueContext: ValueContext;
  private filter: Area | undefined;
  private filterWorks = false;

  private insideData = false;
  private insideCell = false;
  private insideInline = false;
  private row = -1;
  private column = -1;
  private cell: Attributes = {};
  private formula: Attributes | undefined;
  private formulaText = "";
  private valueText: string | undefined;
  private collecting: "v" | "f" | undefined;

  constructor(
    private readonly partName: string,
    private readonly context: SheetContext,
  ) {
    this.valueContext = {
      strings: context.strings,
      date1904: context.date1904,
      problem: (what) => this.problem(`the cell ${cellAddress(this.row, this.column)} ${what}`),
    };
  }

  open(name: string, attributes: Attributes, part: XmlPart): void {
    if (this.insideInline) return this.inlineString.open(name, attributes, part);
    if (this.insideCell) return this.openInCell(name, attributes, part);
    if (this.insideData) {
      if (name === "row") this.startRow(attributes);
      else if (name === "c") this.startCell(attributes);
    } else this.openAroundCells(name, attributes);
  }

  close(name: string, part: XmlPart): void {
    if (this.insideInline) {
      this.inlineString.close(name, part);
      if (name === "is") this.insideInline = false;
    } else if (name === "c" && this.insideCell) this.endCell();
    else if (this.collecting === name) {
      this.collecting = undefined;
      part.noText();
    } else if (name === "sheetData") this.insideData = false;
  }

  text(text: string): void {
    if (this.insideInline) this.inlineString.text(text);
    else if (this.collecting === "v") this.valueText = (this.valueText ?? "") + text;
    else if (this.collecting === "f") this.formulaText += text;
  }

  finish(): SheetContent {
    return {
      cells: this.cells,
      hiddenRows: this.hiddenRows,
      hiddenColumns: this.hiddenColumns,
      filteredRows: new Set(),
      mergedAreas: this.mergedAreas,
      ...(this.filter && this.filterWorks ? { filter: this.filter } : {}),
    };
  }

  private openAroundCells(name: string, attributes: Attributes): void {
    switch (name) {
      case "sheetData":
        this.insideData = true;
        break;
      case "sheetPr":
        this.filterWorks ||= booleanAttribute(attributes["filterMode"]);
        break;
      case "col":
        if (booleanAttribute(attributes["hidden"]))
          this.hideColumns(Number(attributes["min"]), Number(attributes["max"]));
        break;
      case "mergeCell": {
        const area = parseArea(attributes["ref"] ?? "");
        if (area) this.mergedAreas.push(area);
        break;
      }
      case "autoFilter":
        this.filter = parseArea(attributes["ref"] ?? "");
        break;
      case "filterColumn":
        this.filterWorks = true;
        break;
    }
  }

  private hideColumns(first: number, last: number): void {
    for (let column = first; column <= Math.min(last, limits.columns); column++) this.hiddenColumns.add(column - 1);
  }

  private startRow(attributes: Attributes): void {
    const number = attributes["r"];
    this.row = number === undefined ? this.row + 1 : Number(number) - 1;
    this.column = -1;
    if (!Number.isInteger(this.row) || this.row < 0 || this.row >= limits.rows) {
      throw this.problem(`there is a row "${number ?? this.row + 1}"; a sheet has ${limits.rows} rows`);
    }
    if (booleanAttribute(attributes["hidden"])) this.hiddenRows.add(this.row);
  }

  private startCell(attributes: Attributes): void {
    const address = attributes["r"];
    if (address === undefined) this.column++;
    else {
      const place = parsePlace(address);
      if (!place || place.row !== this.row) throw this.problem(`the cell "${address}" stands in row ${this.row + 1}`);
      this.column = place.column;
    }
    this.insideCell = true;
    this.cell = attributes;
    this.formula = undefined;
    this.formulaText = "";
    this.valueText = undefined;
  }

  private openInCell(name: string, attributes: Attributes, part: XmlPart): void {
    if (name === "v" || name === "f") {
      this.collecting = name;
      if (name === "f") this.formula = attributes;
      else this.valueText = "";
      part.wantText();
    } else if (name === "is") this.insideInline = true;
  }

  private endCell(): void {
    this.insideCell = false;
    const type = this.cell["t"] ?? "n";
    const value = type === "inlineStr" ? this.inlineString.take() : cellValue(type, this.valueText, this.valueContext);
    const formula = this.formula ? this.formulaOfCell(this.formula) : undefined;
    if (value === null && !formula) return;
    const key = cellKey(this.row, this.column);
    if (this.cells.has(key)) throw this.problem(`the cell ${cellAddress(this.row, this.column)} is there twice`);
    if (++this.context.cellCount > limits.cells) {
      throw new WorkbookProblem("too large", `the workbook has more than ${limits.cells} filled cells`);
    }
    const format = this.context.formats[Number(this.cell["s"] ?? 0)] ?? "General";
    const { row, column } = this;
    this.cells.set(key, formula ? { row, column, value, formula, format } : { row, column, value, format });
  }

  /** The formula with shared ones expanded (ECMA-376 part 1, 18.3.1.40). */
  private formulaOfCell(attributes: Attributes): Formula | undefined {
    const text = this.formulaText.replace(/^=/, "");
    const area = parseArea(attributes["ref"] ?? "");
    const dynamic = this.context.dynamicMarks.has(Number(this.cell["cm"]));
    switch (attributes["t"] ?? "normal") {
      case "shared":
        return { text: this.sharedText(attributes["si"] ?? "", text) };
      case "array":
        if (!area) throw this.valueContext.problem("has an array formula without a range");
        return dynamic ? { text, array: area, dynamic } : { text, array: area };
      case "dataTable":
        return area ? { text, array: area, dataTable: true } : { text, dataTable: true };
      default:
        if (text === "") return undefined;
        return dynamic ? { text, dynamic } : { text };
    }
  }

  private sharedText(index: string, text: string): string {
    if (text !== "") this.shared.set(index, new SharedFormula(text, this.row, this.column));
    const shared = this.shared.get(index);
    if (!shared) throw this.valueContext.problem(`uses the shared formula ${index}, which is not defined before it`);
    return text === "" ? shared.at(this.row, this.column) : text;
  }

  private problem(what: string): WorkbookProblem {
    return new WorkbookProblem("damaged", `${this.partName}: ${what}`);
  }
}
