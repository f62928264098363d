import { addInRegistry } from "../../../src/cli/shared/add-in";
import { rememberAnswers } from "../../../src/workbook/formula/calls/remember-answers";
import {
  formatCellAddress,
  buildCellKey,
  ErrorValue,
  evaluateBook,
  openWorkbook,
  type Area,
  type Book,
  type Cell,
  type CellValue,
  type Evaluation,
  type OpenedWorkbook,
} from "../../../src/workbook/index";
import { boxOf } from "../../../sample-workbooks/blocks/address";
import { packed, partsOf, sheetParts } from "../../samples/parts";

/** Most of what one copy of a workbook asks the add-in, its other copies ask too. */
export const addIn = rememberAnswers(addInRegistry());

/** A cell by its sheet's name and its address. */
export type Spot = readonly [sheet: string, address: string];

/** One direction of the sample's test: where its readings stand, read from the formula of the whole test. */
export interface TestSpots {
  readonly sheet: string;
  readonly pressures: Area;
  readonly flows: Area;
  readonly before: Area;
  readonly after: Area;
  readonly settings: Area;
  readonly include: Area;
  readonly fanPressures: Area;
}

const relationshipType = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const worksheetType = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";
const worksheet =
  '<?xml version="1.0" encoding="UTF-8"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">';

/** Parts and cells of a workbook that many tests begin with. */
const known = new WeakMap<Uint8Array, { readonly parts: ReadonlyMap<string, string>; readonly book: Book }>();

/** A workbook's package that is edited as a person with a text editor could: cell by cell in its XML parts. */
export class Tampered {
  readonly parts: Map<string, string>;
  readonly book: Book;

  constructor(bytes: Uint8Array) {
    const read = known.get(bytes) ?? { parts: partsOf(bytes), book: openWorkbook(bytes).book };
    known.set(bytes, read);
    this.parts = new Map(read.parts);
    this.book = read.book;
  }

  /** The file opened, with every stored value computed anew unless told otherwise: a careful hand leaves no old results. */
  open(recalculated = true): OpenedWorkbook {
    const opened = openWorkbook(packed(this.parts), { withLooks: true });
    if (!recalculated) return opened;
    return { ...opened, book: storeResults(opened.book, evaluateBook(opened.book, { addIn })) };
  }

  part(sheet: string): string {
    const found = sheetParts(this.parts).find(({ name }) => name === sheet);
    if (!found) throw new Error(`no sheet ${sheet}`);
    return found.part;
  }

  /** Changes a part; a change that finds nothing to change is a fault of the test. */
  edit(part: string, change: (xml: string) => string): void {
    const before = this.parts.get(part) ?? "";
    const after = change(before);
    if (after === before) throw new Error(`nothing changed in ${part}`);
    this.parts.set(part, after);
  }

  /** Puts a value, or a formula (text that begins with =), into a cell in the look that it has. */
  put([sheet, address]: Spot, value: CellValue): void {
    this.cell([sheet, address], (style) => cellXml(address, style, value));
  }

  /** The cell's element by its style attribute; null removes what the cell holds. */
  cell([sheet, address]: Spot, make: (style: string) => string): void {
    const row = /\d+/.exec(address)?.[0] ?? "";
    this.edit(this.part(sheet), (xml) => {
      const pattern = new RegExp(`<c r="${address}"([^>]*?)(?:/>|>.*?</c>)`, "s");
      const found = pattern.exec(xml);
      if (found) return xml.replace(pattern, () => make(/ s="\d+"/.exec(found[1] ?? "")?.[0] ?? ""));
      const open = new RegExp(`(<row r="${row}"[^>]*?)(/>|>)`);
      return xml.replace(open, (_, start: string, end: string) =>
        end === "/>" ? `${start}>${make("")}</row>` : `${start}>${make("")}`,
      );
    });
  }

  /** Appends a sheet with values and formulas (text that begins with =), in no look at all. */
  addSheet(name: string, cells: Readonly<Record<string, CellValue>>): void {
    const part = `xl/worksheets/added${this.parts.size}.xml`;
    const rows = Object.entries(cells).map(([address, value]) => {
      const row = /\d+/.exec(address)?.[0] ?? "";
      return `<row r="${row}">${cellXml(address, "", value)}</row>`;
    });
    this.parts.set(part, `${worksheet}<sheetData>${rows.join("")}</sheetData></worksheet>`);
    const id = `rIdAdded${this.parts.size}`;
    const sheet = `<sheet name="${name}" sheetId="${900 + this.parts.size}" r:id="${id}"/>`;
    this.edit("xl/workbook.xml", (xml) => xml.replace("</sheets>", `${sheet}</sheets>`));
    const target = `Target="${part.replace("xl/", "")}"`;
    const relationship = `<Relationship Id="${id}" Type="${relationshipType}/worksheet" ${target}/>`;
    this.edit("xl/_rels/workbook.xml.rels", (xml) =>
      xml.replace("</Relationships>", `${relationship}</Relationships>`),
    );
    const type = `<Override PartName="/${part}" ContentType="${worksheetType}"/>`;
    this.edit("[Content_Types].xml", (xml) => xml.replace("</Types>", `${type}</Types>`));
  }

  value([sheet, address]: Spot): CellValue {
    const { top, left } = boxOf(address);
    return this.book.sheets.find(({ name }) => name === sheet)?.cells.get(buildCellKey(top, left))?.value ?? null;
  }

