import type { Book, DefinedName, Sheet } from "../../model";
import type { Archive } from "../archive";
import { sentence, WorkbookProblem } from "../problem";
import { decodeText } from "../xml/text";
import { parseBoolean, findPrefixedAttribute, type XmlReader } from "../xml/xml";

export interface SheetListing {
  readonly name: string;
  readonly visibility: Sheet["visibility"];
  readonly relationship: string;
}

/** What xl/workbook.xml says (ECMA-376 part 1, 18.2.27). */
interface WorkbookPart {
  readonly sheets: SheetListing[];
  readonly names: DefinedName[];
  /** The relationships of other workbooks, in the order in which formulas number them. */
  readonly externals: readonly string[];
  readonly date1904: boolean;
  readonly precisionAsDisplayed: boolean;
  readonly iteration: Book["iteration"];
  /** Settings under which Excel does not compute cell by cell at full precision; each a sentence for people. */
  readonly cautions: string[];
}

export function readWorkbookPart(archive: Archive, partName: string): WorkbookPart {
  const sheets: SheetListing[] = [];
  const written: WrittenName[] = [];
  const cautions = new Set<string>();
  const externals: string[] = [];
  let date1904 = false;
  let precisionAsDisplayed = false;
  let iteration: Book["iteration"];
  let definedName: Omit<WrittenName, "text"> | undefined;
  let text = "";
  const reader: XmlReader = {
    open(name, attributes, part) {
      if (name === "workbookPr") date1904 = parseBoolean(attributes["date1904"]);
      else if (name === "sheet") {
        const state = attributes["state"];
        sheets.push({
          name: decodeText(attributes["name"] ?? ""),
          visibility: state === "hidden" || state === "veryHidden" ? state : "visible",
          relationship: findPrefixedAttribute(attributes, "id") ?? "",
        });
      } else if (name === "definedName") {
        definedName = { name: attributes["name"] ?? "", sheetId: attributes["localSheetId"] };
        text = "";
        part.wantText();
      } else if (name === "externalReference") externals.push(findPrefixedAttribute(attributes, "id") ?? "");
      else if (name === "calcPr") {
        if (parseBoolean(attributes["iterate"])) iteration = readIteration(attributes);
        precisionAsDisplayed = !parseBoolean(attributes["fullPrecision"], true);
        for (const caution of listCautions(attributes)) cautions.add(caution);
      }
    },
    addText(piece) {
      text += piece;
    },
    close(name, part) {
      if (name !== "definedName" || !definedName) return;
      part.ignoreText();
      written.push({ ...definedName, text: text.replace(/^=/, "") });
      definedName = undefined;
    },
  };
  archive.read(partName, reader, "workbook");
  refuseTwins(
    sheets,
    ({ name }) => name.toLowerCase(),
    ({ name }) => sentence`two sheets have the name "${name}"`,
  );
  const names = collectNames(written, sheets.length, cautions);
  return { sheets, names, externals, date1904, precisionAsDisplayed, iteration, cautions: [...cautions] };
}

/** Excel's own limits where the file gives none (ECMA-376 part 1, 18.2.2). */
function readIteration({ iterateCount = "100", iterateDelta = "0.001" }: Record<string, string>): Book["iteration"] {
  const [count, change] = [Number(iterateCount), Number(iterateDelta)];
  return count >= 1 && change >= 0 ? { count, change } : undefined;
}

interface WrittenName {
  readonly name: string;
  readonly sheetId: string | undefined;
  readonly text: string;
}

/** The names available to formulas; those of missing sheets are omitted, with a caution. */
function collectNames(written: readonly WrittenName[], sheetCount: number, cautions: Set<string>): DefinedName[] {
  const isLost = ({ sheetId }: WrittenName): boolean =>
    sheetId !== undefined && !(/^\d+$/.test(sheetId) && Number(sheetId) < sheetCount);
  const lost = written.filter(isLost);
  const [first] = lost;
  if (first) {
    cautions.add(
      sentence`the workbook has names that belong to missing sheets: ${lost.length}, the first "${first.name}" (localSheetId ${first.sheetId ?? ""}); they are ignored`,
    );
  }
  const names = written.flatMap((one): DefinedName[] => {
    const { name, sheetId, text } = one;
    if (isLost(one)) return [];
    return [sheetId === undefined ? { name, text } : { name, sheet: Number(sheetId), text }];
  });
  refuseTwins(
    names,
    ({ name, sheet }) => `${sheet ?? ""} ${name.toLowerCase()}`,
    ({ name }) => sentence`the name "${name}" is defined twice`,
  );
  return names;
}

function listCautions(attributes: Record<string, string>): string[] {
  const cautions: string[] = [];
  if (!parseBoolean(attributes["fullPrecision"], true)) {
    cautions.push(
      "the workbook calculates with the precision as displayed; here too, results are rounded to the digits shown in their cells",
    );
  }
  if (parseBoolean(attributes["iterate"])) {
    cautions.push(
      "the workbook allows iterative calculation; here cells that depend on themselves are calculated until they settle, and compared no more closely than its maximum change",
    );
  }
  return cautions;
}

/** Refuses a list with duplicate keys, such as two sheets of one name: which one a formula means would be a guess. */
export function refuseTwins<T>(list: readonly T[], keyOf: (entry: T) => string, say: (entry: T) => string): void {
  const seen = new Set<string>();
  for (const entry of list) {
    const key = keyOf(entry);
    if (seen.has(key)) throw new WorkbookProblem("damaged", say(entry));
    seen.add(key);
  }
}
