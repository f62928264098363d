import { onSheet } from "../blocks/address";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native, palette, style } from "../blocks/style";
import { houseFacts } from "./cover";
import { outlineCorners } from "./envelope";
import { instrumentCells } from "./firm";
import { sheets, sheetOf } from "./layout";
import { preparationPlaces } from "./preparation";
import { runCellsTyped } from "./readings";
import { roomTable } from "./rooms";

/** A block of cells that the example fills and a new job types anew. */
interface Block {
  readonly label: string;
  readonly sheet: string;
  /** Ranges of numbers, and ranges of texts. */
  readonly numbers?: readonly string[];
  readonly texts?: readonly string[];
  /** Readings and rooms make the result; the others make the report. */
  readonly kind: "house" | "result" | "report";
}

const runs = (["depressurization", "pressurization"] as const).flatMap((direction) =>
  ([1, 2] as const).map((run) => sheetOf(direction, run)),
);

const { first, last } = roomTable;

const blocks: readonly Block[] = [
  { label: "House", sheet: sheets.cover, texts: houseFacts, kind: "house" },
  { label: "Rooms", sheet: sheets.rooms, numbers: [`D${first}:E${last}`, `G${first}:G${last}`], kind: "result" },
  { label: "Outlines", sheet: sheets.rooms, numbers: outlineCorners, kind: "result" },
  ...runs.flatMap((sheet): Block[] => [
    { label: "Readings", sheet, numbers: runCellsTyped.readings, kind: "result" },
    { label: "Baseline readings", sheet, numbers: runCellsTyped.baselines, kind: "result" },
  ]),
  { label: "Sealing list", sheet: sheets.preparation, texts: [preparationPlaces.sealingList], kind: "report" },
  {
    label: "Instruments",
    sheet: sheets.firm,
    texts: [instrumentCells.words],
    numbers: [instrumentCells.days],
    kind: "report",
  },
];

const columns = { block: "H", range: "I", example: "J", now: "K", state: "L" } as const;
const at = 5;
const rows = { first: at + 2, last: at + 1 + blocks.length } as const;
const left = { result: rows.last + 1, report: rows.last + 2 } as const;
const examples = "the example's";

/** Columns that the table takes beside the page, the distance to it included; widths in characters. */
export const exampleWidths = [3, 18, 42, 18, 18, 15];

/**
 * Whoever types a new house over the example and forgets a sheet would get a verdict on someone else's readings. Each block has a check figure, that of the
 * example and that of the cells as they are: every number times its row and its column, summed; of a text its length and the place of its first "e".
 */
export function writeExample(sheet: Sheet, pages: readonly Sheet[]): Readonly<Record<string, string>> {
  const [start, end] = [columns.block, columns.state];
  writeHeading(sheet, at, [start, end], "Readings of the example (not printed)");
  writeColumnHeads(sheet, at + 1, start, ["<block", "<cells", "example", "now", "<<status"]);
  blocks.forEach((block, index) => {
    const row = rows.first + index;
    const ranges = [...(block.texts ?? []), ...(block.numbers ?? [])].map((range) => onSheet(block.sheet, range));
    const page = pages.find(({ name }) => name === block.sheet);
    if (!page) throw new Error(`no sheet ${block.sheet}`);
    const figure = figureOf(page, block);
    sheet.put(`${columns.block}${row}`, block.label, looks.label);
    sheet.put(`${columns.range}${row}`, ranges.join(", ").replaceAll("$", ""), looks.unit);
    sheet.put(`${columns.example}${row}`, figure === null ? null : Number(figure.toFixed(3)), native("0.000"));
    sheet.formula(`${columns.now}${row}`, figureFormula(block), native("0.000"));
    const same = `ABS(${columns.now}${row}-${columns.example}${row})<0.001`;
    const state = figure === null ? '"other"' : `IF(IFERROR(${same},FALSE),"${examples}","other")`;
    sheet.formula(
      `${columns.state}${row}`,
      `IF(COUNTA(${ranges.join(",")})=0,"blank",${state})`,
      native(undefined, "left"),
    );
  });
  for (const kind of ["result", "report"] as const) {
    const row = left[kind];
    const words = kind === "result" ? "Example’s rooms or readings on" : "Example’s lists on";
    sheet.put(`${columns.block}${row}`, words, looks.strong);
    sheet.formula(`${columns.range}${row}`, sheetsLeft(kind), style({ bold: true, align: "left" }, native()));
    sheet.paint(`${columns.block}${row}:${columns.state}${row}`, looks.label);
  }
  sheet.put(
    `${columns.block}${left.report + 1}`,
    "As long as name, address, client and report number are the example’s, anything may be tried out. For any other house, rooms or readings left over from the example keep the verdict open.",
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
  const there = (range: string) => onSheet(sheets.method, range);
  return {
    ExampleReadings: there(`${start}${rows.first}:${end}${rows.last}`),
    ExampleSheets: there(`${columns.range}${left.result}`),
    ExampleLists: there(`${columns.range}${left.report}`),
  };
}

/** A formula: the sheets with blocks of the example; blank while the house is the example's too. */
function sheetsLeft(kind: Block["kind"]): string {
  const state = (index: number) => `$${columns.state}$${rows.first + index}`;
  const own = blocks.map((block, index) => ({ ...block, index })).filter((block) => block.kind === kind);
  const names = [...new Set(own.map(({ sheet }) => sheet))];
  const found = names.map((name) => {
    const isLeft = own.filter(({ sheet }) => sheet === name).map(({ index }) => `${state(index)}="${examples}"`);
    return `IF(OR(${isLeft.join(",")}),", ${name}","")`;
  });
  return `IF(${state(0)}="${examples}","",MID(${found.join("&")},3,200))`;
}

/** The check figure of a block as it is typed, as a formula; the first letter "e" is looked for in a text that surely has one. */
function figureFormula({ sheet, numbers = [], texts = [] }: Block): string {
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
function figureOf(page: Sheet, { numbers = [], texts = [] }: Block): number | null {
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
