import { strToU8, zipSync, type Zippable } from "fflate";

export const transitional = {
  main: "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
  links: "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
};

/** ISO/IEC 29500 strict names the same things by other addresses. */
export const strict = {
  main: "http://purl.oclc.org/ooxml/spreadsheetml/main",
  links: "http://purl.oclc.org/ooxml/officeDocument/relationships",
};

export interface PackageOptions {
  /** Inside <worksheet>, one text a sheet; the sheets are named Sheet1, Sheet2, … unless named here. */
  readonly sheets: readonly string[];
  readonly sheetNames?: readonly string[];
  /** Inside <workbook> behind <sheets>. */
  readonly workbook?: string;
  readonly workbookStart?: string;
  /** Inside <sst>, <styleSheet>. */
  readonly strings?: string;
  readonly styles?: string;
  readonly metadata?: string;
  /** Further parts, or replacements of parts, by name. */
  readonly parts?: Zippable;
  readonly sheetLinks?: Readonly<Record<number, string>>;
  readonly words?: typeof transitional;
  readonly level?: 0 | 1 | 6;
}

const declaration = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const packageLinks = "http://schemas.openxmlformats.org/package/2006/relationships";

/** The cell metadata by which a cell with cm="1" is a dynamic array. */
export const dynamicArrays =
  '<metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000"/></metadataTypes>' +
  '<futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}">' +
  '<xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/>' +
  '</ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata>';

/** The parts of a workbook, ready for zipSync. */
export function partsOf(options: PackageOptions): Zippable {
  const { main, links } = options.words ?? transitional;
  const extras: [string, string | undefined, string, string][] = [
    ["sharedStrings", options.strings, "sst", "xl/sharedStrings.xml"],
    ["styles", options.styles, "styleSheet", "xl/styles.xml"],
    ["sheetMetadata", options.metadata, "metadata", "xl/metadata.xml"],
  ];
  const used = extras.filter(([, content]) => content !== undefined);
  const link = (id: string, kind: string, target: string): string =>
    `<Relationship Id="${id}" Type="${links}/${kind}" Target="${target}"/>`;
  const listing = options.sheets.map((_, index) => {
    const name = options.sheetNames?.[index] ?? `Sheet${index + 1}`;
    return `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`;
  });
  const parts: Record<string, string> = {
    "[Content_Types].xml":
      '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/>' +
      '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
      '<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>',
    "_rels/.rels": `<Relationships xmlns="${packageLinks}">${link("rId1", "officeDocument", "xl/workbook.xml")}</Relationships>`,
    "xl/workbook.xml":
      `<workbook xmlns="${main}" xmlns:r="${links}">${options.workbookStart ?? ""}<sheets>${listing.join("")}</sheets>` +
      `${options.workbook ?? ""}</workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${packageLinks}">${[
      ...options.sheets.map((_, index) => link(`rId${index + 1}`, "worksheet", `worksheets/sheet${index + 1}.xml`)),
      ...used.map(([kind, , , name]) => link(kind, kind, `/${name}`)),
    ].join("")}</Relationships>`,
  };
  options.sheets.forEach((content, index) => {
    parts[`xl/worksheets/sheet${index + 1}.xml`] =
      `<worksheet xmlns="${main}" xmlns:r="${links}">${content}</worksheet>`;
    const sheetLinks = options.sheetLinks?.[index];
    if (sheetLinks !== undefined) {
      parts[`xl/worksheets/_rels/sheet${index + 1}.xml.rels`] =
        `<Relationships xmlns="${packageLinks}">${sheetLinks}</Relationships>`;
    }
  });
  for (const [, content, root, name] of used) parts[name] = `<${root} xmlns="${main}">${content ?? ""}</${root}>`;
  const bytes = Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(declaration + text)]));
  return { ...bytes, ...options.parts };
}

/** A workbook made for one test. */
export function packageOf(options: PackageOptions): Uint8Array {
  return zipSync(partsOf(options), { level: options.level ?? 6, mtime: new Date(2026, 0, 5, 12) });
}

/** A workbook with one sheet of the given rows. */
export function sheetOf(rows: string, options: Partial<PackageOptions> = {}): Uint8Array {
  return packageOf({ sheets: [`<sheetData>${rows}</sheetData>`], ...options });
}
