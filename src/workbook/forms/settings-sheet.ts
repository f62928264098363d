import { type Setting, settingsReference } from "../../functions/settings/reference";
import { addSheet, findFreeSheetName } from "../added-sheet/add-sheet";
import {
  estimateHeight,
  fixAddresses,
  formatRange,
  writeColumns,
  writeRow,
  writeTextCell,
  writeValueCell,
} from "../added-sheet/cells";
import { type Look, withAddedStyles } from "../added-sheet/styles";
import { quoteSheetName } from "../book/address";
import type { OpenedWorkbook } from "../file/open";
import { writeCopy } from "../file/write/write-back";
import { encodeText } from "../file/xml/text";
import { readUnits } from "./firm";

const headings = ["label", "value", "unit", "if blank", "example", "meaning", "read by"];
/** Column widths, a margin first, so that 10 pt stay 8 pt on a landscape page; and the characters of a line in each column behind it. */
const widths = [2, 31, 16, 10, 22, 20, 44, 38];
const lineLengths = [30, 15, 10, 20, 18, 42, 28];
const firstColumn = 1;
const [labelColumn, valueColumn, lastColumn] = [firstColumn, firstColumn + 1, firstColumn + headings.length - 1];
const headingRow = 4;
const firstRow = headingRow + 1;
const lastRow = headingRow + settingsReference.length;

const titled = "Settings of the functions";
const describeUse = (range: string): string =>
  `Type values in the second column; what stays blank does not count. ${range} is a range of settings: one block serves every function that takes one, such as =STILLAIR.TESTRESULT(…, ${range}). ` +
  "The sheets of this form have settings of their own, which stay as they are.";

/** A form with one sheet more: every label of the settings, a cell for its value, and what is known of it. */
export function addSettingsSheet(form: OpenedWorkbook): { readonly bytes: Uint8Array; readonly sheetName: string } {
  const sheetName = findFreeSheetName(form.book, "Settings");
  const system = readUnits(form.book) === "IP" ? "IP" : "SI";
  let style: (look: Look) => number = () => 0;
  const parts = addSheet(form, {
    name: sheetName,
    names: [
      {
        name: "_xlnm.Print_Area",
        reference: fixAddresses(formatRange(1, firstColumn, lastRow, lastColumn)),
        ofSheet: true,
      },
      { name: "_xlnm.Print_Titles", reference: `$${headingRow}:$${headingRow}`, ofSheet: true },
    ],
    styles: (partName, text) => {
      const styled = withAddedStyles(partName, text);
      ({ style } = styled);
      return styled.text;
    },
    content: (namespace) => writeSheet(sheetName, system, (look) => style(look), namespace),
  });
  return { bytes: writeCopy(form, [], parts), sheetName };
}

type Style = (look: Look) => number;

function writeSheet(sheetName: string, system: "SI" | "IP", style: Style, namespace: string): string {
  const range = `${quoteSheetName(sheetName)}!${formatRange(firstRow, labelColumn, lastRow, valueColumn)}`;
  const rows = [
    writeRow(1, 28, [writeTextCell(1, firstColumn, titled, style("title"))]),
    writeRow(2, 38, [writeTextCell(2, firstColumn, describeUse(range), style("note"))]),
    writeRow(
      headingRow,
      18,
      headings.map((name, place) => writeTextCell(headingRow, firstColumn + place, name, style("heading"))),
    ),
    ...settingsReference.map((setting, place) => writeSetting(firstRow + place, setting, system, style)),
  ];
  const merged = [1, 2].map((row) => `<mergeCell ref="${formatRange(row, firstColumn, row, lastColumn)}"/>`);
  const lists = settingsReference.flatMap(({ words }, place) => writeWordList(firstRow + place, words));
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${namespace}">` +
    `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><dimension ref="${formatRange(1, firstColumn, lastRow, lastColumn)}"/>` +
    `<sheetViews><sheetView showGridLines="0" workbookViewId="0"><pane ySplit="${headingRow}" topLeftCell="A${firstRow}" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>` +
    `<sheetFormatPr defaultRowHeight="15"/>${writeColumns(widths)}<sheetData>${rows.join("")}</sheetData>` +
    `<mergeCells count="${merged.length}">${merged.join("")}</mergeCells>` +
    `<dataValidations count="${lists.length}">${lists.join("")}</dataValidations>` +
    `<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.7" header="0.3" footer="0.3"/>` +
    `<pageSetup paperSize="9" orientation="landscape" fitToWidth="1" fitToHeight="0"/>` +
    `<headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of &amp;N</oddFooter></headerFooter></worksheet>`
  );
}

function writeSetting(row: number, setting: Setting, system: "SI" | "IP", style: Style): string {
  const { label, means, unit, ifBlank, example, words, zeroIsValue, functions, isRecord } = setting;
  const meaning = [
    means,
    ...(zeroIsValue ? ["0 is a value"] : []),
    ...(words.length > 0 ? [`one of: ${words.map(({ word }) => word).join(", ")}`] : []),
  ].join("; ");
  const readers = isRecord ? "no function: for the record" : functions.join(", ");
  const texts = [label, "", unit[system], ifBlank[system], String(example[system]), meaning, readers];
  return writeRow(
    row,
    estimateHeight(texts, lineLengths),
    texts.map((text, place) =>
      firstColumn + place === valueColumn
        ? writeValueCell(row, valueColumn, label === "units" ? system : null, style("input"))
        : writeTextCell(row, firstColumn + place, text, style("entry")),
    ),
  );
}

/** A list to choose from; the words contain no comma, and are short enough for a list in the rule itself. */
function writeWordList(row: number, words: Setting["words"]): string[] {
  if (words.length === 0) return [];
  const list = encodeText(`"${words.map(({ word }) => word).join(",")}"`);
  const place = formatRange(row, valueColumn, row, valueColumn);
  return [
    `<dataValidation type="list" allowBlank="1" showErrorMessage="1" sqref="${place}"><formula1>${list}</formula1></dataValidation>`,
  ];
}
