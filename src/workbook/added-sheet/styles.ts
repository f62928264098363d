import { applyEdits, type Edit } from "../file/write/cell-edits";
import { type Element, readElements } from "../file/xml/xml";
import { palette, typeface } from "../palette";

/** The styles of an added sheet's cells, in the order in which they are added to the workbook's. */
export const looks = [
  "title",
  "note",
  "label",
  "text",
  "code",
  "heading",
  "headingRight",
  "headingCount",
  "entry",
  "entryApart",
  "formula",
  "value",
  "count",
  "input",
] as const;
export type Look = (typeof looks)[number];

interface LookParts {
  readonly font: number;
  readonly border: number;
  readonly fill: number;
  readonly alignment: string;
  /** Text starting with "=" stays text when the cell is edited. */
  readonly quoted?: true;
}

const fonts = [
  writeFont(16, palette.petrol, "b"),
  writeFont(10, palette.grey),
  writeFont(10, palette.ink, "b"),
  writeFont(10, palette.ink),
  writeFont(10, palette.ink, "", "Courier New"),
  writeFont(10, palette.white, "b"),
  writeFont(10, palette.fail, "b"),
];
const fills = [palette.petrol, palette.input].map(
  (colour) =>
    `<fill><patternFill patternType="solid"><fgColor rgb="FF${colour}"/><bgColor indexed="64"/></patternFill></fill>`,
);
const borders = [palette.rule, palette.inputEdge].map(
  (colour) =>
    `<border><left/><right/><top/><bottom style="hair"><color rgb="FF${colour}"/></bottom><diagonal/></border>`,
);

const none = -1;
const parts: Readonly<Record<Look, LookParts>> = {
  title: { font: 0, border: none, fill: none, alignment: 'vertical="center"' },
  note: { font: 1, border: none, fill: none, alignment: 'vertical="top" wrapText="1"' },
  label: { font: 2, border: none, fill: none, alignment: 'vertical="top"' },
  text: { font: 3, border: none, fill: none, alignment: 'vertical="top" wrapText="1"' },
  code: { font: 4, border: none, fill: none, alignment: 'vertical="top" wrapText="1"' },
  heading: { font: 5, border: none, fill: 0, alignment: 'vertical="center" wrapText="1"' },
  headingRight: { font: 5, border: none, fill: 0, alignment: 'horizontal="right" vertical="center"' },
  headingCount: { font: 5, border: none, fill: 0, alignment: 'horizontal="right" vertical="center" indent="1"' },
  entry: { font: 3, border: 0, fill: none, alignment: 'vertical="top" wrapText="1"' },
  entryApart: { font: 6, border: 0, fill: none, alignment: 'vertical="top" wrapText="1"' },
  formula: { font: 4, border: 0, fill: none, alignment: 'vertical="top" wrapText="1"', quoted: true },
  value: { font: 3, border: 0, fill: none, alignment: 'horizontal="right" vertical="top" wrapText="1"' },
  count: { font: 3, border: 0, fill: none, alignment: 'horizontal="right" vertical="top" indent="1"' },
  input: { font: 3, border: 1, fill: 1, alignment: 'horizontal="left" vertical="top" wrapText="1"' },
};

/** A workbook's styles with these appended, its own unchanged; `style` is the index of each. */
export function withAddedStyles(
  partName: string,
  text: string,
): { readonly text: string; readonly style: (look: Look) => number } {
  const root = readElements(partName, text, 3);
  const prefix = root.tagName.slice(0, root.tagName.indexOf(":") + 1);
  const edits: Edit[] = [];
  const append = (name: string, entries: readonly string[]): number => {
    const added = add(
      root,
      text,
      name,
      entries.map((entry) => prefixTags(entry, prefix)),
      prefix,
    );
    edits.push(...added.edits);
    return added.first;
  };
  const firstFont = append("fonts", fonts);
  const firstFill = append("fills", fills);
  const firstBorder = append("borders", borders);
  const formats = looks.map((look) => {
    const { font: own, fill, border, alignment, quoted } = parts[look];
    const fillId = fill < 0 ? 0 : firstFill + fill;
    const borderId = border < 0 ? 0 : firstBorder + border;
    const quote = quoted ? ' quotePrefix="1"' : "";
    return (
      `<xf numFmtId="0" fontId="${firstFont + own}" fillId="${fillId}" borderId="${borderId}" xfId="0"${quote} applyFont="1" ` +
      `applyFill="1" applyBorder="1" applyAlignment="1"><alignment ${alignment}/></xf>`
    );
  });
  const first = append("cellXfs", formats);
  return { text: applyEdits(text, edits), style: (look) => first + looks.indexOf(look) };
}

/** The order of a style sheet's parts (ECMA-376 part 1, 18.8.39). */
const order = ["numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs"];

/** What each collection starts with if the workbook has none (18.8.20: two fills are set by the format). */
const own: Readonly<Record<string, readonly string[]>> = {
  fonts: [writeFont(11, palette.ink)],
  fills: ['<fill><patternFill patternType="none"/></fill>', '<fill><patternFill patternType="gray125"/></fill>'],
  borders: ["<border><left/><right/><top/><bottom/><diagonal/></border>"],
  cellXfs: ['<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>'],
};

function add(
  root: Element,
  text: string,
  name: string,
  entries: readonly string[],
  prefix: string,
): { edits: Edit[]; first: number } {
  const collection = root.children.find((child) => child.name === name);
  const content = entries.join("");
  if (!collection) {
    const before = (own[name] ?? []).map((entry) => prefixTags(entry, prefix));
    const count = before.length + entries.length;
    const later = root.children.find(
      (child) => !order.includes(child.name) || order.indexOf(child.name) > order.indexOf(name),
    );
    const at = later?.start ?? root.closeStart;
    const whole = `<${prefix}${name} count="${count}">${before.join("")}${content}</${prefix}${name}>`;
    return { edits: [{ start: at, end: at, text: whole }], first: before.length };
  }
  const { start, openEnd, closeStart, end, tagName, children } = collection;
  const count = children.length + entries.length;
  const tag = text.slice(start, openEnd).replace(/\scount="\d+"/, ` count="${count}"`);
  if (closeStart === end) {
    const opened = tag.replace(/\s*\/>$/, ">");
    return { edits: [{ start, end, text: `${opened}${content}</${tagName}>` }], first: children.length };
  }
  const edits = [
    { start, end: openEnd, text: tag },
    { start: closeStart, end: closeStart, text: content },
  ];
  return { edits, first: children.length };
}

function writeFont(size: number, colour: string, bold: "b" | "" = "", name: string = typeface): string {
  const weight = bold === "" ? "" : "<b/>";
  return `<font>${weight}<sz val="${size}"/><color rgb="FF${colour}"/><name val="${name}"/><family val="${name === typeface ? 2 : 3}"/></font>`;
}

const prefixTags = (xml: string, prefix: string): string =>
  prefix === "" ? xml : xml.replace(/<(\/?)(?=[a-zA-Z])/g, `<$1${prefix}`);
