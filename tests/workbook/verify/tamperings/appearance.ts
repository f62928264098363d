import { filled, type Spot, type Tampered } from "../tampered";
import type { Tampering } from "./tampering";
import { addStyle } from "./verdicts";

const rowOf = ([, address]: Spot): string => /\d+/.exec(address)?.[0] ?? "";

function restyle(workbook: Tampered, [sheet, address]: Spot, change: (format: string) => string): void {
  const xml = workbook.parts.get(workbook.part(sheet)) ?? "";
  const style = Number(new RegExp(`<c r="${address}"[^>]* s="(\\d+)"`).exec(xml)?.[1]);
  const index = addStyle(workbook, style, change);
  workbook.edit(workbook.part(sheet), (text) =>
    text.replace(new RegExp(`(<c r="${address}"[^>]*) s="\\d+"`), `$1 s="${index}"`),
  );
}

export function numberFormat(workbook: Tampered, spot: Spot, code: string): void {
  restyle(workbook, spot, (format) => format.replace(/numFmtId="\d+"/, 'numFmtId="902"'));
  const added = `<numFmt numFmtId="902" formatCode="${code}"/>`;
  if (workbook.parts.get("xl/styles.xml")?.includes(added)) return;
  workbook.edit("xl/styles.xml", (xml) => xml.replace("</numFmts>", `${added}</numFmts>`));
}

/** A reading in letters of one point. */
function speck(workbook: Tampered): Spot {
  const spot = lettersIn(workbook, "");
  workbook.edit("xl/styles.xml", (xml) =>
    xml.replace(
      '<font><sz val="9"/><name val="Arial"/></font></fonts>',
      '<font><sz val="1"/><name val="Arial"/></font></fonts>',
    ),
  );
  return spot;
}