  formula([sheet, address]: Spot): string {
    const { top, left } = boxOf(address);
    return this.book.sheets.find(({ name }) => name === sheet)?.cells.get(buildCellKey(top, left))?.formula?.text ?? "";
  }

  /** Changes the text of a cell's formula and leaves the rest of the element: array range and mark of a dynamic array. */
  reformulate([sheet, address]: Spot, change: (text: string) => string): void {
    const pattern = new RegExp(`(<c r="${address}"[^>]*>\\s*<f[^>]*>)(.*?)(</f>)`, "s");
    this.edit(this.part(sheet), (xml) =>
      xml.replace(
        pattern,
        (_, open: string, text: string, close: string) => open + escaped(change(unescaped(text))) + close,
      ),
    );
  }

  /** The cell behind a defined name. */
  named(name: string): Spot {
    const text = this.book.names.find((one) => one.name === name)?.text;
    if (text === undefined) throw new Error(`no name ${name}`);
    const [sheet = "", address = ""] = text.split("!");
    return [sheet.replaceAll("'", ""), address.replaceAll("$", "")];
  }

  /** The first cell whose formula or text matches, with its sheet. */
  find(pattern: RegExp, sheet?: string): Spot {
    for (const { name, cells } of this.book.sheets) {
      if (sheet !== undefined && name !== sheet) continue;
      const inOrder = [...cells.values()].sort((a, b) => a.row - b.row || a.column - b.column);
      for (const { row, column, formula, value } of inOrder) {
        const text = formula ? `=${formula.text}` : typeof value === "string" ? value : "";
        if (pattern.test(text)) return [name, formatCellAddress(row, column)];
      }
    }
    throw new Error(`no cell matches ${String(pattern)}`);
  }

  /** The cell so many columns to the right and rows below. */
  beside([sheet, address]: Spot, columns: number, rows = 0): Spot {
    const { top, left } = boxOf(address);
    return [sheet, formatCellAddress(top + rows, left + columns)];
  }

  test(direction: "depressurization" | "pressurization"): TestSpots {
    const [sheet, address] = this.find(new RegExp(`STILLAIR_TESTRESULT\\("${direction}"`));
    const [, call = ""] = this.formula([sheet, address]).split("TESTRESULT(");
    const ranges = [...call.matchAll(/\$?[A-Z]+\$?\d+:\$?[A-Z]+\$?\d+/g)].map(([range]) => range.replaceAll("$", ""));
    const [pressures, flows, before, after, settings, include] = [...new Set(ranges)].map(boxOf);
    if (!pressures || !flows || !before || !after || !settings || !include)
      throw new Error(`another layout in ${sheet}`);
    const { left } = boxOf(this.find(/^fan$/i, sheet)[1]);
    const fanPressures = { ...pressures, left, right: left };
    return { sheet, pressures, flows, before, after, settings, include, fanPressures };
  }

  /** The cell beside a label of a test's settings. */
  setting({ sheet, settings }: TestSpots, label: string): Spot {
    for (let row = settings.top; row <= settings.bottom; row++) {
      if (this.value([sheet, formatCellAddress(row, settings.left)]) === label)
        return [sheet, formatCellAddress(row, settings.right)];
    }
    throw new Error(`no setting ${label}`);
  }
}

/** The book as it would be read from a file into which the results were written. */
export function storeResults(book: Book, { cells }: Evaluation): Book {
  const stored = book.sheets.map((sheet) => new Map(sheet.cells));
  for (const { sheet, row, column, outcome } of cells) {
    if (!outcome.evaluated) continue;
    const key = buildCellKey(row, column);
    const cell = stored[sheet]?.get(key);
    // A cell without formula and value holds its style at most, which no reader of values keeps.
    if (outcome.value === null && !cell?.formula) {
      stored[sheet]?.delete(key);
      continue;
    }
    const base: Cell = cell ?? { row, column, value: null, format: "General" };
    // A file holds the bare error, without the reason that the evaluation knows.
    const value = outcome.value instanceof ErrorValue ? new ErrorValue(outcome.value.code) : outcome.value;
    stored[sheet]?.set(key, { ...base, value });
  }
  return { ...book, sheets: book.sheets.map((sheet, index) => ({ ...sheet, cells: stored[index] ?? sheet.cells })) };
}

/** The addresses of an area's cells that hold a number, in order. */
export function filled(tampered: Tampered, sheet: string, area: Area): Spot[] {
  const spots: Spot[] = [];
  for (let row = area.top; row <= area.bottom; row++)
    for (let column = area.left; column <= area.right; column++) {
      const spot: Spot = [sheet, formatCellAddress(row, column)];
      if (typeof tampered.value(spot) === "number") spots.push(spot);
    }
  return spots;
}

function cellXml(address: string, style: string, value: CellValue): string {
  if (value === null) return `<c r="${address}"${style}/>`;
  if (typeof value === "number") return `<c r="${address}"${style}><v>${value}</v></c>`;
  if (typeof value === "string" && value.startsWith("=")) {
    return `<c r="${address}"${style}><f>${escaped(value.slice(1))}</f><v>0</v></c>`;
  }
  if (typeof value !== "string") throw new Error("only numbers and text are typed");
  const text = escaped(value);
  return `<c r="${address}"${style} t="inlineStr"><is><t>${text}</t></is></c>`;
}

const escaped = (text: string): string => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
const unescaped = (text: string): string =>
  text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&amp;", "&");
