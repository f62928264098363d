import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { day, text } from "../blocks/validation";
import { footer, sheets } from "./layout";
import { positions, sampling } from "./scenario";

const rows = { record: 6, positions: 16 } as const;
const list = { first: rows.positions + 2, last: rows.positions + 11 } as const;

/** Which units were tested, by what rule, agreed by whom, and whether each kind of position is in the sample. */
export function samplingPage(): Page {
  const sheet = new Sheet(sheets.sampling, [1.5, 27, 14, 14, 14, 25], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:F${list.last + 7}`],
    pages: 1,
    footer,
  });
  const lead = "A sample stands for the building only as far as it was chosen to; so the choice is part of the result.";
  writePageHead(sheet, letterhead, ["B", "F"], sheets.sampling, lead);
  sheet.heightOf(16, 5, list.last + 7);
  writeRecord(sheet);
  writeCoverage(sheet);
  const place = (reference: string) => onSheet(sheets.sampling, reference);
  return {
    sheet,
    names: {
      PositionList: place(`B${list.first}:B${list.last}`),
      SampleShare: place(`C${rows.record + 6}`),
      SampleGaps: place(`C${rows.record + 7}`),
    },
  };
}

function writeRecord(sheet: Sheet): void {
  const at = rows.record;
  writeHeading(sheet, at - 1, ["B", "F"], "The choice");
  const wide = style({ vertical: "top" }, input(undefined, "left", true));
  const lines: readonly (readonly [label: string, value: string | number, format?: string])[] = [
    ["Rule of the sample", sampling.rule],
    ["Agreed with", sampling.agreed],
    ["Agreed on", sampling.agreedOn, shortDay],
    ["Reasons, and what stood in the way", sampling.reason],
  ];
  lines.forEach(([label, value, format], index) => {
    const row = at + index;
    sheet.put(`B${row}`, label, looks.label);
    sheet.put(`C${row}`, value, format ? input(format, "left") : wide).merge(`C${row}:F${row}`);
  });
  sheet.height(28, at, at + 3);
  // A unit at a position that is not listed, or at none, stands in no row of the list: it must not be lost.
  const listed = `MATCH(UnitPositions&"",B${list.first}:B${list.last}&"",0)`;
  const unlisted = `SUMPRODUCT((UnitNames<>"")*(UnitsTested<>"yes")*((UnitPositions="")+ISNA(${listed})>0))`;
  const counts: readonly (readonly [label: string, formula: string, format: string])[] = [
    ["Units of the building", "COUNTA(UnitNames)", decimals(0)],
    ["Units tested", 'COUNTIF(UnitsTested,"yes")', decimals(0)],
    ["Share of the units", `IF(C${at + 4}=0,"",C${at + 5}/C${at + 4})`, "0 %"],
    ["Positions without a tested unit", `COUNTIF(E${list.first}:E${list.last},"no")+${unlisted}`, decimals(0)],
    ["Tested units without a reason", 'SUMPRODUCT((UnitsTested="yes")*(UnitReasons=""))', decimals(0)],
  ];
  counts.forEach(([label, formula, format], index) => {
    const row = at + 4 + index;
    sheet.put(`B${row}`, label, looks.label).formula(`C${row}`, formula, native(format));
  });
  sheet.when(`C${at + 7}:C${at + 8}`, `C${at + 7}>0`, { font: { bold: true, color: { rgb: palette.fail } } });
  sheet.validate(
    text(`C${at}:F${at + 1}`, "Rule", "How many units of what kind, and who agreed to it.", 160),
    day(`C${at + 2}:F${at + 2}`, "Agreed on", "Before the tests, not after them."),
    text(`C${at + 3}:F${at + 3}`, "Reasons", "Why these units stand for the others; which could not be tested.", 250),
  );
}

function writeCoverage(sheet: Sheet): void {
  writeHeading(sheet, rows.positions, ["B", "F"], "Positions");
  writeColumnHeads(sheet, rows.positions + 1, "B", ["<position", "units", "tested", "^in the sample", "<<"]);
  for (let row = list.first; row <= list.last; row++) {
    sheet.type(`B${row}`, positions[row - list.first] ?? null, undefined, "left");
    const counted = (formula: string) => `IF(B${row}="","",${formula})`;
    sheet.formula(`C${row}`, counted(countOf("UnitPositions", `B${row}`)), native(decimals(0)));
    sheet.formula(`D${row}`, counted(`SUMPRODUCT((UnitPositions=B${row})*(UnitsTested="yes"))`), native(decimals(0)));
    sheet.formula(
      `E${row}`,
      `IF(OR(B${row}="",C${row}=0,C${row}=""),"",IF(D${row}>0,"yes","no"))`,
      native(undefined, "center"),
    );
  }
  sheet.when(`B${list.first}:E${list.last}`, `$E${list.first}="no"`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet.validate(
    text(`B${list.first}:B${list.last}`, "Position", "A kind of place in the building; no gaps in the list.", 30),
  );
  sheet.put(
    `B${list.last + 2}`,
    "How large a sample must be is the programme’s to say, and it says so in its own words: the rule above is what was agreed for this building. A value from a sample is a value of the tested units; it speaks for the rest where construction, " +
      "trade and time were the same. Positions without a tested unit stand out, and belong to the reasons; an untested unit whose position is not listed counts as one of them.",
    looks.note,
  );
  sheet.merge(`B${list.last + 2}:F${list.last + 5}`);
}
