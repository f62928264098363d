import { onSheet } from "./address";
import { writeColumnHeads, writeHeading } from "./heading";
import type { Sheet } from "./sheet";
import { looks, native, palette, style } from "./style";

/** A block of cells that the example fills and a new job types anew. */
export interface ExampleBlock {
  readonly label: string;
  readonly sheet: string;
  /** Ranges of numbers, and ranges of texts. */
  readonly numbers?: readonly string[];
  readonly texts?: readonly string[];
  /** Readings and sizes make the result; the others make the report. The house comes first. */
  readonly kind: "house" | "result" | "report";
}

const columns = { block: "H", range: "I", example: "J", now: "K", state: "L" } as const;
const at = 5;
const examples = "the example's";

/** Columns from G on that the table takes beside the page, the distance to it included; widths in characters. */
export const exampleWidths = [3, 18, 42, 18, 18, 15];

/** Of fewer numbers, such as ten baseline readings, half may agree by chance. */
const fewNumbers = 20;

/** More numbers would not fit into a formula. */
const mostCompared = 200;

/**
 * Whoever types a new house over the example and forgets a sheet would get a result from someone else's readings. Numbers are compared one by one, and half
 * of them are enough, or most of a few. Texts and long blocks have a check figure, that of the example and that of the cells as they are: every number times its row and its
 * column, summed; of a text its length and the place of its first "e". So no text of the example goes out with a blank form.
 */
export function writeExample(
  sheet: Sheet,
  blocks: readonly ExampleBlock[],
  pages: readonly Sheet[],
): Readonly<Record<string, string>> {
  const [start, end] = [columns.block, columns.state];
  const rows = { first: at + 2, last: at + 1 + blocks.length } as const;
  const left = { result: rows.last + 1, report: rows.last + 2 } as const;
  writeHeading(sheet, at, [start, end], "Readings of the example (not printed)");
  writeColumnHeads(sheet, at + 1, start, ["<block", "<cells", "example", "now", "<<status"]);
  blocks.forEach((block, index) => {
    const row = rows.first + index;
    const ranges = [...(block.texts ?? []), ...(block.numbers ?? [])].map((range) => onSheet(block.sheet, range));
    const page = pages.find(({ name }) => name === block.sheet);
    if (!page) throw new Error(`no sheet ${block.sheet}`);
    const { example, now, isLeft } = compareBlock(page, block, row);
    const format = native(Number.isInteger(example ?? 0) ? "0" : "0.000");
    sheet.put(`${columns.block}${row}`, block.label, looks.label);
    sheet.put(`${columns.range}${row}`, ranges.join(", ").replaceAll("$", ""), looks.unit);
    sheet.put(`${columns.example}${row}`, example, format).formula(`${columns.now}${row}`, now, format);
    const state = example === null ? '"other"' : `IF(IFERROR(${isLeft},FALSE),"${examples}","other")`;
    sheet.formula(
      `${columns.state}${row}`,
      `IF(COUNTA(${ranges.join(",")})=0,"blank",${state})`,
      native(undefined, "left"),
    );
  });
  for (const kind of ["result", "report"] as const) {
    const row = left[kind];
    const words = kind === "result" ? "Example’s sizes or readings on" : "Example’s lists on";
    sheet.put(`${columns.block}${row}`, words, looks.strong);
    sheet.formula(
      `${columns.range}${row}`,
      sheetsLeft(blocks, kind, rows.first),
      style({ bold: true, align: "left" }, native()),
    );
    sheet.paint(`${columns.block}${row}:${columns.state}${row}`, looks.label);
  }
  sheet.put(
    `${columns.block}${left.report + 1}`,
    "As long as the house is the example’s, anything may be tried out. For any other house, sizes or readings left over from the example are pointed out; half of a block are enough.",
    looks.note,
  );
  sheet.merge(`${columns.block}${left.report + 1}:${columns.state}${left.report + 1}`);
  const states = `${columns.state}${rows.first}:${columns.state}${rows.last}`;
  sheet.when(
    states,
    `AND($${columns.state}$${rows.first}<>"${examples}",${columns.state}${rows.first}="${examples}")`,
    {
      font: { bold: true, color: { rgb: palette.fail } },
    },
  );
  const there = (range: string) => onSheet(sheet.name, range);
  return {
    ExampleReadings: there(`${start}${rows.first}:${end}${rows.last}`),
    ExampleSheets: there(`${columns.range}${left.result}`),
    ExampleLists: there(`${columns.range}${left.report}`),
  };
}

