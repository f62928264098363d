import { Archive } from "./archive";
import { readRelationships } from "./sheet/relationships";
import type { XmlReader } from "./xml/xml";

/** What a workbook calls itself and says it is about (ECMA-376 part 2, 11.1); "" where it does not say. */
export function readProperties(bytes: Uint8Array): { readonly title: string; readonly subject: string } {
  const archive = new Archive(bytes);
  const part = readRelationships(archive, "").find(({ kind }) => kind === "core-properties")?.target;
  const found = { title: "", subject: "" };
  if (part === undefined || !archive.findEntry(part)) return found;
  let current: "title" | "subject" | undefined;
  const reader: XmlReader = {
    open(name, _, xml) {
      if (name !== "title" && name !== "subject") return;
      current = name;
      xml.wantText();
    },
    addText(text) {
      if (current) found[current] += text;
    },
    close() {
      current = undefined;
    },
  };
  archive.read(part, reader);
  return found;
}
