import { partKey, readDirectory, type ZipDirectory, type ZipEntry } from "./zip/directory";
import { limits, formatMegabytes } from "./limits";
import { sentence, WorkbookProblem } from "./problem";
import { unpack, unpackWhole } from "./zip/unpack";
import { XmlPart, type XmlReader } from "./xml/xml";

/** Starting a parser takes as long as parsing about this many bytes. */
const bytesOfParser = 4096;

/** The parts of an opened file, by name; unpacked only on demand. */
export class Archive {
  readonly directory: ZipDirectory;
  /** Bytes of the parsed parts, counted each time. */
  private parsed = 0;
  private readonly byKey = new Map<string, ZipEntry>();

  constructor(
    readonly bytes: Uint8Array,
    private readonly mostParsed: number = limits.parsed,
  ) {
    this.directory = readDirectory(bytes);
    for (const entry of this.directory.entries) this.byKey.set(partKey(entry.name), entry);
  }

  findEntry(name: string): ZipEntry | undefined {
    return this.byKey.get(partKey(name));
  }

  /** A part's bytes; a missing part is a problem. */
  readContent(name: string): Uint8Array {
    return unpackWhole(this.bytes, this.requireEntry(name));
  }

  /** Streams a part through the XML parser; a different root element from the given one is a problem. */
  read(name: string, reader: XmlReader, root?: string): void {
    const entry = this.requireEntry(name);
    this.parsed += entry.size + bytesOfParser;
    if (this.parsed > this.mostParsed) {
      throw new WorkbookProblem(
        "too large",
        `the parts of the file come to more than ${formatMegabytes(this.mostParsed)}, each counted as often as it is linked`,
      );
    }
    const part = new XmlPart(entry.name, reader, root);
    unpack(this.bytes, entry, (piece) => part.feedPiece(piece));
    part.end();
  }

  private requireEntry(name: string): ZipEntry {
    const entry = this.findEntry(name);
    if (!entry) throw new WorkbookProblem("damaged", sentence`the part ${name} is missing from the file`);
    return entry;
  }
}
