import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { WorkbookAnswer } from "../../src/views/desk/answers";
import type { CellsContent } from "../../src/views/desk/cells";
import { Desk } from "../../src/views/desk/desk";
import { slow } from "../time-outs";

const read = (name: string): Uint8Array => readFileSync(`sample-workbooks/${name}.xlsx`);

const desk = new Desk();
let final: WorkbookAnswer;

beforeAll(() => {
  final = desk.open(1, "final-test.xlsx", read("final-test"));
}, slow);

/** The limit of the sample's programme in the table of limits. */
const limitCell = { sheet: 0, row: 17, column: 4 };
beforeAll(() => {
  limitCell.sheet = final.sheets.findIndex(({ name }) => name === "Criteria");
});

describe("the desk over a final test", { timeout: slow }, () => {
  it("gives the verdict with what it judged, each figure with its cell", () => {
    expect(final.differences).toEqual([]);
    expect(final.evaluatedCells).toBe(final.formulaCells);
    const [verdict] = final.verdicts;
    expect(final.verdicts).toHaveLength(1);
    expect(verdict).toMatchObject({ word: "pass", limit: { value: 0.6, unit: "1/h", address: "Criteria!C9" } });
    const { result, interval } = verdict!;
    // The interval is symmetric on the logarithm, so its limits have the result as their geometric mean.
    expect(Math.sqrt(interval![0] * interval![1]) / result!.value).toBeCloseTo(1, 12);
    const upper = final.summary.find(({ label }) => /^upper limit/i.test(label));
    expect(interval![1].toFixed(3)).toBe(upper?.text);
  });

  it("states the level of the interval as the budget has it", () => {
    expect(final.verdicts[0]!.confidence).toBe(0.95);
    const { bytes } = desk.makeChangedCopy(1, [{ sheet: limitCell.sheet, row: 7, column: 9, text: "0.8" }]);
    const [verdict] = desk.open(2, "level.xlsx", bytes as Uint8Array).verdicts;
    expect(verdict!.confidence).toBe(0.8);
    expect(verdict!.interval![1]).toBeLessThan(final.verdicts[0]!.interval![1]);
    desk.close(2);
  });

  it("lists the conditions of each run that was made, and of no other", () => {
    const tables = final.verdicts[0]!.tables;
    expect(tables.map(({ title }) => title)).toEqual([
      "depressurization, Depressurization",
      "depressurization, Depressurization 2",
      "pressurization, Pressurization",
    ]);
    for (const { conditions } of tables) {
      expect(conditions.length).toBeGreaterThan(20);
      expect(conditions.filter(({ isBinding, outcome }) => isBinding && outcome !== "met")).toEqual([]);
    }
  });

  it("traces the result to typed readings, with numbers in the formulas and tables opened", () => {
    const { steps, inputs } = desk.trace(1, final.verdicts[0]!.result!.address);
    expect(inputs).toContain("Pressurization!F7");
    const numbered = steps.map(({ withNumbers }) => withNumbers).filter((text) => text !== "");
    expect(numbered).toContain("SQRT((10.6 − 10.6) ^ 2 + (5.2 − 0) ^ 2) = 5.2");
    expect(numbered).toContain("AVERAGE(Depressurization!F7:G7) = 20.5");
    const table = steps.flatMap(({ table: rows }) => rows).find((row) => row[1] === "n50");
    expect(table).toBeDefined();
  });

  it("tries another limit: the verdict turns, the file and the first answer stay", () => {
    const { verdicts, changed } = desk.tryOut(1, [{ ...limitCell, text: "0,5" }]);
    expect(verdicts).toEqual([expect.objectContaining({ before: "pass", after: "fail" })]);
    expect(changed).toBeGreaterThan(3);
    expect(desk.tryOut(1, []).changed).toBe(0);
  });

  it("lists inputs by their labels, with the words that a cell accepts", () => {
    const inputs = desk.listInputs(1);
    expect(inputs).toContainEqual(
      expect.objectContaining({ address: "Cover!C6", label: "House", shown: "Larch House" }),
    );
    // What is typed in above is no heading.
    expect(inputs).toContainEqual(expect.objectContaining({ address: "Cover!C7", label: "Address" }));
    expect(inputs.some(({ choices }) => choices.length > 1)).toBe(true);
  });

  it("finds the one difference that changes the verdict among several", () => {
    const { bytes } = desk.makeChangedCopy(1, [
      { ...limitCell, text: "0.5" },
      { sheet: 0, row: 6, column: 6, text: "Ines C. Corvane" },
    ]);
    desk.open(2, "later.xlsx", bytes as Uint8Array);
    const { inputs, formulas, verdicts } = desk.compare(1, 2);
    expect(inputs.map(({ address }) => address)).toEqual(["Cover!G7", "Criteria!E18"]);
    expect(formulas).toEqual([]);
    expect(verdicts).toEqual([expect.objectContaining({ before: "pass", after: "fail" })]);
    expect(desk.countTurns(1, 2)).toBe(2);
    const turns = [0, 1].map((index) => desk.tryTurn(1, 2, index));
    expect(turns.filter(({ turns: isTurn }) => isTurn).map(({ address }) => address)).toEqual(["Criteria!E18"]);
    desk.close(2);
    expect(() => desk.compare(1, 2)).toThrow("the workbook is not open");
  });

  it("tries the last of many differences too, and forgets them with their workbook", () => {
    const bookOf = (shift: number): CellsContent => {
      const cells = Array.from({ length: 70 }, (_, row) => ({ row, column: 0, value: row + shift }));
      const shown = cells.map((cell) => ({ ...cell, formula: "", format: "General" }));
      return { sheets: [{ name: "S", isVisible: true, cells: shown, hiddenRows: [] }], names: [], tables: [] };
    };
    desk.openCells(6, "before", bookOf(0));
    desk.openCells(7, "after", bookOf(1));
    expect(desk.countTurns(6, 7)).toBe(70);
    expect(desk.tryTurn(6, 7, 69)).toMatchObject({ address: "S!A70", before: "69", after: "70", turns: false });
    desk.openCells(7, "after", bookOf(0));
    expect(desk.countTurns(6, 7)).toBe(0);
  });

  it("gives each of the verdicts of one call over several units, with its own result", () => {
    const { verdicts } = desk.open(5, "multi-unit.xlsx", read("multi-unit"));
    const units = verdicts.filter(({ address }) => address.startsWith("Results!U"));
    expect(units.map(({ address, word }) => [address, word])).toEqual([
      ["Results!U8", "pass"],
      ["Results!U12", "fail"],
      ["Results!U15", "fail"],
      ["Results!U16", "pass"],
    ]);
    for (const { word, result, limit } of units) expect(result!.value <= limit!.value).toBe(word === "pass");
    expect(new Set(units.map(({ result }) => result!.value)).size).toBe(4);
    desk.close(5);
  });

  it("says of the blank form that nothing is tested yet", () => {
    const { verdicts } = desk.open(3, "blank.xlsx", read("blank/final-test"));
    desk.close(3);
    expect(verdicts.map(({ word }) => word)).toEqual(["open"]);
  });

  it("writes a sheet whose cells have ids, and escapes what the workbook says", () => {
    const { html, prefix, chosen } = desk.showSheet(1, 0, { sheet: 0, row: 5, column: 2 });
    expect([prefix, chosen]).toEqual(["Cover!", "s1-C6"]);
    expect(html).toContain('id="s1-C6"');
    const { bytes } = desk.makeChangedCopy(1, [{ sheet: 0, row: 6, column: 6, text: "<img src=x onerror=alert(1)>" }]);
    desk.open(4, "hostile.xlsx", bytes as Uint8Array);
    const shown = desk.showSheet(4, 0).html;
    desk.close(4);
    expect(shown).toContain("&lt;img src=x onerror=alert(1)&gt;");
    expect(shown).not.toContain("<img");
  });

  it("gives the readings of the graph their cells", () => {
    const { readings, svg } = desk.drawGraph(1, 0);
    expect(readings).toHaveLength(29);
    expect(readings.every(({ address }) => address !== "")).toBe(true);
    expect(svg.match(/<title>/g)?.length).toBe(readings.length);
  });

  it("names the lines of the graph alike: by their sheets, since one direction was tested twice", () => {
    const names = new Set(desk.drawGraph(1, 0).readings.map(({ line }) => line));
    expect([...names].sort()).toEqual(["Depressurization", "Depressurization 2", "Pressurization"]);
  });
});
