import { SaxesParser, type SaxesTagPlain } from "saxes";
import { limits } from "../limits";
import { sentence, shorten, WorkbookProblem } from "../problem";

/** Elements of cells, texts, lists of values and styles, of which a valid part may have as many as cells. */
const ofCells = new Set(
  "row c v f is si t r rPr rFont b i u strike outline shadow condense extend sz color family charset scheme vertAlign rPh phoneticPr rv bk rc pt".split(
    " ",
  ),
);

/** Counts the elements of one part, since each costs time, and those outside cells are kept in memory. */
export class ElementCount {
  private all = 0;
  private readonly others = new Map<string, number>();

  /** What exceeds a limit, or undefined. */
  describeExcess(name: string): string | undefined {
    if (++this.all > limits.elements) return `more than ${limits.elements} elements`;
    if (ofCells.has(name)) return undefined;
    const count = (this.others.get(name) ?? 0) + 1;
    if (count > limits.records) return `more than ${limits.records} elements <${name}>`;
    // Endless names would exhaust memory just as endless elements would.
    if (this.others.size >= limits.records) return `elements of more than ${limits.records} names`;
    this.others.set(name, count);
    return undefined;
  }
}

/** The callbacks of a part's reader; names come without their namespace prefix. */
export interface XmlReader {
  open(name: string, attributes: Record<string, string>, part: XmlPart): void;
  close(name: string, part: XmlPart): void;
  /** Called after each attribute's closing quote, before `open` of its element; `end` is the index behind the quote. */
  noteAttributeEnd?(name: string, end: number): void;
  /** Text comes only between `part.wantText()` and `part.noText()`, so that blank space between cells costs nothing. */
  addText?(text: string): void;
}

/** Passes one part to two readers. */
export function combineReaders(one: XmlReader, other: XmlReader): XmlReader {
  return {
    open(name, attributes, part) {
      one.open(name, attributes, part);
      other.open(name, attributes, part);
    },
    addText(text) {
      one.addText?.(text);
      other.addText?.(text);
    },
    close(name, part) {
      one.close(name, part);
      other.close(name, part);
    },
  };
}

/** Few bytes are decoded and few characters parsed at a time: an endless text is noticed early, and small strings are cheaper to make. */
const mostAtATime = 65_536;

/**
 * Parses one XML part that arrives in pieces of bytes. A document type is refused, because it could define entities or pull in other
 * files, and no part of a workbook may have one (ECMA-376 part 2).
 */
export class XmlPart {
  readonly parser: SaxesParser;
  private decoder: TextDecoder | undefined;
  private depth = 0;
  private attributeCount = 0;
  private readonly elements = new ElementCount();
  private written = 0;
  /** Where the last tag or attribute ended. */
  private lastTag = 0;
  private readonly takeText = (text: string): void => this.reader.addText?.(text);

  constructor(
    readonly partName: string,
    private readonly reader: XmlReader,
    /** The root element that the part must have. */
    root?: string,
  ) {
    this.parser = new SaxesParser();
    this.parser.on("doctype", () => this.refuseDocumentType());
    this.parser.on("xmldecl", (declaration) => refuseOddEncoding(partName, declaration.encoding));
    this.parser.on("attribute", ({ name }) => {
      this.lastTag = this.parser.position;
      reader.noteAttributeEnd?.(name, this.lastTag);
      if (++this.attributeCount > limits.attributes)
        throw this.reportBroken(`an element has more than ${limits.attributes} attributes`);
    });
    this.parser.on("opentag", (tag: SaxesTagPlain) => {
      this.attributeCount = 0;
      this.lastTag = this.parser.position;
      const name = stripPrefix(tag.name);
      const excess = this.elements.describeExcess(name);
      if (excess !== undefined) throw this.reportTooLarge(excess);
      if (this.depth === 0 && root !== undefined && name !== root)
        throw this.reportBroken(sentence`its root element is <${tag.name}> where <${root}> is expected`);
      if (++this.depth > limits.depth) throw this.reportBroken(`elements are nested more than ${limits.depth} deep`);
      reader.open(name, tag.attributes, this);
    });
    this.parser.on("closetag", (tag: SaxesTagPlain) => {
      this.depth--;
      this.lastTag = this.parser.position;
      reader.close(stripPrefix(tag.name), this);
    });
  }

  wantText(): void {
    this.parser.on("text", this.takeText);
    this.parser.on("cdata", this.takeText);
  }

  ignoreText(): void {
    this.parser.off("text");
    this.parser.off("cdata");
  }

  /** Feeds the next bytes; the first piece decides between UTF-8 and UTF-16, the only encodings allowed in a part. */
  feedPiece(piece: Uint8Array): void {
    this.decoder ??= new TextDecoder(detectEncoding(piece), { fatal: true, ignoreBOM: true });
    for (let at = 0; at < piece.length; at += mostAtATime)
      this.write(this.decodePiece(this.decoder, piece.subarray(at, at + mostAtATime)));
  }

