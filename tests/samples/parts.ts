import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

/** The text parts of a workbook's package, by name. */
export function partsOf(bytes: Uint8Array): Map<string, string> {
  return new Map(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content)]));
}

/** A package of these parts, stored as they are: packing and unpacking would take longer than most of what is done with it. */
export function packed(parts: ReadonlyMap<string, string>): Uint8Array {
  return zipSync(Object.fromEntries([...parts].map(([name, text]) => [name, strToU8(text)])), { level: 0 });
}

/** The sheet parts in the order of the tabs, with the names of tab and part. */
export function sheetParts(
  parts: ReadonlyMap<string, string>,
): { readonly name: string; readonly part: string; readonly xml: string }[] {
  const workbook = parts.get("xl/workbook.xml") ?? "";
  return [...workbook.matchAll(/<sheet [^>]*name="([^"]*)"/g)].map(([, name = ""], index) => ({
    name,
    part: `xl/worksheets/sheet${index + 1}.xml`,
    xml: parts.get(`xl/worksheets/sheet${index + 1}.xml`) ?? "",
  }));
}

/** A cell's element with its address and the index of its style. */
export function cellsOf(xml: string): { readonly address: string; readonly style: number; readonly element: string }[] {
  return [...xml.matchAll(/<c ([^>]*?)(?:\/>|>.*?<\/c>)/gs)].map(([element, attributes = ""]) => ({
    address: /\br="([^"]+)"/.exec(attributes)?.[1] ?? "",
    style: Number(/\bs="(\d+)"/.exec(attributes)?.[1] ?? 0),
    element,
  }));
}

/** Style indexes whose cells the user may type into on a protected sheet. */
export function unlockedStyles(parts: ReadonlyMap<string, string>): Set<number> {
  const styles = /<cellXfs[^>]*>(.*?)<\/cellXfs>/s.exec(parts.get("xl/styles.xml") ?? "")?.[1] ?? "";
  const formats = [...styles.matchAll(/<xf [^>]*?(?:\/>|>.*?<\/xf>)/gs)].map(([format]) => format);
  return new Set(formats.flatMap((format, index) => (format.includes('locked="0"') ? [index] : [])));
}
