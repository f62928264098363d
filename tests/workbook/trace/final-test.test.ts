import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import metadata from "../../../src/functions/functions.json";
import {
  formatCellAddress,
  buildCellKey,
  evaluateBook,
  openWorkbook,
  parsePlace,
  traceOf,
  type AddInCall,
  type Sheet,
} from "../../../src/workbook/index";
import { expectInputs } from "./leaves";
import { slow } from "../../time-outs";

const folder = new URL("../../../sample-workbooks/", import.meta.url);
const { book } = openWorkbook(new Uint8Array(readFileSync(new URL("final-test.xlsx", folder))));
const addIn = addInRegistry();
const calls: AddInCall[] = [];
const evaluation = evaluateBook(book, { addIn, calls });
const trace = traceOf({ book, evaluation, addIn, calls, functions: metadata.functions });

/** Cells whose formula calls a function. */
const callsOf = (id: string) =>
  book.sheets.flatMap((sheet, index) =>
    [...sheet.cells.values()]
      .filter(({ formula }) => formula?.text.includes(`_xldudf_STILLAIR_${id}(`))
      .map((cell) => ({ sheet: index, cell })),
  );

/** Typed numbers of a range "$D$24:$D$35". */
function typedNumbers({ name, cells }: Sheet, range: string): string[] {
  const [first, last] = range.replaceAll("$", "").split(":").map(parsePlace);
  const found: string[] = [];
  for (let row = first?.row ?? 0; row <= (last?.row ?? -1); row += 1)
    for (let column = first?.column ?? 0; column <= (last?.column ?? -1); column += 1) {
      const cell = cells.get(buildCellKey(row, column));
      if (typeof cell?.value === "number" && !cell.formula)
        found.push(`${name.includes(" ") ? `'${name}'` : name}!${formatCellAddress(row, column)}`);
    }
  return found;
}

describe("the verdict of the final test", { timeout: slow }, () => {
  const [verdict] = callsOf("PASSFAIL");
  const traced = trace(verdict?.sheet ?? -1, verdict?.cell.row ?? -1, verdict?.cell.column ?? -1);

  it("rests on typed cells alone", () => {
    expect(traced.places[0]?.value).toBe("pass");
    expect(traced.inputs.length).toBeGreaterThan(200);
    expectInputs(book, traced);
  });

  it("reaches every reading of both directions: pressures, fan pressures, baselines before and after", () => {
    const inputs = new Set(traced.inputs);
    const directions = new Set<string>();
    for (const { sheet, cell } of callsOf("TESTRESULT")) {
      const page = book.sheets[sheet] as Sheet;
      const ranges = [...(cell.formula?.text ?? "").matchAll(/\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/g)].map(([range]) => range);
      const readings = new Set(
        ranges.filter((range) => !range.startsWith("$C")).flatMap((range) => typedNumbers(page, range)),
      );
      const rows = /\$D(\$\d+):\$D(\$\d+)/.exec(cell.formula?.text ?? "");
      const fan = typedNumbers(page, `F${rows?.[1] ?? ""}:F${rows?.[2] ?? ""}`);
      if (fan.length === 0) continue;
      directions.add(page.name.replace(/ \d$/, ""));
      expect(readings.size, page.name).toBeGreaterThanOrEqual(25);
      for (const reading of [...readings, ...fan]) expect(inputs.has(reading), reading).toBe(true);
    }
    expect([...directions].sort()).toEqual(["Depressurization", "Pressurization"]);
  });

  it("names the function, its equation and its source, and no place twice", () => {
    const [first] = traced.places;
    expect(first?.functions.map(({ id }) => id)).toEqual(["PASSFAIL"]);
    expect(first?.functions[0]?.equation).toContain("result ≤ target");
    expect(first?.functions[0]?.source).toContain("JCGM 106:2012");
    const table = traced.places.find(({ functions }) => functions.some(({ id }) => id === "TESTRESULT"));
    expect(table?.functions[0]?.equation).toContain("q = C·Δp^n");
    const places = traced.places.map(({ address, formula }) => `${address} ${formula ?? ""}`);
    expect(new Set(places).size).toBe(places.length);
  });

  it("leads a figure fetched from a table through the row of the table, with the row's own symbol and source", () => {
    const [test] = callsOf("TESTRESULT");
    const { sheet = -1, cell } = test ?? {};
    const symbols = [...(book.sheets[sheet]?.cells.values() ?? [])].filter(({ value }) => value === "n50");
    const symbol = symbols.find(({ column }) => column === (cell?.column ?? -1) + 1);
    const [row, owner] = trace(sheet, symbol?.row ?? -1, (symbol?.column ?? -1) + 1).places;
    expect(row).toMatchObject({ kind: "spilled", symbol: "n50" });
    expect(row?.unit).toBe("1/h");
    expect(row?.source).toContain("ISO 9972");
    expect(owner?.functions.map(({ id }) => id)).toEqual(["TESTRESULT"]);
  });
});

it("any formula cell of the workbook can be traced, back to typed cells", { timeout: slow }, () => {
  let traced = 0;
  for (const [sheet, { cells }] of book.sheets.entries()) {
    const formulas = [...cells.values()].filter(({ formula }) => formula);
    // Every fifth: neighbours in a column are copies of each other.
    for (const { row, column } of formulas.filter((_, place) => place % 5 === 0)) {
      expectInputs(book, trace(sheet, row, column));
      traced += 1;
    }
  }
  expect(traced).toBeGreaterThan(200);
});
