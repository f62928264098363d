import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../../src/workbook/index";
import { openSession } from "../file-in-memory";

async function readCells(session: ReturnType<typeof openSession>) {
  const content = await session.port.read();
  if (!("bytes" in content)) throw new Error("a file hands over its bytes");
  return [...(openWorkbook(content.bytes).book.sheets[0]?.cells.values() ?? [])];
}

describe("the workbook in memory", () => {
  it("keeps every one of several writes that a person begins at once", async () => {
    const session = openSession();
    const write = (row: number, text: string) =>
      session.port.write({ sheet: "Sheet1", row, column: 0, cells: [[text]], reach: { rows: 1, columns: 1 } });
    await Promise.all([write(0, "first"), write(4, "second"), session.port.addSheet("Trace", [["cell"]])]);
    expect((await readCells(session)).map(({ value }) => value)).toEqual(["first", "second"]);
    const content = await session.port.read();
    expect("bytes" in content && openWorkbook(content.bytes).book.sheets.map(({ name }) => name)).toEqual([
      "Sheet1",
      "Trace",
    ]);
  });

  it("mends an array formula of the add-in as one, so that its result is not in its own way", async () => {
    const cell = (address: string, formula = "") => `<c r="${address}" t="e">${formula}<v>#NAME?</v></c>`;
    const array = '<f t="array" ref="A1:B2">_xldudf_STILLAIR_BASELINEPRESSURE(D1:D3)</f>';
    const session = openSession(
      `<row r="1">${cell("A1", array)}${cell("B1")}<c r="D1"><v>-1</v></c></row>` +
        `<row r="2">${cell("A2")}${cell("B2")}<c r="D2"><v>-2</v></c></row><row r="3"><c r="D3"><v>-3</v></c></row>`,
    );
    expect(await session.port.mend("Sheet1")).toBe(1);
    const cells = await readCells(session);
    expect(cells.some(({ value }) => value === -2)).toBe(true);
    expect(cells.filter(({ value }) => typeof value === "object" && value !== null)).toEqual([]);
  });
});