/** A formula: the sheets with blocks of the example; blank while the house is the example's too. */
function sheetsLeft(blocks: readonly ExampleBlock[], kind: ExampleBlock["kind"], first: number): string {
  const state = (index: number) => `$${columns.state}$${first + index}`;
  const own = blocks.map((block, index) => ({ ...block, index })).filter((block) => block.kind === kind);
  const names = [...new Set(own.map(({ sheet }) => sheet))];
  if (names.length === 0) return '""';
  const found = names.map((name) => {
    const isLeft = own.filter(({ sheet }) => sheet === name).map(({ index }) => `${state(index)}="${examples}"`);
    return `IF(OR(${isLeft.join(",")}),", ${name}","")`;
  });
  return `IF(${state(0)}="${examples}","",MID(${found.join("&")},3,200))`;
}

interface Comparison {
  /** The figure of the example as typed; null where it types nothing. */
  readonly example: number | null;
  /** The same of the cells as they are, a formula. */
  readonly now: string;
  /** Whether the cells are the example's, a formula. */
  readonly isLeft: string;
}

function compareBlock(page: Sheet, block: ExampleBlock, row: number): Comparison {
  const [now, example] = [`${columns.now}${row}`, `${columns.example}${row}`];
  const ranges = block.numbers ?? [];
  // A zero says nothing: every outline has a corner there.
  const count = ranges.flatMap((range) => page.typedIn(range)).filter(({ value }) => isTelling(value)).length;
  if (block.texts || count > mostCompared) {
    const figure = figureOf(page, block);
    return {
      example: figure === null ? null : Number(figure.toFixed(3)),
      now: figureFormula(block),
      isLeft: `ABS(${now}-${example})<0.001`,
    };
  }
  const equal = ranges.map((range) => `SUMPRODUCT(--(${onSheet(block.sheet, range)}=${constantOf(page, range)}))`);
  return {
    example: count === 0 ? null : count,
    now: equal.join("+"),
    isLeft: `${now}>=${Math.ceil(count * (count < fewNumbers ? 0.8 : 0.5))}`,
  };
}

const isTelling = (value: string | number | null): value is number => typeof value === "number" && value !== 0;

/** What is typed in a range, as an array constant. */
function constantOf(page: Sheet, range: string): string {
  const rows = new Map<number, string[]>();
  for (const { row, value } of page.typedIn(range))
    rows.set(row, [...(rows.get(row) ?? []), isTelling(value) ? String(value) : '"–"']);
  return `{${[...rows.values()].map((values) => values.join(",")).join(";")}}`;
}

/** The check figure of a block as it is typed, as a formula; the first letter "e" is looked for in a text that surely has one. */
function figureFormula({ sheet, numbers = [], texts = [] }: ExampleBlock): string {
  const place = (range: string) => `ROW(${range})*COLUMN(${range})`;
  const ofNumbers = numbers
    .map((range) => onSheet(sheet, range))
    .map((range) => `SUMPRODUCT(${range},${place(range)})`);
  const ofTexts = texts
    .map((range) => onSheet(sheet, range))
    .map((range) => `SUMPRODUCT((LEN(${range})+SEARCH("e",${range}&"e"))*${place(range)})`);
  return [...ofTexts, ...ofNumbers].join("+");
}

/** The same of what a recipe types; null where it types nothing. */
function figureOf(page: Sheet, { numbers = [], texts = [] }: ExampleBlock): number | null {
  const [typedNumbers, typedTexts] = [numbers, texts].map((ranges) => ranges.flatMap((range) => page.typedIn(range)));
  const all = [...(typedNumbers ?? []), ...(typedTexts ?? [])];
  if (all.every(({ value }) => value === null)) return null;
  const sum = (typed: typeof all, figure: (value: string | number | null) => number) =>
    typed.reduce((total, { row, column, value }) => total + figure(value) * row * column, 0);
  return (
    sum(typedNumbers ?? [], (value) => (typeof value === "number" ? value : 0)) +
    sum(typedTexts ?? [], (value) => {
      const text = String(value ?? "");
      return text.length + `${text}e`.toLowerCase().indexOf("e") + 1;
    })
  );
}
