import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { CellsContent, ShownCell } from "../../src/views/desk/cells";
import { Desk } from "../../src/views/desk/desk";
import { ErrorValue, openWorkbook, toTypedForm } from "../../src/workbook/index";
import { slow } from "../time-outs";

const readSample = (name: string): Uint8Array => readFileSync(join("sample-workbooks", name));

/** A workbook as Excel shows its cells to an add-in: formulas as typed, with @ where an ordinary formula takes one cell of an area. */
function showCells(bytes: Uint8Array): CellsContent {
  const { sheets, names, tables } = openWorkbook(bytes).book;
  return {
    sheets: sheets.map(({ name, visibility, cells, hiddenRows }) => ({
      name,
      isVisible: visibility === "visible",
      hiddenRows: [...hiddenRows],
      cells: [...cells.values()].flatMap(({ row, column, value, formula, format }): ShownCell[] => {
        if (value === null && !formula) return [];
        const typed = formula ? toTypedForm(formula.text) : "";
        const shown = formula && !formula.array ? typed.replace(/^=INDEX\(/, "=@INDEX(") : typed;
        const spill = formula?.array;
        const isSpilled = spill && (spill.bottom > spill.top || spill.right > spill.left);
        return [
          {
            row,
            column,
            value: value instanceof ErrorValue ? value.code : (value ?? ""),
            formula: shown,
            format,
            ...(isSpilled ? { spill } : {}),
          },
        ];
      }),
    })),
    names: names
      .filter(({ name }) => !name.startsWith("_xlnm."))
      .map(({ name, sheet, text }) => ({
        name,
        sheet: sheet === undefined ? undefined : sheets[sheet]?.name,
        formula: `=${text}`,
      })),
    tables,
  };
}

describe("a workbook of which Excel shows the cells, but hands over no file", { timeout: slow }, () => {
  it.each(["final-test.xlsx", "final-test-ip.xlsx", "mid-construction.xlsx", "envelope-what-if.xlsx"])(
    "%s gives the same verdicts, graphs and figures as its file, and no difference from what Excel stored",
    (name) => {
      const bytes = readSample(name);
      const desk = new Desk();
      const fromFile = desk.open(1, name, bytes);
      const fromCells = desk.openCells(2, name, showCells(bytes));
      expect(fromCells.differences).toEqual([]);
      expect(fromCells.notEvaluated).toEqual(fromFile.notEvaluated);
      expect(fromCells.evaluatedCells).toBe(fromFile.evaluatedCells);
      // Which cells are typed into is not known from the cells alone, so a label may name one of them.
      const withoutLabels = (verdicts: typeof fromFile.verdicts) =>
        verdicts.map(({ result, limit, ...rest }) => ({ ...rest, result: result?.value, limit: limit?.value }));
      expect(withoutLabels(fromCells.verdicts)).toEqual(withoutLabels(fromFile.verdicts));
      expect(fromCells.graphs).toEqual(fromFile.graphs);
      const cell = fromFile.verdicts[0]?.address ?? "";
      if (cell !== "") expect(desk.trace(2, cell).inputs).toEqual(desk.trace(1, cell).inputs);
    },
  );

  it("says what needs the file", () => {
    const desk = new Desk();
    desk.openCells(2, "final-test.xlsx", showCells(readSample("logger-import.xlsx")));
    expect(() => desk.makeIssueCopy(2)).toThrow("does not hand over the whole file");
    expect(() => desk.showSheet(2, 0)).toThrow("does not hand over the whole file");
  });

  it("keeps the sign @ in texts, names of sheets and columns of tables", () => {
    const cell = (row: number, formula: string): ShownCell => ({
      row,
      column: 2,
      value: "",
      formula,
      format: "General",
    });
    const number = (row: number, value: number): ShownCell => ({
      row,
      column: 0,
      value,
      formula: "",
      format: "General",
    });
    const content: CellsContent = {
      sheets: [
        {
          name: "A@B",
          isVisible: true,
          hiddenRows: [],
          cells: [
            number(0, 1),
            number(1, 2),
            cell(0, '="a@b"'),
            cell(1, "=@A1:A2*10"),
            cell(2, "='A@B'!A2"),
            cell(4, "=A1:A2*10"),
          ],
        },
      ],
      names: [],
      tables: [],
    };
    const desk = new Desk();
    desk.openCells(1, "at.xlsx", content);
    const read = (address: string) => desk.preview(1, "'A@B'!F9", `='A@B'!${address}`).rows[0]?.[0];
    expect(["C1", "C2", "C3", "C5", "C6"].map(read)).toEqual(["a@b", "20", "2", "10", "20"]);
  });
});
