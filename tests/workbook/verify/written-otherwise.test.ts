import { strToU8 } from "fflate";
import { describe, expect, it } from "vitest";
import type { PackageOptions } from "../file/package";
import { evaluation, house, ownSheet, put, saidOf, settings, type Cells } from "./bare";
import { slow } from "../../time-outs";

const name = (of: string, text: string) => `<definedName name="${of}">${text}</definedName>`;
const hideRow = (row: number) => (xml: string) => xml.replace(`<row r="${row}">`, `<row r="${row}" hidden="1">`);
const hideColumns = (from: number, to: number) => (xml: string) =>
  `<cols><col min="${from}" max="${to}" width="9" hidden="1" customWidth="1"/></cols>${xml}`;
const wrongSign = /^error: sign of the readings in Test!A5/;

/** The pressures of the first direction as `down` writes them; everything else by defined names. */
const namedSheet = (down: string, change: (cells: Cells) => void = () => {}) =>
  ownSheet({}, (cells) => {
    evaluation(cells, `${down},QDown,G3:G7,H3:H7,Given`, "PUp,QUp,I3:I7,J3:J7,Given");
    change(cells);
  });
const namesWith = (more: string): Partial<PackageOptions> => ({
  workbook: `<definedNames>${[
    name("Given", "Test!$A$60:$B$66"),
    more,
    name("PUp", "Test!$D$2:$D$9"),
    name("QDown", "Test!$B$2:$B$9"),
    name("QUp", "Test!$E$2:$E$9"),
  ].join("")}</definedNames>`,
});

describe.each([
  ["a defined name", "PDown", name("PDown", "Test!$A$2:$A$9")],
  ["a name that grows by OFFSET", "PDown", name("PDown", "OFFSET(Test!$A$2,0,0,COUNT(Test!$A$2:$A$40),1)")],
  ["a name that ends by INDEX", "PDown", name("PDown", "Test!$A$2:INDEX(Test!$A$2:$A$40,8)")],
  ["a range that ends by INDEX in the call itself", "A2:INDEX(A:A,9)", ""],
  ["a guard around a moving range", 'IF(OFFSET(A2,0,0,8,1)="","",OFFSET(A2,0,0,8,1))', ""],
])("readings given by %s", { timeout: slow }, (_, down, names) => {
  it("nothing is said of an honest sheet", () => {
    expect(saidOf({ Test: namedSheet(down) }, undefined, namesWith(names))).toEqual([]);
  });

  it("a reading that lost its sign, or a hidden row, is found", () => {
    const sheet = namedSheet(down, (cells) => (cells["A5"] = 40.6));
    expect(saidOf({ Test: sheet }, undefined, namesWith(names))).toContainEqual(expect.stringMatching(wrongSign));
    expect(saidOf({ Test: namedSheet(down) }, hideRow(5), namesWith(names))).toContainEqual(
      expect.stringMatching(/^error: hidden readings in Test!A5/),
    );
  });
});

it("a name that ends before the last reading is found", { timeout: slow }, () => {
  const names = namesWith(name("PDown", "Test!$A$2:$A$8")).workbook?.replace("$B$9", "$B$8") ?? "";
  expect(saidOf({ Test: namedSheet("PDown") }, undefined, { workbook: names })).toContainEqual(
    expect.stringMatching(/^error: range misses readings in Test!AA2/),
  );
});

const columns = ["building Pa", "flow", "use", "why"];
const table = (id: number, of: string, ref: string) =>
  strToU8(
    `<?xml version="1.0" encoding="UTF-8"?><table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="${id}" name="${of}" ` +
      `displayName="${of}" ref="${ref}"><autoFilter ref="${ref}"/><tableColumns count="4">` +
      `${columns.map((column, index) => `<tableColumn id="${index + 1}" name="${column}"/>`).join("")}</tableColumns></table>`,
  );
const link = (id: number) =>
  `<Relationship Id="t${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table${id}.xml"/>`;

