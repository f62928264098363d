import type { OpenedWorkbook } from "../file/open";
import { readRelationships } from "../file/sheet/relationships";
import { applyEdits, type Edit } from "../file/write/cell-edits";
import type { PartChanges } from "../file/write/write-back";
import { decodePart, encodePart, encodeText } from "../file/xml/text";
import { type Element, readElements } from "../file/xml/xml";
import { quoteSheetName } from "../book/address";
import type { Book } from "../model";

/** A sheet's name that the workbook does not have: the wanted one, or one with a number behind it. */
export function findFreeSheetName({ sheets }: Book, wanted: string): string {
  const taken = new Set(sheets.map(({ name }) => name.toLowerCase()));
  let name = wanted;
  for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = `${wanted} ${number}`;
  return name;
}

/** What a new sheet brings with it. */
interface NewSheet {
  readonly name: string;
  /** Names for the whole workbook, and names of the sheet itself (print area, print titles), with their references. */
  readonly names: readonly { readonly name: string; readonly reference: string; readonly ofSheet: boolean }[];
  /** The sheet's part, from the style sheet's text with what it needs, and the namespace of its elements. */
  content(namespace: string): string;
  styles(partName: string, text: string): string;
  /** Further edits of the workbook part, from its text and its elements. */
  readonly editWorkbook?: (text: string, root: Element) => readonly Edit[];
}

const transitional = "http://schemas.openxmlformats.org/";
const types = "application/vnd.openxmlformats-officedocument.spreadsheetml.";

/**
 * The parts of the package that change when a sheet is appended: the workbook, its relationships, the content types and the
 * styles. The calculation chain, which would name cells without formulas, is omitted; Excel rebuilds it.
 */