  /** Feeds the whole text at once, so that the parser's positions are indexes into it. */
  parse(text: string): void {
    this.write(text);
    this.runGuarded(() => this.parser.close());
  }

  end(): void {
    if (this.decoder) this.write(this.decodePiece(this.decoder));
    this.runGuarded(() => this.parser.close());
  }

  reportBroken(what: string): WorkbookProblem {
    return new WorkbookProblem(
      "broken XML",
      `${shorten(this.partName)} cannot be read at line ${this.parser.line}: ${what}`,
    );
  }

  private reportTooLarge(excess: string): WorkbookProblem {
    return new WorkbookProblem("too large", sentence`${this.partName} holds ${excess}, at line ${this.parser.line}`);
  }

  private decodePiece(decoder: TextDecoder, piece?: Uint8Array): string {
    try {
      return decoder.decode(piece, { stream: piece !== undefined });
    } catch {
      throw this.reportBroken("its bytes are not valid UTF-8 or UTF-16 text");
    }
  }

  private write(text: string): void {
    for (let at = 0; at < text.length; at += mostAtATime) {
      const piece = text.slice(at, at + mostAtATime);
      this.runGuarded(() => this.parser.write(piece));
      this.written += piece.length;
      if (this.written - this.lastTag > limits.betweenTags) {
        throw this.reportTooLarge(`more than ${limits.betweenTags} characters without a tag`);
      }
    }
  }

  private refuseDocumentType(): never {
    throw new WorkbookProblem(
      "document type",
      sentence`${this.partName} contains a document type (DOCTYPE), whose entities could pull in other files; it is refused`,
    );
  }

  private runGuarded(work: () => void): void {
    try {
      work();
    } catch (problem) {
      // The parser's own errors are plain Errors; anything else is not a fault of the XML.
      if (!(problem instanceof Error) || problem.constructor !== Error) throw problem;
      const what = problem.message.replace(/^\d+:\d+: /, "");
      throw new WorkbookProblem(
        "broken XML",
        sentence`${this.partName} is broken XML at line ${this.parser.line}, column ${this.parser.columnIndex}: ${what}`,
      );
    }
  }
}

/** The encoding by its byte order mark, UTF-8 without one. */
export function detectEncoding(bytes: Uint8Array): "utf-8" | "utf-16le" | "utf-16be" {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  return "utf-8";
}

function stripPrefix(name: string): string {
  const colon = name.indexOf(":");
  return colon < 0 ? name : name.slice(colon + 1);
}

/** An attribute by its name without prefix, for the few that have one (r:id). */
export function findPrefixedAttribute(attributes: Record<string, string>, name: string): string | undefined {
  for (const key in attributes) if (key.includes(":") && stripPrefix(key) === name) return attributes[key];
  return undefined;
}

/** xsd:boolean; absent is `otherwise`. */
export function parseBoolean(text: string | undefined, otherwise = false): boolean {
  return text === undefined ? otherwise : text === "1" || text === "true" || text === "on";
}

function refuseOddEncoding(partName: string, encoding: string | undefined): void {
  if (encoding !== undefined && !/^(utf-?8|utf-?16(le|be)?|us-ascii)$/i.test(encoding)) {
    throw new WorkbookProblem(
      "broken XML",
      sentence`${partName} declares the encoding ${encoding}; parts must be UTF-8 or UTF-16`,
    );
  }
}

/** An element of a part's text: where it starts, where its start tag ends, where its end tag starts, where it ends. */
export interface Element {
  readonly name: string;
  /** With its prefix. */
  readonly tagName: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly start: number;
  readonly openEnd: number;
  /** The same as `end` for an empty element (<sheets/>). */
  readonly closeStart: number;
  readonly end: number;
  readonly children: Element[];
}

/** The root of a part with its elements to a given depth, each with its position in the text. */
export function readElements(partName: string, text: string, depth: number): Element {
  const open: { -readonly [Key in keyof Element]: Element[Key] }[] = [];
  let root: Element | undefined;
  let level = 0;
  const part: XmlPart = new XmlPart(partName, {
    open(name, attributes) {
      level += 1;
      if (level > depth) return;
      const openEnd = part.parser.position;
      const start = text.lastIndexOf("<", openEnd - 1);
      const tagName = /^<([^\s/>]+)/.exec(text.slice(start, start + 200))?.[1] ?? name;
      open.push({ name, tagName, attributes, start, openEnd, closeStart: 0, end: 0, children: [] });
    },
    close() {
      level -= 1;
      if (level >= depth) return;
      const element = open.pop();
      if (!element) return;
      element.end = part.parser.position;
      const isEmpty = element.end === element.openEnd;
      element.closeStart = isEmpty ? element.end : text.lastIndexOf("<", element.end - 1);
      const parent = open.at(-1);
      if (parent) parent.children.push(element);
      else root = element;
    },
  });
  part.parse(text);
  if (!root) throw part.reportBroken("it has no element");
  return root;
}