/** Both directions in Excel tables, referred to by their columns. */
function saidOfTables(change: (cells: Cells) => void, stored = (xml: string) => xml, down = "A1:D9"): string[] {
  const cells: Cells = {};
  put(cells, "A1", columns, "across");
  put(cells, "F1", columns, "across");
  for (const [letters, pressures, flows] of [
    ["ABC", house.down, house.flowsDown],
    ["FGH", house.up, house.flowsUp],
  ] as const) {
    put(cells, `${letters[0]}2`, pressures);
    put(cells, `${letters[1]}2`, flows);
    put(
      cells,
      `${letters[2]}2`,
      pressures.map(() => "yes"),
    );
  }
  put(cells, "K3", house.before);
  put(cells, "L3", house.after);
  put(cells, "M3", house.beforeUp);
  put(cells, "N3", house.afterUp);
  const given = settings(cells);
  evaluation(
    cells,
    `Down[building Pa],Down[flow],K3:K7,L3:L7,${given},Down[use]`,
    `Up[building Pa],Up[flow],M3:M7,N3:N7,${given},Up[use]`,
  );
  change(cells);
  const withTables = (xml: string) =>
    `${stored(xml)}<tableParts count="2"><tablePart r:id="t1"/><tablePart r:id="t2"/></tableParts>`;
  return saidOf({ Test: cells }, withTables, {
    parts: { "xl/tables/table1.xml": table(1, "Down", down), "xl/tables/table2.xml": table(2, "Up", "F1:I9") },
    sheetLinks: { 0: link(1) + link(2) },
  });
}

describe("readings in Excel tables", { timeout: slow }, () => {
  it("nothing is said of an honest sheet, nor of a reading left out with its reason", () => {
    expect(saidOfTables(() => {})).toEqual([]);
    expect(saidOfTables((cells) => put(cells, "C4", ["no", "gust"], "across"))).toEqual([]);
  });

  it.each([
    ["a reading left out without a reason", "C4", "no", /^warning: excluded without a reason in Test!C4/],
    ["a reading as text", "A5", "-40.6", /^error: number as text in Test!A5/],
    ["a reading that lost its sign", "A5", 40.6, wrongSign],
  ])("%s is found", (_, address, value, said) => {
    expect(saidOfTables((cells) => (cells[address] = value))).toContainEqual(expect.stringMatching(said));
  });

  it("a table that ends before the last reading is found", () => {
    expect(saidOfTables(() => {}, undefined, "A1:D8")).toContainEqual(
      expect.stringMatching(/^error: range misses readings in Test!AA2/),
    );
  });

  it("a reason that stands in a hidden column is none", () => {
    const said = saidOfTables((cells) => put(cells, "C4", ["no", "gust"], "across"), hideColumns(3, 4));
    expect(said).toContainEqual(expect.stringMatching(/^warning: excluded without a reason in Test!C4/));
  });
});

it("a test without a result is told of where no verdict asks for it", { timeout: slow }, () => {
  const marks = (cells: Cells) => {
    put(cells, "C2", [1, 1, 0, 1, 1, 1, 1, 1]);
    evaluation(cells, "A2:A9,B2:B9,G3:G7,H3:H7,A60:B66,C2:C9", "D2:D9,E2:E9,I3:I7,J3:J7,A60:B66");
  };
  expect(saidOf({ Test: ownSheet({}, marks) })).toContainEqual(
    expect.stringMatching(/^warning: error value in Test!AA2: .*include, row 1/),
  );
});

describe("figures typed where a computed one belongs", { timeout: slow }, () => {
  const rooms = (volume: number | { f: string }) =>
    ownSheet({ volume }, (cells) => {
      put(cells, "L2", ["Living room", "Upper floor", "Volume of all rooms"]);
      put(cells, "M2", [{ f: "48.5*2.5" }, { f: "71.5*2.5" }, { f: "SUM(M2:M3)" }]);
    });

  it("a volume that the sheet computes otherwise", () => {
    expect(saidOf({ Test: rooms({ f: "M4" }) })).toEqual([]);
    expect(saidOf({ Test: rooms(300) })).toEqual([]);
    expect(saidOf({ Test: rooms(345) })).toEqual([
      expect.stringMatching(/^warning: size typed in in Test!B60: .*345.*Test!M4 computes 300/),
    ]);
  });

  const cover = (content: string | number | { f: string }, label = "Air change rate n50, mean") =>
    saidOf({ Test: ownSheet(), Cover: { A2: label, B2: content } });

  it("a result on the cover", () => {
    const mean = /n50, mean/;
    expect(cover({ f: "Test!B50" })).toEqual([]);
    const [said = ""] = cover(0.69);
    expect(said).toMatch(/^warning: result typed in in Cover!B2/);
    expect(said).toMatch(mean);
    expect(cover(0.69, "Limit of the air change rate n50")).toEqual([]);
    expect(cover(2.1)).toEqual([]);
    expect(cover(0.69, "Height of the ridge")).toEqual([]);
  });
});
