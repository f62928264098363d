import { SaxesParser, type SaxesTagPlain } from "saxes";
import { limits } from "../limits";
import { WorkbookProblem } from "../problem";

/** What a reader of one part is told; names come without their namespace prefix. */
export interface XmlReader {
  open(name: string, attributes: Record<string, string>, part: XmlPart): void;
  close(name: string, part: XmlPart): void;
  /** Called after each attribute's closing quote, before `open` of its element; `end` is the index behind the quote. */
  attribute?(name: string, end: number): void;
  /** Text comes only between `part.wantText()` and `part.noText()`, so that blank space between cells costs nothing. */
  text?(text: string): void;
}

/**
 * Parses one XML part that arrives in pieces of bytes. A document type is refused, because it could define entities or pull in other
 * files, and no part of a workbook may have one (ECMA-376 part 2).
 */
export class XmlPart {
  readonly parser: SaxesParser;
  private decoder: TextDecoder | undefined;
  private depth = 0;
  private attributeCount = 0;
  private readonly takeText = (text: string): void => this.reader.text?.(text);

  constructor(
    readonly partName: string,
    private readonly reader: XmlReader,
  ) {
    this.parser = new SaxesParser();
    this.parser.on("doctype", () => this.refuseDocumentType());
    this.parser.on("xmldecl", (declaration) => refuseOddEncoding(partName, declaration.encoding));
    this.parser.on("attribute", ({ name }) => {
      reader.attribute?.(name, this.parser.position);
      if (++this.attributeCount > limits.attributes)
        throw this.broken(`an element has more than ${limits.attributes} attributes`);
    });
    this.parser.on("opentag", (tag: SaxesTagPlain) => {
      this.attributeCount = 0;
      if (++this.depth > limits.depth) throw this.broken(`elements are nested more than ${limits.depth} deep`);
      reader.open(localName(tag.name), tag.attributes, this);
    });
    this.parser.on("closetag", (tag: SaxesTagPlain) => {
      this.depth--;
      reader.close(localName(tag.name), this);
    });
  }

  wantText(): void {
    this.parser.on("text", this.takeText);
    this.parser.on("cdata", this.takeText);
  }

  noText(): void {
    this.parser.off("text");
    this.parser.off("cdata");
  }

  /** Feeds the next bytes; the first piece decides between UTF-8 and UTF-16, the only encodings that a part may have. */
  push(piece: Uint8Array): void {
    this.decoder ??= new TextDecoder(encodingOf(piece), { fatal: true, ignoreBOM: true });
    this.guarded(() => this.parser.write((this.decoder as TextDecoder).decode(piece, { stream: true })));
  }

  /** Feeds text as a whole, so that the parser's positions are indexes into it. */
  parse(text: string): void {
    this.guarded(() => this.parser.write(text).close());
  }

  end(): void {
    this.guarded(() => {
      if (this.decoder) this.parser.write(this.decoder.decode());
      this.parser.close();
    });
  }

  broken(what: string): WorkbookProblem {
    return new WorkbookProblem("broken XML", `${this.partName} cannot be read at line ${this.parser.line}: ${what}`);
  }

  private refuseDocumentType(): never {
    throw new WorkbookProblem(
      "document type",
      `${this.partName} contains a document type (DOCTYPE), through which entities could pull in other files; it is refused`,
    );
  }

  private guarded(work: () => void): void {
    try {
      work();
    } catch (problem) {
      if (problem instanceof WorkbookProblem) throw problem;
      if (problem instanceof TypeError) throw this.broken("its bytes are not valid UTF-8 or UTF-16 text");
      const what = problem instanceof Error ? problem.message.replace(/^\d+:\d+: /, "") : String(problem);
      throw new WorkbookProblem(
        "broken XML",
        `${this.partName} is broken XML at line ${this.parser.line}, column ${this.parser.columnIndex}: ${what}`,
      );
    }
  }
}

/** The encoding by its byte order mark, UTF-8 without one. */
export function encodingOf(bytes: Uint8Array): "utf-8" | "utf-16le" | "utf-16be" {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  return "utf-8";
}

function localName(name: string): string {
  const colon = name.indexOf(":");
  return colon < 0 ? name : name.slice(colon + 1);
}

/** An attribute by its name without prefix, for the few that carry one (r:id). */
export function prefixedAttribute(attributes: Record<string, string>, name: string): string | undefined {
  for (const key in attributes) if (key.includes(":") && localName(key) === name) return attributes[key];
  return undefined;
}

/** xsd:boolean; absent is `otherwise`. */
export function booleanAttribute(text: string | undefined, otherwise = false): boolean {
  return text === undefined ? otherwise : text === "1" || text === "true" || text === "on";
}

function refuseOddEncoding(partName: string, encoding: string | undefined): void {
  if (encoding !== undefined && !/^(utf-?8|utf-?16(le|be)?|us-ascii)$/i.test(encoding)) {
    throw new WorkbookProblem(
      "broken XML",
      `${partName} says that its encoding is ${encoding}; parts must be UTF-8 or UTF-16`,
    );
  }
}
