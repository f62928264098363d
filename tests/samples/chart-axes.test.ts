import { expect, it } from "vitest";
import { partsOf } from "./parts";
import { buildCellKey, openWorkbook, parsePlace } from "../../src/workbook/index";
import { stored } from "./workbook";

const parts = partsOf(stored);

it("draws the graph on log–log axes, on its own sheet, on the cover and in the report, points without a line between them", () => {
  const charts = [...parts].filter(([name]) => /^xl\/charts\/chart\d+\.xml$/.test(name)).map(([, xml]) => xml);
  expect(charts).toHaveLength(3);
  for (const xml of charts) {
    // Pressures by the chart's own logarithmic axis; flows by heights, below.
    expect(xml.match(/<c:logBase val="10"\/>/g)).toHaveLength(1);
    const named = (title: string) => xml.split("<c:ser>").find((one) => one.includes(`<c:v>${title}</c:v>`)) ?? "";
    for (const direction of ["Depressurization", "Pressurization"]) {
      expect(named(direction)).toContain("<a:ln><a:noFill/></a:ln>");
      expect(named("fitted line")).not.toContain("<a:noFill/>");
      expect(named("fitted line")).toContain("'Air leakage graph'!");
    }
    expect(named("at 50 Pa")).toContain("prstDash");
  }
});

it("places each flow that the axis names by its logarithm between the ends of the axis", () => {
  const { book } = openWorkbook(stored);
  const cells = book.sheets.find(({ name }) => name === "Air leakage graph")?.cells;
  const read = (address: string): unknown => {
    const { row, column } = parsePlace(address)!;
    return cells?.get(buildCellKey(row, column))?.value;
  };
  const [bottom, top] = [Number(read("AB26")), Number(read("AB27"))];
  const rows = Array.from({ length: 80 }, (_, index) => 8 + index).filter(
    (row) => typeof read(`AG${row}`) === "number",
  );
  expect(rows.length).toBeGreaterThan(5);
  for (const row of rows) {
    const flow = Number(read(`AG${row}`));
    // One logarithm apart in rounding: the sheet divides two of them.
    expect(read(`AJ${row}`)).toBeCloseTo(Math.log10(flow / bottom) / Math.log10(top / bottom), 12);
  }
  expect([bottom, top]).toEqual([read(`AG${rows[0]}`), read(`AG${rows.at(-1)}`)]);
});
