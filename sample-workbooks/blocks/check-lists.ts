import { onSheet } from "./address";
import { letterhead, writeHeading, writePageHead } from "./heading";
import { heightFor, Sheet } from "./sheet";
import { looks, palette, style } from "./style";
import { oneOf, text } from "./validation";

export const statuses = ["done", "not yet", "n/a"] as const;

export type Status = (typeof statuses)[number];

/** What is to be done or taken along, why or how, and how far it is. */
export type StatusItem = readonly [what: string, words: string, status?: Status];

interface Words {
  readonly name: string;
  readonly title: string;
  readonly lead: string;
  readonly footer: string;
  readonly stages: readonly (readonly [heading: string, items: readonly StatusItem[]])[];
  /** Rows left free under each heading. */
  readonly spare: number;
  /** What stands at the end. */
  readonly closing: string;
}

const width = 62;

/** A list to be gone through, each row done, not yet, or n/a; gives formulas that count what is still open and all of it. */
export function statusList({ name, title, lead, footer, stages, spare, closing }: Words): {
  readonly sheet: Sheet;
  readonly open: string;
  readonly all: string;
} {
  const rowsOf = stages.map(([, items]) => items.length + spare);
  const last = 5 + rowsOf.reduce((sum, rows) => sum + rows + 2, 0);
  const sheet = new Sheet(name, [1.5, 30, width, 11, 12], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:E${last + 1}`],
    pages: 1,
    footer,
  });
  writePageHead(sheet, letterhead, ["B", "E"], title, lead);
  const ranges: (readonly [first: number, last: number])[] = [];
  let row = 5;
  stages.forEach(([heading, items], index) => {
    writeHeading(sheet, row, ["B", "E"], heading);
    const head = style({ size: 8, colour: palette.grey, align: "left", vertical: "bottom", bottom: palette.petrol });
    sheet.put(`D${row}`, "status", head).put(`E${row}`, "by", head).height(18, row);
    const count = rowsOf[index] ?? 0;
    for (let offset = 0; offset < count; offset++) writeItem(sheet, row + 1 + offset, items[offset]);
    ranges.push([row + 1, row + count]);
    row += count + 2;
  });
  sheet.put(`B${last}`, closing, looks.note).merge(`B${last}:E${last + 1}`);
  const sum = (of: (first: number, last: number) => string) => ranges.map(([first, end]) => of(first, end)).join("+");
  const range = (letter: string, first: number, end: number) => onSheet(name, `${letter}${first}:${letter}${end}`);
  const all = sum((first, end) => `COUNTA(${range("B", first, end)})`);
  const settled = sum((first, end) =>
    statuses
      .filter((status) => status !== "not yet")
      .map((status) => `COUNTIF(${range("D", first, end)},"${status}")`)
      .join("+"),
  );
  return { sheet, open: `MAX(0,${all}-(${settled}))`, all };
}

function writeItem(sheet: Sheet, row: number, item: StatusItem | undefined): void {
  if (item) {
    sheet.put(`B${row}`, item[0], style({ bold: true }, looks.textLine));
    sheet.put(`C${row}`, item[1], looks.textLine);
    sheet.height(Math.max(heightFor(item[1], width), heightFor(item[0], 28)), row);
  } else {
    sheet.type(`B${row}`, null, undefined, "left").type(`C${row}`, null, undefined, "left").height(15, row);
    sheet.validate(text(`B${row}:C${row}`, "One more", "What else is to be done, and how.", 120));
  }
  sheet
    .type(`D${row}`, item?.[2] ?? (item ? "not yet" : null), undefined, "left")
    .type(`E${row}`, null, undefined, "left");
  sheet.validate(
    oneOf(`D${row}`, statuses, "Status", "Done, not yet, or n/a: it does not apply here."),
    text(`E${row}`, "By", "Initials of the person who saw to it.", 20),
  );
}

/** What is to be seen to, and why. */
type Caution = readonly [what: string, words: string];

/** Cautions under a heading: before, while, afterwards. */
export type CautionStage = readonly [stage: string, items: readonly Caution[]];

/** A list to go through on the day, with room for initials; `beside` are widths of columns to the right of it. */
export function cautionSheet(
  name: string,
  footer: string,
  lead: string,
  stages: readonly CautionStage[],
  beside: readonly number[] = [],
): Sheet {
  const items = stages.reduce((sum, [, list]) => sum + list.length, 0);
  const last = 5 + items + 2 * stages.length;
  const sheet = new Sheet(name, [1.5, 27, 56, 12, ...beside], palette.copper, {
    orientation: "portrait",
    areas: [`B1:D${last}`],
    pages: 1,
    footer,
  });
  writePageHead(sheet, letterhead, ["B", "D"], name, lead);
  let row = 5;
  for (const [stage, list] of stages) {
    writeHeading(sheet, row, ["B", "D"], stage);
    const head = style({ size: 8, colour: palette.grey, align: "right", vertical: "bottom", bottom: palette.petrol });
    sheet.put(`D${row}`, "seen to by", head).height(18, row);
    for (const [what, words] of list) {
      row += 1;
      sheet.put(`B${row}`, what, style({ bold: true }, looks.textLine));
      sheet.put(`C${row}`, words, looks.textLine);
      sheet.type(`D${row}`, null, undefined, "left").height(heightFor(words, 56) + 4, row);
      sheet.validate(text(`D${row}`, "Seen to by", "Initials of the person who saw to it.", 20));
    }
    row += 2;
  }
  const closing = "The results are the tester’s responsibility under local codes. The workbook replaces no licence.";
  sheet.put(`B${row}`, closing, looks.note).merge(`B${row}:D${row}`);
  return sheet;
}
