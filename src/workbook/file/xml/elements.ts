import { XmlPart } from "./xml";

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

/** The root of a part with the elements down to a depth, each with its place in the text. */
export function elementsIn(partName: string, text: string, depth: number): Element {
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
  if (!root) throw part.broken("it has no element");
  return root;
}
