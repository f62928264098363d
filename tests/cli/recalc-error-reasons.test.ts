import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { sheetOf } from "../workbook/file/package";
import { listening } from "./listening";

const folder = mkdtempSync(join(tmpdir(), "recalc-reasons-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Content = number | string | { readonly formula: string; readonly error?: string; readonly array?: string };

/** What recalc says of the errors of a sheet, a line each; cells by their addresses, row by row. */
function errorsOf(cells: Readonly<Record<string, Content>>, ...given: string[]): string[] {
  const rows = new Map<number, string>();
  for (const [address, content] of Object.entries(cells)) {
    const row = Number(/\d+/.exec(address)?.[0]);
    rows.set(row, `${rows.get(row) ?? ""}${xmlOf(address, content)}`);
  }
  const path = join(folder, "sheet.xlsx");
  writeFileSync(path, sheetOf([...rows].map(([row, xml]) => `<row r="${row}">${xml}</row>`).join("")));
  const { output, heard } = listening();
  runRecalcCommand([path, ...given], output);
  const lines = heard()
    .out.split("\n")
    .map((line) => line.trim());
  const start = lines.findIndex((line) => line.startsWith("Where errors originate"));
  const end = lines.findIndex((line, index) => index > start && !/^('|Sheet1!|#N\/A on purpose)/.test(line));
  return start < 0 ? [] : lines.slice(start + 1, end).filter((line) => line.startsWith("Sheet1!"));
}

function xmlOf(address: string, content: Content): string {
  if (typeof content === "number") return `<c r="${address}"><v>${content}</v></c>`;
  if (typeof content === "string") return `<c r="${address}" t="inlineStr"><is><t>${content}</t></is></c>`;
  const { formula, error = "#N/A", array } = content;
  const start = array === undefined ? "<f>" : `<f t="array" ref="${array}">`;
  return `<c r="${address}" t="e">${start}${formula.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</f><v>${error}</v></c>`;
}

describe("an error without words of its own says why, as far as the cells tell", () => {
  it("a name that a list does not have, once for all cells that look it up", () => {
    const found = (column: string) => ({ formula: `INDEX(${column}$5:${column}$6,MATCH($A1,$A$5:$A$6,0))` });
    const cells = { A1: "Z9", B1: found("B"), C1: found("C"), A5: "A", B5: 1, C5: 2, A6: "B", B6: 3, C6: 4 };
    expect(errorsOf(cells)).toEqual([
      'Sheet1!B1: #N/A, because "Z9" (Sheet1!A1) is not in Sheet1!A5:A6; the same in Sheet1!C1',
    ]);
    expect(errorsOf(cells, "--set", "Sheet1!A1=b")).toEqual([]);
    const look = { A1: 7, B1: { formula: "VLOOKUP(A1,C1:D2,2,FALSE)" }, C1: 5, D1: 1, C2: 6, D2: 2 };
    expect(errorsOf(look)).toEqual(["Sheet1!B1: #N/A, because 7 (Sheet1!A1) is not in Sheet1!C1:C2"]);
  });

  it("a number typed as text, in a formula that refuses it and in one that calculates with it", () => {
    const guarded = { formula: "IF(COUNT(B1:C1)<2,NA(),B1*C1)" };
    expect(errorsOf({ A1: "Hall", B1: "6.35 m", C1: 2, D1: guarded, E1: { formula: "D1*2" } })).toEqual([
      'Sheet1!D1: #N/A, because Sheet1!B1 holds the text "6.35 m"',
    ]);
    expect(errorsOf({ A1: "n.a.", B1: { formula: "2*A1", error: "#VALUE!" } })).toEqual([
      'Sheet1!B1: #VALUE!, because Sheet1!A1 holds the text "n.a."',
    ]);
  });

  it("cells that are due and blank, as waiting for input", () => {
    expect(errorsOf({ B1: 6, D1: { formula: "IF(COUNT(B1:C1)<2,NA(),B1*C1)" }, E1: { formula: "D1*2" } })).toEqual([
      "Sheet1!D1: waiting for input: Sheet1!C1 is blank",
    ]);
  });

  it("any text where a formula asks for nothing but numbers, though another cell there is blank", () => {
    const mean = { formula: 'IF(COUNTA(B1:C1)<>COUNT(B1:C1),NA(),IF(COUNT(B1:C1)=0,"",AVERAGE(B1:C1)))' };
    expect(errorsOf({ B1: "about 7", D1: mean, E1: { formula: "D1*2" } })).toEqual([
      'Sheet1!D1: #N/A, because Sheet1!B1 holds the text "about 7"',
    ]);
  });

  it("what is divided by", () => {
    const cells = { A1: 0, B1: { formula: "5/A1", error: "#DIV/0!" }, C1: { formula: "5/A9", error: "#DIV/0!" } };
    expect(errorsOf(cells)).toEqual([
      "Sheet1!B1: #DIV/0!, because Sheet1!A1 is 0",
      "Sheet1!C1: #DIV/0!, because Sheet1!A9 is blank",
    ]);
  });

  it("else the formula", () => {
    expect(errorsOf({ A1: { formula: "SQRT(-1)", error: "#NUM!" } })).toEqual([
      "Sheet1!A1: #NUM! originates in =SQRT(-1)",
    ]);
  });

  it("a function's own words once for all cells of a row, but for each row", () => {
    const air = (row: number) => ({ formula: `_xldudf_STILLAIR_AIRDENSITY(A${row})`, error: "#VALUE!" });
    const lines = errorsOf({ A1: "hot", B1: air(1), C1: air(1), A2: "hot", B2: air(2) });
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(/^Sheet1!B1: temperature.*; the same in Sheet1!C1$/);
    expect(lines[1]).toMatch(/^Sheet1!B2: temperature/);
  });
});

describe("what only follows from an error is not named", () => {
  const fit = "_xldudf_STILLAIR_LEAKAGEFIT(A1:A3,B1:B3)";
  // Saved while the form was empty, the table has filled one cell, and what it will fill is blank.
  const saved = {
    ...{ A1: 50, B1: 300, A2: "x", B2: 200, A3: 20, B3: 150 },
    D1: { formula: fit, error: "#VALUE!", array: "D1" },
    L1: { formula: 'INDEX(F1:F9,MATCH("n",E1:E9,0))' },
    L2: { formula: 'IF(A1="","",INDEX(F1:F9,MATCH("C",E1:E9,0)))' },
    L3: { formula: 'IF(E2="n",F2,NA())' },
    M1: { formula: "L1+L2+L3" },
  };

  it("a look-up in a table that failed, though the form was first saved empty", () => {
    expect(errorsOf(saved)).toEqual([expect.stringMatching(/^Sheet1!D1: pressures, row 2/) as string]);
  });

  it("but a look-up in a list that nobody filled in is", () => {
    const { L1, M1 } = saved;
    expect(errorsOf({ L1, M1 })).toEqual([expect.stringMatching(/^Sheet1!L1: waiting for input: /) as string]);
  });

  it("an input that is kept blank because of an error further back", () => {
    const labels = { D1: "volume", D2: "quantity", E2: "air change rate" };
    const needs = { formula: "_xldudf_STILLAIR_TARGETGAP(300,0.6,D1:E2)", array: "K1" };
    const cells = {
      D1: labels.D1,
      E1: { formula: 'IFERROR(G1,"")' },
      G1: { formula: "IF(COUNT(H1)=0,NA(),H1)" },
      I1: { formula: "G1*2" },
      K1: needs,
      D2: labels.D2,
      E2: labels.E2,
    };
    expect(errorsOf(cells)).toEqual(["Sheet1!G1: waiting for input: Sheet1!H1 is blank"]);
    expect(errorsOf({ D1: labels.D1, K1: needs, D2: labels.D2, E2: labels.E2 })).toEqual([
      expect.stringMatching(/settings: volume: needed with/) as string,
    ]);
  });
});
