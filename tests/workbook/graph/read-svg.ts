import { SaxesParser } from "saxes";

/** An element of a drawing as a reader of XML finds it. */
export interface Drawn {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  text: string;
  readonly children: Drawn[];
}

/** Parses a drawing strictly; throws where it is not well-formed XML. */
export function readSvg(svg: string): Drawn {
  const parser = new SaxesParser({ xmlns: true });
  const root: Drawn = { name: "", attributes: {}, text: "", children: [] };
  const open = [root];
  parser.on("error", (problem) => {
    throw problem;
  });
  parser.on("opentag", ({ name, attributes }) => {
    const plain = Object.fromEntries(Object.entries(attributes).map(([key, { value }]) => [key, value]));
    const element: Drawn = { name, attributes: plain, text: "", children: [] };
    open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on("text", (text) => {
    const last = open.at(-1);
    if (last) last.text += text;
  });
  parser.on("closetag", () => void open.pop());
  parser.write(svg).close();
  const [svgElement] = root.children;
  if (!svgElement) throw new Error("no element");
  return svgElement;
}

/** All elements of a name, however deep. */
export function all(element: Drawn, name: string): Drawn[] {
  return [...(element.name === name ? [element] : []), ...element.children.flatMap((child) => all(child, name))];
}

export const numberOf = (element: Drawn, name: string): number => Number(element.attributes[name]);

/** The readings' marks with what they say, and where their middle is. */
export function marksOf(svg: Drawn): { says: string; x: number; y: number; filled: boolean }[] {
  return [...all(svg, "circle"), ...all(svg, "path")].flatMap((shape) => {
    const says = shape.children.find(({ name }) => name === "title")?.text;
    if (says === undefined) return [];
    const filled = shape.attributes["fill"] !== "#FFFFFF";
    if (shape.name === "circle") return [{ says, x: numberOf(shape, "cx"), y: numberOf(shape, "cy"), filled }];
    const corners = [...(shape.attributes["d"] ?? "").matchAll(/[ML](\S+) ([^MLZ]+)/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    const middle = (axis: 0 | 1) => {
      const places = corners.map((corner) => corner[axis] ?? NaN);
      return (Math.min(...places) + Math.max(...places)) / 2;
    };
    return [{ says, x: middle(0), y: middle(1), filled }];
  });
}

/** Words that a person reads; the white edges below some of them are left out. */
export function wordsOf(svg: Drawn): Drawn[] {
  return all(svg, "text").filter(({ attributes }) => attributes["stroke"] === undefined);
}
