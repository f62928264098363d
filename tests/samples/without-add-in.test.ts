import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { recipes } from "../../sample-workbooks/recipes";
import { type Book, type Cell, buildCellKey, ErrorValue, openWorkbook } from "../../src/workbook/index";
import { addressOf } from "../../sample-workbooks/blocks/address";
import { recomputedByLibreOffice } from "./libre-office";
import { holds, printAreaOf } from "./package";
import { partsOf } from "./parts";
import { slow } from "../time-outs";

const needs = "This workbook needs the Stillair add-in to calculate.";

/** What a cover calls a house, in capitals or not. */
const verdict = /^(pass|fail|not valid|not proven|open|likely|doubtful|(meets|probably|can go|misses) .*)$/i;

const files = recipes.flatMap(({ file }) => [file, `blank/${file}`]);
const stored = new Map(
  files.map((file) => [file, new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${file}`, import.meta.url)))]),
);
/** LibreOffice writes every file into one folder. */
const flat = (file: string) => file.replace("/", "-");

/** Formula cells on paper and in the summary beside it; the columns of charts hold #N/A in any program. */
function shownOnCover(bytes: Uint8Array, book: Book): readonly Cell[] {
  const printed = printAreaOf(partsOf(bytes).get("xl/workbook.xml") ?? "", 0).split(",");
  const summary = book.names.filter(({ name }) => name === "Summary").map(({ text }) => text);
  const name = book.sheets[0]?.name ?? "";
  const areas = [...printed, ...summary]
    .map((area) => area.replaceAll("$", "").split("!"))
    .flatMap(([sheet, range]) => (sheet === name && range ? [range] : []));
  return [...(book.sheets[0]?.cells.values() ?? [])].filter(
    ({ row, column, formula }) => formula && areas.some((area) => holds(area, addressOf(row, column))),
  );
}

describe.each(["all", "unasked"] as const)("where there is no add-in, with %s recomputed", (recomputes) => {
  let opened: Map<string, Uint8Array>;
  beforeAll(() => {
    opened = recomputedByLibreOffice(new Map([...stored].map(([file, bytes]) => [flat(file), bytes])), recomputes);
  }, slow);

  it.each(files)("the cover of %s says what it needs, once, and gives no verdict and no error", (file) => {
    const ours = stored.get(file) as Uint8Array;
    const cells = openWorkbook(opened.get(flat(file)) as Uint8Array).book.sheets[0]?.cells;
    const shown = shownOnCover(ours, openWorkbook(ours).book).map(({ row, column, value }) => ({
      address: addressOf(row, column),
      before: value,
      now: cells?.get(buildCellKey(row, column))?.value ?? "",
    }));
    expect(shown.length).toBeGreaterThan(10);
    expect(shown.filter(({ now }) => now === needs)).toHaveLength(1);
    const wrong = shown.filter(({ before, now }) => {
      if (now === "" || now === needs) return false;
      if (now instanceof ErrorValue || (typeof now === "string" && verdict.test(now))) return true;
      // LibreOffice writes fifteen digits.
      return typeof now === "number" ? Math.abs(now - Number(before)) > 1e-12 * Math.abs(now) : now !== before;
    });
    expect(wrong).toEqual([]);
  });
});

it("#N/A behind the chart of mid-construction’s cover, a gap in the chart, is not to be seen", () => {
  const xml = partsOf(stored.get("mid-construction.xlsx") as Uint8Array);
  const sheet = xml.get("xl/worksheets/sheet1.xml") ?? "";
  const [, range = "", look] =
    /<conditionalFormatting sqref="([A-Z]+\d+:[A-Z]+\d+)"><cfRule [^>]*dxfId="(\d+)"[^>]*><formula>ISNA\(/.exec(
      sheet,
    ) ?? [];
  const looks = [...(xml.get("xl/styles.xml") ?? "").matchAll(/<dxf>.*?<\/dxf>/gs)].map(([text]) => text);
  expect(looks[Number(look)]).toMatch(/<color rgb="FFFFFFFF"\/>/i);
  const { cells } = openWorkbook(stored.get("mid-construction.xlsx") as Uint8Array).book.sheets[0] ?? {
    cells: new Map<number, Cell>(),
  };
  const missing = [...cells.values()].filter(({ value }) => value instanceof ErrorValue);
  expect(missing.length).toBeGreaterThan(0);
  expect(missing.filter(({ row, column }) => !holds(range, addressOf(row, column)))).toEqual([]);
});
