import { listPlaces, sizeOf } from "../../book/area";
import { SheetNames } from "../../book/names";
import { type Book, buildCellKey, type CellValue } from "../../model";
import { parseChartReference } from "../appearance/charts";
import type { OpenedWorkbook } from "../open";
import { WorkbookProblem } from "../problem";
import { decodePart, encodePart, encodeText } from "../xml/text";
import type { CellPatch } from "./cell-edits";

const chartPart = /^\/?xl\/charts\/chart[^/]*\.xml$/i;

/** A million cells are read for all charts together; those beyond keep the cache that they have. */
const mostCells = 1_000_000;

/**
 * Charts keep a copy of the values they show (ECMA-376 part 1, 21.2.2.122 and 201), which a preview draws without opening the workbook. Gives the chart parts
 * in which a copy changes with the given cells, or is missing, by name.
 */
export function refreshChartCaches(opened: OpenedWorkbook, changes: readonly CellPatch[]): Map<string, Uint8Array> {
  const refreshed = new Map<string, Uint8Array>();
  if (changes.length === 0) return refreshed;
  const values = new ChangedValues(opened.book, changes);
  for (const { name } of opened.archive.directory.entries) {
    if (!chartPart.test(name)) continue;
    const original = readChartPart(opened, name);
    if (!original) continue;
    const before = decodePart(original);
    const after = replaceReferences(before, (kind, inner) => refreshReference(kind, inner, values));
    if (after !== before) refreshed.set(name, encodePart(after, original));
  }
  return refreshed;
}

/** The bytes of a part that is readable text. No command has opened the charts before; a damaged one is copied as it is. */
function readChartPart({ archive }: OpenedWorkbook, name: string): Uint8Array | undefined {
  try {
    const content = archive.readContent(name);
    decodePart(content);
    return content;
  } catch (problem) {
    if (problem instanceof WorkbookProblem || problem instanceof TypeError) return undefined;
    throw problem;
  }
}

/** The values of the copy, and which of them differ. */
class ChangedValues {
  private readonly sheets: SheetNames;
  private readonly changed = new Map<number, Map<number, CellPatch>>();
  private left = mostCells;

  constructor(
    private readonly book: Book,
    changes: readonly CellPatch[],
  ) {
    this.sheets = new SheetNames(book);
    for (const change of changes) {
      const ofSheet = this.changed.get(change.sheet) ?? new Map<number, CellPatch>();
      this.changed.set(change.sheet, ofSheet.set(buildCellKey(change.row, change.column), change));
    }
  }

  /** The values of a reference row by row; undefined if they cannot be copied, or if a copy is there and none of them changes. */
  read(reference: string, hasCopy: boolean): CellValue[] | undefined {
    const found = parseChartReference(reference);
    const sheet = found && this.sheets.find(found.sheet);
    if (!found || sheet === undefined || sizeOf(found.area) > this.left) return undefined;
    const changed = this.changed.get(sheet);
    if (hasCopy && !changed) return undefined;
    this.left -= sizeOf(found.area);
    const keys = [...listPlaces({ sheet, ...found.area })].map(({ row, column }) => buildCellKey(row, column));
    if (hasCopy && !keys.some((key) => changed?.has(key))) return undefined;
    const cells = this.book.sheets[sheet]?.cells;
    return keys.map((key) => (changed?.get(key) ?? cells?.get(key))?.value ?? null);
  }
}

const entities: Readonly<Record<string, string>> = { amp: "&", apos: "'", quot: '"', lt: "<", gt: ">" };

const decodeEntities = (text: string): string =>
  text.replace(/&(amp|apos|quot|lt|gt);/g, (_, name: string) => entities[name] ?? "");

type Kind = "num" | "str";

/** What stands between the tags of a reference, with a new copy of its values. */
function refreshReference(kind: Kind, inner: string, changed: ChangedValues): string {
  const [whole = "", formula = ""] = /<c:f>([^<]*)<\/c:f>/.exec(inner) ?? [];
  const [opening, closing] = [`<c:${kind}Cache>`, `</c:${kind}Cache>`];
  const [start, end] = [inner.indexOf(opening), inner.indexOf(closing)];
  const hasCopy = start >= 0 && end > start;
  const values = changed.read(decodeEntities(formula), hasCopy);
  if (!values) return inner;
  const format = /<c:formatCode>[^<]*<\/c:formatCode>/.exec(inner)?.[0] ?? "<c:formatCode>General</c:formatCode>";
  // A gap is left out, as is an error: neither has a point in the picture.
  const points = values.flatMap((value, index) => {
    const isShown = typeof value === "number" || (kind === "str" && typeof value === "string" && value !== "");
    return isShown ? [`<c:pt idx="${index}"><c:v>${encodeText(String(value))}</c:v></c:pt>`] : [];
  });
  const head = kind === "num" ? format : "";
  const cache = `${head}<c:ptCount val="${values.length}"/>${points.join("")}`;
  if (hasCopy) return inner.slice(0, start + opening.length) + cache + inner.slice(end);
  return inner.replace(whole, () => whole + opening + cache + closing);
}

/** The text with the inside of each numRef and strRef replaced; each character is read once, whatever is damaged. */
function replaceReferences(text: string, replace: (kind: Kind, inner: string) => string): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { 0: opening, 1: kind, index } of text.matchAll(/<c:(num|str)Ref>/g)) {
    const start = index + opening.length;
    if (index < at) continue;
    const end = text.indexOf(`</c:${kind as Kind}Ref>`, start);
    if (end < 0) break;
    pieces.push(text.slice(at, start), replace(kind as Kind, text.slice(start, end)));
    at = end;
  }
  return at === 0 ? text : pieces.join("") + text.slice(at);
}
