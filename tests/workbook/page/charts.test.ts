import { strToU8 } from "fflate";
import { describe, expect, it } from "vitest";
import { evaluateBook, openWorkbook, writeWorkbookPage } from "../../../src/workbook/index";
import { packageOf, transitional } from "../file/package";

const space = "http://schemas.openxmlformats.org/drawingml/2006/";

/** A drawing part with one chart over columns E to M, rows 1 to 20. */
const drawing = `<xdr:wsDr xmlns:xdr="${space}spreadsheetDrawing" xmlns:a="${space}main" xmlns:c="${space}chart" xmlns:r="${transitional.links}"><xdr:twoCellAnchor><xdr:from><xdr:col>4</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>0</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>13</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>20</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to><xdr:graphicFrame><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="Chart 1" descr="Flow over pressure"/></xdr:nvGraphicFramePr><a:graphic><a:graphicData uri="${space}chart"><c:chart r:id="rId1"/></a:graphicData></a:graphic></xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>`;

const axis = (id: number, place: string, rest = "", kind = "valAx") =>
  `<c:${kind}><c:axId val="${id}"/><c:scaling>${rest}</c:scaling><c:delete val="0"/><c:axPos val="${place}"/><c:majorGridlines/></c:${kind}>`;

const numbers = (tag: string, cells: string) => `<c:${tag}><c:numRef><c:f>Sheet1!${cells}</c:f></c:numRef></c:${tag}>`;

interface Parts {
  readonly plot?: string;
  readonly kind?: string;
  readonly axes?: string;
  readonly rest?: string;
}

const points = (look = '<c:spPr><a:ln><a:noFill/></a:ln></c:spPr><c:marker><c:symbol val="circle"/></c:marker>') =>
  `<c:ser><c:tx><c:v>readings</c:v></c:tx>${look}${numbers("xVal", "$A$1:$A$4")}${numbers("yVal", "$B$1:$B$4")}</c:ser>`;
const bars = `<c:barDir val="col"/><c:grouping val="clustered"/><c:ser><c:tx><c:v>flows</c:v></c:tx>${numbers("val", "$B$1:$B$4")}</c:ser>`;
const bottomAndLeft = axis(1, "b") + axis(2, "l");

function chartPart({ plot = points(), kind = "scatterChart", axes = bottomAndLeft, rest = "" }: Parts): string {
  return `<c:chartSpace xmlns:c="${space}chart" xmlns:a="${space}main"><c:chart><c:plotArea><c:${kind}>${plot}</c:${kind}>${axes}</c:plotArea><c:legend/>${rest}</c:chart></c:chartSpace>`;
}

/** Columns A and B of four rows; text is XML of a cell's content with its type. */
const rows = (values: readonly (readonly [string, string])[], hidden = -1) =>
  `<sheetData>${values
    .map(([a, b], row) => {
      const cell = (letter: string, content: string) =>
        content === ""
          ? ""
          : content.startsWith("#")
            ? `<c r="${letter}${row + 1}" t="e"><v>${content}</v></c>`
            : `<c r="${letter}${row + 1}"><v>${content}</v></c>`;
      return `<row r="${row + 1}"${row === hidden ? ' hidden="1"' : ""}>${cell("A", a)}${cell("B", b)}</row>`;
    })
    .join("")}</sheetData>`;

const doubling: readonly (readonly [string, string])[] = [
  ["10", "100"],
  ["20", "200"],
  ["40", "400"],
  ["80", "800"],
];

function pageWith(parts: Parts, sheet = rows(doubling)): string {
  const opened = openWorkbook(
    packageOf({
      sheets: [sheet],
      sheetLinks: {
        0: `<Relationship Id="d" Type="${transitional.links}/drawing" Target="../drawings/drawing1.xml"/>`,
      },
      parts: {
        "xl/drawings/drawing1.xml": strToU8(drawing),
        "xl/drawings/_rels/drawing1.xml.rels": strToU8(
          `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${transitional.links}/chart" Target="../charts/chart1.xml"/></Relationships>`,
        ),
        "xl/charts/chart1.xml": strToU8(chartPart(parts)),
      },
    }),
  );
  return writeWorkbookPage({
    title: "",
    lead: [],
    parts: [],
    opened,
    evaluation: evaluateBook(opened.book),
    evaluateOptions: {},
    set: [],
    namedCells: [],
    footer: "",
  });
}

/** Lengths of −100, 200, 400 and 800, over the first one. */
const inRatio: unknown[] = [1, 2, 4, 8].map((ratio): unknown => expect.closeTo(ratio, 1));

const svgIn = (page: string) => /<td class="chart".*?<\/td>/s.exec(page)?.[0] ?? "";

