import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, shortDay, style } from "../blocks/style";
import { fromList, wholeBetween } from "../blocks/validation";
import { footer, sheets } from "./layout";
import { register } from "./register-columns";

const rows = { choice: 6, heads: 10, first: 11, count: 11 } as const;
const last = rows.first + rows.count - 1;
const [trade, page] = ["$D$6", "$D$7"];

/** On the Overview: the day of the report, and who answers for the site. */
const [reportDay, onSite] = [onSheet(sheets.overview, "G6"), onSheet(sheets.overview, "G8")];

/** Beside the page: which rows of the register belong to the trade, in the order of their days. */
const behind = { key: "N", place: "L" } as const;

/** One page to hand to a trade: its open leaks by the day on which they are due, with room to note what was done. */
export function tradePage(): Page {
  const sheet = new Sheet(sheets.trade, [1.5, 5, 7, 12, 31, 37, 18, 11, 15, 3, 3, 8, 3, 12], palette.copper, {
    orientation: "landscape",
    areas: [`B1:I${last + 4}`],
    pages: 1,
    footer,
  });
  const lead = "The open leaks of one trade, from the register: choose the trade, print, hand it over.";
  writePageHead(sheet, letterhead, ["B", "I"], sheets.trade, lead);
  sheet
    .heightOf(15, 5, rows.heads)
    .heightOf(25, rows.first, last)
    .height(6, rows.heads - 1, last + 1);
  sheet.formula("B2", `IF(${trade}="","Trade sheet","Leaks to repair: "&${trade})`, looks.title);
  writeChoice(sheet);
  writeRows(sheet);
  writeKeys(sheet);
  sheet.put(
    `B${last + 2}`,
    "Note the day and your initials once it is done. Nothing is lined or covered before the leak is retested under pressure: that is the last day on which it can be reached.",
    style({ size: 9 }, looks.text),
  );
  sheet.merge(`B${last + 2}:I${last + 2}`).height(26, last + 2);
  const line = style({ top: palette.ink, size: 8, colour: palette.grey, vertical: "top" });
  sheet.height(26, last + 3);
  sheet.put(`B${last + 4}`, "Handed over by: signature, day", line).paint(`B${last + 4}:E${last + 4}`, line);
  sheet.put(`G${last + 4}`, "Received by: signature, day", line).paint(`G${last + 4}:I${last + 4}`, line);
  return { sheet, names: {} };
}

function writeChoice(sheet: Sheet): void {
  writeHeading(sheet, rows.choice - 1, ["B", "I"], "For");
  const label = (row: number, words: string) => sheet.put(`B${row}`, words, looks.label).paint(`C${row}`, looks.label);
  label(rows.choice, "Trade");
  sheet.type(`D${rows.choice}`, "carpenter", undefined, "left").merge(`D${rows.choice}:E${rows.choice}`);
  label(rows.choice + 1, "Sheet number");
  sheet.type(`D${rows.choice + 1}`, 1, decimals(0), "left");
  const open = `COUNT(${keys})`;
  const pages = `MAX(1,ROUNDUP(${open}/${rows.count},0))`;
  sheet.formula(`E${rows.choice + 1}`, `"of "&${pages}`, style({ align: "left", indent: 1 }, looks.label));
  const right = (row: number, words: string) => sheet.put(`F${row}`, words, style({ align: "right" }, looks.label));
  right(rows.choice, "Open leaks of this trade");
  sheet.formula(`G${rows.choice}`, open, style({ indent: 1 }, native(decimals(0), "left")));
  right(rows.choice + 1, "Questions to");
  sheet
    .formula(`G${rows.choice + 1}`, `${onSite}&""`, style({ indent: 1, align: "left" }, looks.label))
    .merge(`G${rows.choice + 1}:I${rows.choice + 1}`);
  const message =
    `IF(${trade}="","Choose a trade.",IF(${open}=0,"Nothing is open for this trade.",IF(${page}>${pages},"There are fewer sheets than that.",` +
    `IF(${pages}>1,"This trade has more leaks than fit on one sheet: print all "&${pages}&", by their sheet numbers.",""))))`;
  sheet.formula(`B${rows.choice + 2}`, message, style({ bold: true, colour: palette.fail }));
  sheet.merge(`B${rows.choice + 2}:I${rows.choice + 2}`);
  sheet.validate(
    fromList(`D${rows.choice}:E${rows.choice}`, "Trades", "Trade", "The trade that gets this sheet."),
    wholeBetween(
      `D${rows.choice + 1}`,
      1,
      9,
      "Sheet number",
      "2 and more where a trade has more leaks than fit on one.",
    ),
  );
}

const keyRows = { first: rows.first, last: rows.first + register.rows - 1 } as const;
const keys = `$${behind.key}$${keyRows.first}:$${behind.key}$${keyRows.last}`;

/** A number for every open leak of the trade: its day, those without one last; its row keeps equal days apart. */
function writeKeys(sheet: Sheet): void {
  writeHeading(sheet, rows.heads - 1, [behind.place, behind.key], "Working cells (not printed)");
  writeColumnHeads(sheet, rows.heads, behind.place, ["row"]);
  writeColumnHeads(sheet, rows.heads, behind.key, ["day and row"]);
  for (let row = keyRows.first; row <= keyRows.last; row++) {
    const index = row - keyRows.first + 1;
    const of = (field: Parameters<typeof register.typed>[0]) => `INDEX(${register.typed(field)},${index})`;
    const belongs = `AND(${of("place")}<>"",${of("trade")}=${trade},${of("state")}="open")`;
    const dueDay = `IF(ISNUMBER(${of("due")}),${of("due")},99999)`;
    sheet.formula(`${behind.key}${row}`, `IF(${belongs},${dueDay}+${index}/1000,"")`, native("0.000"));
  }
}

function writeRows(sheet: Sheet): void {
  writeColumnHeads(sheet, rows.heads, "B", [
    "<leak",
    "<photo",
    "<storey",
    "<place",
    "<what to do",
    "<by whom",
    "<by",
    "<done: day, initials",
  ]);
  const fields = ["no", "photo", "storey", "place", "action", "byWhom", "due"] as const;
  const look = style({ wrap: true, align: "left" }, looks.textLine);
  for (let row = rows.first; row <= last; row++) {
    const turn = `(${page}-1)*${rows.count}+${row - rows.first + 1}`;
    sheet.formula(`${behind.place}${row}`, `IFERROR(MATCH(SMALL(${keys},${turn}),${keys},0),"")`, native("0"));
    fields.forEach((field, index) => {
      const value = `INDEX(${register.typed(field)},$${behind.place}${row})`;
      const shown = `IF($${behind.place}${row}="","",IF(${value}="","",${value}))`;
      const format = field === "due" ? { format: shortDay } : {};
      sheet.formula(`${"BCDEFGH".charAt(index)}${row}`, shown, style({ bold: field === "no", ...format }, look));
    });
    sheet.put(`I${row}`, null, look);
  }
  // Only what is filled is a box to write in.
  sheet.when(`I${rows.first}:I${last}`, `$${behind.place}${rows.first}<>""`, {
    fill: { type: "pattern", pattern: "solid", bgColor: { rgb: palette.petrolPale } },
  });
  sheet.when(`H${rows.first}:H${last}`, `AND(ISNUMBER($H${rows.first}),$H${rows.first}<${reportDay})`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}