const resultOf = (workbook: Tampered): Spot => {
  const [sheet, address] = workbook.find(/STILLAIR_PASSFAIL\(/);
  const [, result = ""] = /PASSFAIL\((\$?[A-Z]+\$?\d+)/.exec(workbook.formula([sheet, address])) ?? [];
  return [sheet, result.replaceAll("$", "")];
};

const readingAt = (workbook: Tampered, index: number): Spot => {
  const { sheet, pressures } = workbook.test("depressurization");
  return filled(workbook, sheet, pressures)[index]!;
};

/** A reading on white ground in letters of a colour. */
function lettersIn(workbook: Tampered, colour: string): Spot {
  const spot = readingAt(workbook, 2);
  workbook.edit("xl/styles.xml", (xml) =>
    xml.replace("</fonts>", `<font>${colour}<sz val="9"/><name val="Arial"/></font></fonts>`),
  );
  const styles = workbook.parts.get("xl/styles.xml") ?? "";
  const countIn = (xml: string) => [...xml.matchAll(/<font>/g)].length;
  const index = countIn(styles) - countIn(/<dxfs.*<\/dxfs>/s.exec(styles)?.[0] ?? "") - 1;
  restyle(workbook, spot, (format) =>
    format.replace(/fontId="\d+"/, `fontId="${index}"`).replace(/fillId="\d+"/, 'fillId="0"'),
  );
  return spot;
}

/** The result with a conditional format that makes its letters white. */
function whitened(workbook: Tampered, rule: string, formula: string): Spot {
  const spot = resultOf(workbook);
  let index = 0;
  workbook.edit("xl/styles.xml", (xml) =>
    xml.replace(/<dxfs[^>]*>(.*?)<\/dxfs>/s, (_, inner: string) => {
      index = [...inner.matchAll(/<dxf>/g)].length;
      return `<dxfs count="${index + 1}">${inner}<dxf><font><color rgb="FFFFFFFF"/></font></dxf></dxfs>`;
    }),
  );
  const added = `<conditionalFormatting sqref="${spot[1]}"><cfRule ${rule} priority="99" dxfId="${index}">${formula}</cfRule></conditionalFormatting>`;
  workbook.edit(workbook.part(spot[0]), (xml) =>
    xml.replace("<conditionalFormatting", () => `${added}<conditionalFormatting`),
  );
  return spot;
}

/** What a reader does not get to see, and settings of the workbook. */
export const appearance: readonly Tampering[] = [
  {
    what: "a hidden row in a fit",
    kind: "hidden readings",
    plant(workbook) {
      const spot = readingAt(workbook, 4);
      workbook.edit(workbook.part(spot[0]), (xml) =>
        xml.replace(`<row r="${rowOf(spot)}"`, `<row r="${rowOf(spot)}" hidden="1"`),
      );
      return new RegExp(`^${spot[0]}!\\D+${rowOf(spot)}$`);
    },
  },
  {
    what: "a row of a fit without height",
    kind: "hidden readings",
    plant(workbook) {
      const spot = readingAt(workbook, 6);
      workbook.edit(workbook.part(spot[0]), (xml) =>
        xml.replace(new RegExp(`<row r="${rowOf(spot)}"([^>]*?) ht="[^"]*"`), `<row r="${rowOf(spot)}"$1 ht="0.2"`),
      );
      return new RegExp(`^${spot[0]}!\\D+${rowOf(spot)}$`);
    },
  },
  {
    what: "a reading under merged cells",
    kind: "hidden readings",
    plant(workbook) {
      const [above, spot] = [readingAt(workbook, 4), readingAt(workbook, 5)];
      workbook.edit(workbook.part(spot[0]), (xml) =>
        xml.replace("</mergeCells>", `<mergeCell ref="${above[1]}:${spot[1]}"/></mergeCells>`),
      );
      return spot;
    },
  },
  {
    what: "a hidden column of fan pressures",
    kind: "hidden readings",
    plant(workbook) {
      const { sheet, fanPressures } = workbook.test("pressurization");
      const column = fanPressures.left + 1;
      workbook.edit(workbook.part(sheet), (xml) =>
        xml.replace(`<col min="${column}" max="${column}"`, `<col min="${column}" max="${column}" hidden="1"`),
      );
      return new RegExp(`^${sheet}!`);
    },
  },
  {
    what: "a hidden sheet that the result rests on",
    kind: "hidden sheet",
    plant(workbook) {
      workbook.edit("xl/workbook.xml", (xml) => xml.replace('<sheet name="Firm"', '<sheet name="Firm" state="hidden"'));
      return /the sheet Firm/;
    },
  },
  {
    what: "a sheet hidden from Excel's own menu",
    kind: "hidden sheet",
    plant(workbook) {
      workbook.edit("xl/workbook.xml", (xml) =>
        xml.replace('<sheet name="Method"', '<sheet name="Method" state="veryHidden"'),
      );
      return /the sheet Method/;
    },
  },
  {
    what: "a number format that shows nothing",
    kind: "hidden value",
    plant(workbook) {
      const spot = resultOf(workbook);
      numberFormat(workbook, spot, ";;;");
      return spot;
    },
  },
  {
    what: "a number format that shows a figure of its own",
    kind: "hidden value",
    plant(workbook) {
      const spot = resultOf(workbook);
      numberFormat(workbook, spot, "&quot;0.48&quot;");
      return spot;
    },
  },
  {
    what: "a number format that shows a word of its own for any text",
    kind: "hidden value",
    plant(workbook) {
      const spot = workbook.find(/"PASS"/, "Cover");
      numberFormat(workbook, spot, "General;General;General;&quot;PASS&quot;");
      return spot;
    },
  },
  {
    what: "a hidden room",
    kind: "hidden cells",
    plant(workbook) {
      const values = { B22: "Store under the stairs", C22: "upper", D22: 2.1, E22: 2.9, G22: 2.45 };
      for (const [address, value] of Object.entries(values)) workbook.put(["Rooms", address], value);
      workbook.edit(workbook.part("Rooms"), (xml) => xml.replace('<row r="22"', '<row r="22" hidden="1"'));
      return /^Rooms!/;
    },
  },
  {
    what: "white letters on white ground",
    kind: "hidden value",
    plant: (workbook) => lettersIn(workbook, '<color rgb="FFFFFFFF"/>'),
  },
  {
    what: "letters in the window's white, darkened so little that nobody sees it",
    kind: "hidden value",
    plant: (workbook) => lettersIn(workbook, '<color theme="0" tint="-0.02"/>'),
  },
  { what: "letters of one point", kind: "hidden value", plant: speck },
  {
    what: "a conditional format that turns letters white",
    kind: "hidden value",
    plant: (workbook) => whitened(workbook, 'type="expression"', "<formula>TRUE</formula>"),
  },
  {
    what: "a ranking that turns letters white",
    kind: "hidden value",
    plant: (workbook) => whitened(workbook, 'type="top10" rank="1"', ""),
  },
  {
    what: "protection taken off one sheet",
    kind: "protection removed",
    plant(workbook) {
      workbook.edit(workbook.part("Results"), (xml) => xml.replace(/<sheetProtection[^>]*\/>/, ""));
      return /the sheet Results/;
    },
  },
  {
    what: "calculation set to manual",
    kind: "calculation settings",
    plant(workbook) {
      workbook.edit("xl/workbook.xml", (xml) => xml.replace("<calcPr ", '<calcPr calcMode="manual" '));
      return /the workbook/;
    },
  },
  {
    what: "precision as displayed",
    kind: "calculation settings",
    plant(workbook) {
      workbook.edit("xl/workbook.xml", (xml) => xml.replace("<calcPr ", '<calcPr fullPrecision="0" '));
      return /the workbook/;
    },
  },
];
