import type { Archive } from "../archive";
import { limits } from "../limits";
import { WorkbookProblem } from "../problem";
import { StringItem } from "../xml/text";
import type { XmlReader } from "../xml/xml";

/** The shared strings in order (ECMA-376 part 1, 18.4.9). */
export function readSharedStrings(archive: Archive, partName: string): string[] {
  const strings: string[] = [];
  const item = new StringItem();
  const reader: XmlReader = {
    open: (name, attributes, part) => item.open(name, attributes, part),
    text: (text) => item.text(text),
    close(name, part) {
      item.close(name, part);
      if (name !== "si") return;
      if (strings.length >= limits.strings) {
        throw new WorkbookProblem("too large", `the workbook has more than ${limits.strings} shared strings`);
      }
      strings.push(item.take());
    },
  };
  archive.read(partName, reader, "sst");
  return strings;
}
