import { applyEdits, type Edit } from "../file/write/edits";
import { elementsIn, type Element } from "../file/xml/elements";
import { encodeText } from "../file/xml/text";

/**
 * The document's properties with a sheet more in their list of what the workbook holds (ECMA-376 part 1, 22.2.2.9 and 22.2.2.26), behind the
 * other sheets; unchanged where there is no such list, or none that fits the workbook's sheets.
 */
export function withSheetTitle(partName: string, text: string, sheetName: string, present: readonly string[]): string {
  const root = elementsIn(partName, text, 6);
  const child = (of: Element | undefined, name: string): Element | undefined =>
    of?.children.find((one) => one.name === name);
  const pairs = child(child(root, "HeadingPairs"), "vector");
  const titles = child(child(root, "TitlesOfParts"), "vector");
  // Sheets are the first group that Excel lists: its name, which is in the user's language, then how many there are.
  const [count] = pairs?.children[1]?.children ?? [];
  const last = titles?.children[present.length - 1];
  if (!count || !titles || !last) return text;
  const words = (element: Element): string => text.slice(element.openEnd, element.closeStart);
  const listed = titles.children.slice(0, present.length).map(words);
  if (
    words(count) !== String(present.length) ||
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