export function addSheet(opened: OpenedWorkbook, sheet: NewSheet): PartChanges {
  const { archive } = opened;
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument")?.target ?? "";
  const folder = main.slice(0, main.lastIndexOf("/") + 1);
  const linksName = `${folder}_rels/${main.slice(folder.length)}.rels`;
  const known = readRelationships(archive, main);
  const stylesName = known.find(({ kind }) => kind === "styles")?.target;
  const chain = known.find(({ kind }) => kind === "calcChain")?.target;
  const removed = chain !== undefined && archive.findEntry(chain) ? [chain] : [];
  const partName = findFreeName(opened, `${folder}worksheets/sheet`);
  const newStyles = stylesName === undefined ? `${folder}styles.xml` : undefined;

  const replaced = new Map<string, Uint8Array>();
  const edit = (name: string, change: (text: string) => string): void => {
    const original = archive.readContent(name);
    replaced.set(archive.findEntry(name)?.name ?? name, encodePart(change(decodePart(original)), original));
  };
  const added = new Map<string, Uint8Array>();
  const relation = findFreeId(known.map(({ id }) => id));
  let strict = false;
  let namespace = "";
  edit(main, (text) => {
    const changed = extendWorkbook(main, text, sheet, relation);
    ({ strict, namespace } = changed);
    return changed.text;
  });
  const buildLinkType = (kind: string): string =>
    strict
      ? `http://purl.oclc.org/ooxml/officeDocument/relationships/${kind}`
      : `${transitional}officeDocument/2006/relationships/${kind}`;
  edit(linksName, (text) => {
    const entries = [writeRelationTag(relation, buildLinkType("worksheet"), `/${partName}`)];
    if (newStyles !== undefined)
      entries.push(writeRelationTag(`${relation}s`, buildLinkType("styles"), `/${newStyles}`));
    return removeChain(linksName, text, entries);
  });
  edit("[Content_Types].xml", (text) => {
    const entries = [writeOverrideTag(partName, `${types}worksheet+xml`)];
    if (newStyles !== undefined) entries.push(writeOverrideTag(newStyles, `${types}styles+xml`));
    return withTypes(text, entries, removed);
  });
  const properties = readRelationships(archive, "").find(({ kind }) => kind === "extended-properties")?.target;
  const present = opened.book.sheets.map(({ name }) => name);
  if (properties !== undefined && archive.findEntry(properties))
    edit(properties, (text) => withSheetTitle(properties, text, sheet.name, present));
  if (stylesName !== undefined) edit(stylesName, (text) => sheet.styles(stylesName, text));
  else {
    const empty = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<styleSheet xmlns="${namespace}"></styleSheet>`;
    added.set(newStyles ?? "", new TextEncoder().encode(sheet.styles("styles.xml", empty)));
  }
  added.set(partName, new TextEncoder().encode(sheet.content(namespace)));
  return { replaced, added, removed };
}

function findFreeName({ archive }: OpenedWorkbook, stem: string): string {
  let number = 1;
  while (archive.findEntry(`${stem}${number}.xml`)) number += 1;
  return `${stem}${number}.xml`;
}

function findFreeId(taken: readonly string[]): string {
  let number = 1;
  while (taken.includes(`issue${number}`)) number += 1;
  return `issue${number}`;
}

export const writeRelationTag = (id: string, type: string, target: string): string =>
  `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`;
export const writeOverrideTag = (name: string, type: string): string =>
  `<Override PartName="/${name}" ContentType="${type}"/>`;

/** The workbook part with the sheet and its names appended. */
function extendWorkbook(partName: string, text: string, sheet: NewSheet, relation: string) {
  const root = readElements(partName, text, 3);
  const prefix = root.tagName.slice(0, root.tagName.indexOf(":") + 1);
  const namespace = root.attributes[prefix === "" ? "xmlns" : `xmlns:${prefix.slice(0, -1)}`] ?? "";
  const strict = namespace.includes("purl.oclc.org");
  const relationships = strict
    ? "http://purl.oclc.org/ooxml/officeDocument/relationships"
    : `${transitional}officeDocument/2006/relationships`;
  const sheets = root.children.find(({ name }) => name === "sheets") as Element;
  const number = 1 + Math.max(0, ...sheets.children.map(({ attributes }) => Number(attributes["sheetId"] ?? 0)));
  const tag = `<${prefix}sheet name="${escapeAttribute(sheet.name)}" sheetId="${number}" xmlns:r="${relationships}" r:id="${relation}"/>`;
  const names = sheet.names.map(({ name, reference, ofSheet }) => {
    const scope = ofSheet ? ` localSheetId="${sheets.children.length}"` : "";
    const target = reference
      .split(",")
      .map((range) => `${quoteSheetName(sheet.name)}!${range}`)
      .join(",");
    return `<${prefix}definedName name="${name}"${scope}>${encodeText(target)}</${prefix}definedName>`;
  });
  const edits: Edit[] = [
    { start: sheets.closeStart, end: sheets.closeStart, text: tag },
    insertNames(root, names.join(""), prefix),
    ...(sheet.editWorkbook?.(text, root) ?? []),
  ];
  return { text: applyEdits(text, edits), strict, namespace };
}

/** Defined names come after the sheets, function groups and links to other workbooks (ECMA-376 part 1, 18.2.27). */
function insertNames(root: Element, names: string, prefix: string): Edit {
  const present = root.children.find(({ name }) => name === "definedNames");
  if (present && present.closeStart < present.end)
    return { start: present.closeStart, end: present.closeStart, text: names };
  const whole = `<${prefix}definedNames>${names}</${prefix}definedNames>`;
  if (present) return { start: present.start, end: present.end, text: whole };
  const before = root.children.findLast(({ name }) =>
    ["sheets", "functionGroups", "externalReferences"].includes(name),
  );
  const at = before?.end ?? root.closeStart;
  return { start: at, end: at, text: whole };
}

export function removeChain(partName: string, text: string, entries: readonly string[]): string {
  const root = readElements(partName, text, 2);
  const chains = root.children.filter(({ attributes }) => /\/calcChain$/.test(attributes["Type"] ?? ""));
  return applyEdits(text, [
    ...chains.map(({ start, end }) => ({ start, end, text: "" })),
    { start: root.closeStart, end: root.closeStart, text: prefixEntries(root, entries) },
  ]);
}

export function withTypes(text: string, entries: readonly string[], removed: readonly string[]): string {
  const root = readElements("[Content_Types].xml", text, 2);
  const gone = removed.map((name) => `/${name}`.toLowerCase());
  const overrides = root.children.filter(({ attributes }) =>
    gone.includes((attributes["PartName"] ?? "").toLowerCase()),
  );
  return applyEdits(text, [
    ...overrides.map(({ start, end }) => ({ start, end, text: "" })),
    { start: root.closeStart, end: root.closeStart, text: prefixEntries(root, entries) },
  ]);
}

/** New elements take the prefix of the part's own elements. */
function prefixEntries({ tagName }: Element, entries: readonly string[]): string {
  const prefix = tagName.slice(0, tagName.indexOf(":") + 1);
  return entries.map((entry) => entry.replace(/^</, `<${prefix}`)).join("");
}

const escapeAttribute = (text: string): string => encodeText(text).replaceAll('"', "&quot;");

/**
 * The document's properties with the sheet appended to their list of contents (ECMA-376 part 1, 22.2.2.9 and 22.2.2.26);
 * unchanged if there is no such list, or none that matches the workbook's sheets.
 */
function withSheetTitle(partName: string, text: string, sheetName: string, present: readonly string[]): string {
  const root = readElements(partName, text, 6);
  const findChild = (of: Element | undefined, name: string): Element | undefined =>
    of?.children.find((one) => one.name === name);
  const pairs = findChild(findChild(root, "HeadingPairs"), "vector");
  const titles = findChild(findChild(root, "TitlesOfParts"), "vector");
  // Sheets are the first group listed by Excel: its name, in the user's language, then their number.
  const [count] = pairs?.children[1]?.children ?? [];
  const last = titles?.children[present.length - 1];
  if (!count || !titles || !last) return text;
  const readText = (element: Element): string => text.slice(element.openEnd, element.closeStart);
  const listed = titles.children.slice(0, present.length).map(readText);
  if (
    readText(count) !== String(present.length) ||
    listed.some((title, place) => title !== encodeText(present[place] ?? ""))
  )
    return text;
  const size = text.slice(titles.start, titles.openEnd).replace(/(\ssize=")\d+"/, `$1${titles.children.length + 1}"`);
  const edits: Edit[] = [
    { start: count.openEnd, end: count.closeStart, text: String(present.length + 1) },
    { start: titles.start, end: titles.openEnd, text: size },
    { start: last.end, end: last.end, text: `<${last.tagName}>${encodeText(sheetName)}</${last.tagName}>` },
  ];
  return applyEdits(text, edits);
}