/** Places of the marks on the plot; the legend's one comes first and is left out. */
function marksIn(page: string): { x: number; y: number }[] {
  const found = [...svgIn(page).matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"/g)];
  return found.slice(1).map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
}

const numbersBelow = (page: string) =>
  [...svgIn(page).matchAll(/text-anchor="middle">([^<]*)</g)].map(([, text = ""]) => text);

describe("charts on a page", () => {
  it("are drawn with the words that the workbook has for them, their legend and their numbers", () => {
    const page = pageWith({});
    expect(svgIn(page)).toContain('role="img" aria-label="Flow over pressure"');
    expect(svgIn(page)).toContain(">readings</text>");
    expect(numbersBelow(page)).toEqual(Array.from({ length: 17 }, (_, step) => String(5 * step)));
    expect(page).toContain("Charts are redrawn");
    expect(page).not.toContain("not shown");
  });

  it("place points in proportion", () => {
    const [one, two, three, four] = marksIn(pageWith({}));
    expect((three!.x - one!.x) / (two!.x - one!.x)).toBeCloseTo(3, 2);
    expect((four!.y - one!.y) / (two!.y - one!.y)).toBeCloseTo(7, 2);
    expect(four!.y).toBeLessThan(one!.y);
  });

  it("place equal ratios at equal distances on logarithmic axes, whichever axis is named first", () => {
    const log = '<c:logBase val="10"/>';
    const marks = marksIn(pageWith({ axes: axis(2, "l", log) + axis(1, "b", log) }));
    const steps = marks.slice(1).map(({ x, y }, index) => [x - marks[index]!.x, y - marks[index]!.y] as const);
    for (const [across, up] of steps) {
      expect(across).toBeCloseTo(steps[0]![0], 1);
      expect(up).toBeCloseTo(steps[0]![1], 1);
    }
    expect(steps[0]![0]).toBeGreaterThan(10);
    expect(steps[0]![1]).toBeLessThan(-10);
  });

  it("keep the ends that the chart gives, and draw no mark beyond them", () => {
    const page = pageWith({ axes: axis(1, "b", '<c:max val="45"/><c:min val="5"/>') + axis(2, "l") });
    expect(marksIn(page)).toHaveLength(3);
    expect(
      numbersBelow(page)
        .map(Number)
        .every((number) => number >= 5 && number <= 45),
    ).toBe(true);
  });

  it("join points: a blank ends the line, an error value is passed over", () => {
    const joined = points('<c:marker><c:symbol val="none"/></c:marker>');
    const lines = (third: string) => {
      const given = doubling.map(([a, b], row) => [a, row === 1 ? third : b] as const);
      // The legend has a line of its own.
      const found = [...svgIn(pageWith({ plot: joined }, rows(given))).matchAll(/points="([^"]*)"/g)].slice(1);
      return found.map(([, places = ""]) => places.split(" ").length);
    };
    expect(lines("200")).toEqual([4]);
    expect(lines("#N/A")).toEqual([3]);
    expect(lines("")).toEqual([1, 2]);
  });

  it("leave out cells of hidden rows, unless the chart shows them", () => {
    expect(marksIn(pageWith({}, rows(doubling, 2)))).toHaveLength(3);
    expect(marksIn(pageWith({ rest: '<c:plotVisOnly val="0"/>' }, rows(doubling, 2)))).toHaveLength(4);
  });

  it("stand and lie as bars from 0, below it where negative", () => {
    const given = doubling.map(([a, b], row) => [a, row === 0 ? "-100" : b] as const);
    const axes = axis(1, "b", "", "catAx") + axis(2, "l");
    const page = pageWith({ plot: bars, kind: "barChart", axes }, rows(given));
    const boxes = [...svgIn(page).matchAll(/<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/g)]
      .slice(1)
      .map(([, x, y, width, height]) => ({ x: Number(x), y: Number(y), width: Number(width), height: Number(height) }));
    expect(boxes.map(({ height }) => height / boxes[0]!.height)).toEqual(inRatio);
    const zero = boxes[1]!.y + boxes[1]!.height;
    expect(boxes[0]!.y).toBeCloseTo(zero, 1);
    expect(numbersBelow(page)).toEqual(["1", "2", "3", "4"]);
    const lying = pageWith({ plot: bars.replace('"col"', '"bar"'), kind: "barChart", axes }, rows(given));
    const widths = [...svgIn(lying).matchAll(/<rect [^>]*width="([\d.]+)" height="[\d.]+"/g)]
      .slice(1)
      .map(([, w]) => Number(w));
    expect(widths.map((width) => width / widths[0]!)).toEqual(inRatio);
  });

  it("write no number twice along an axis, however few digits its format has", () => {
    const few = doubling.map(([, b], row) => [String(row / 3), b] as const);
    const axes =
      axis(1, "b").replace("<c:majorGridlines/>", '<c:numFmt formatCode="0" sourceLinked="0"/>') + axis(2, "l");
    const below = numbersBelow(pageWith({ axes }, rows(few)));
    expect(new Set(below).size).toBe(below.length);
    expect(below).toEqual(["0", "1"]);
  });

  it.each<[string, Parts]>([
    [
      "stacked bars",
      { plot: bars.replace("clustered", "stacked"), kind: "barChart", axes: axis(1, "b", "", "catAx") + axis(2, "l") },
    ],
    ["a pie", { plot: `<c:ser>${numbers("val", "$B$1:$B$4")}</c:ser>`, kind: "pieChart", axes: "" }],
    ["a third axis", { axes: bottomAndLeft + axis(3, "r") }],
    [
      "two areas in one reference",
      { plot: points().replace("Sheet1!$B$1:$B$4", "(Sheet1!$B$1:$B$2,Sheet1!$B$3:$B$4)") },
    ],
    ["an axis that ends below all values", { axes: axis(1, "b", '<c:max val="-1"/>') + axis(2, "l") }],
    ["a logarithmic axis from 0", { axes: axis(1, "b", '<c:logBase val="10"/><c:min val="0"/>') + axis(2, "l") }],
    ["a sheet that is not there", { plot: points().replaceAll("Sheet1!", "Other!") }],
  ])("have words in their place where they cannot be drawn: %s", (_, parts) => {
    const page = pageWith(parts);
    expect(page).toContain("<span>Chart, not shown: Flow over pressure</span>");
    expect(page).not.toContain('class="chart"');
    expect(page).toContain("are not drawn but described in words");
  });

  it("have words in their place where no cell holds a number", () => {
    expect(pageWith({}, rows(doubling.map(([a]) => [a, "#N/A"])))).toContain("Chart, not shown");
  });
});
