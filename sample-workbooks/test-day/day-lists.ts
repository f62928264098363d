import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native, palette, style } from "../blocks/style";
import { checkFormats } from "./day-checks";
import { cautionsList, packingList, peopleList } from "./lists";

const lists = [
  ["Openings to prepare", "PreparationOpen", "PreparationAll"],
  ["Things to pack", packingList.open, packingList.all],
  ["People to tell", peopleList.open, peopleList.all],
  ["Cautions to see to", cautionsList.open, cautionsList.all],
] as const;

/** How far the lists are. */
export function listLines(sheet: Sheet, at: number): void {
  section(sheet, at, ["B", "H"], "Still open on the lists");
  lists.forEach(([label, open, all], index) => {
    const row = at + 1 + index;
    sheet.put(`B${row}`, label, looks.label);
    sheet.formula(`C${row}`, open, style({ bold: true }, native("0")));
    sheet.formula(`D${row}`, `"of "&(${all})`, looks.unit);
    sheet.formula(`E${row}`, `IF(C${row}=0,"all seen to","")`, looks.label).paint(`F${row}:H${row}`, looks.label);
    sheet.when(`C${row}`, `C${row}>0`, { font: { bold: true, color: { rgb: palette.copper } } });
  });
}

interface Places {
  readonly panel: string;
  readonly first: number;
  readonly count: number;
  readonly lists: number;
}

/** The same beside the page, label, value and unit, as the recalculation prints it. */
export function daySummary(sheet: Sheet, { panel, first, count, lists: listsAt }: Places): string {
  section(sheet, 5, ["J", "L"], "Summary (not printed)");
  sheet
    .put("J6", "A valid test is", looks.strong)
    .formula("K6", `LOWER(${panel})`, native())
    .put("L6", null, looks.unit);
  for (let index = 0; index < count; index++) {
    const [row, at] = [7 + index, first + index];
    sheet
      .formula(`J${row}`, `B${at}`, looks.label)
      .formula(`K${row}`, `IF(C${at}="","",C${at})`, native(checkFormats[index]));
    sheet.formula(`L${row}`, `IF(D${at}="",F${at},D${at}&", "&F${at})`, looks.unit);
  }
  lists.forEach(([label], index) => {
    const row = 7 + count + index;
    sheet.put(`J${row}`, `${label}, open`, looks.label);
    sheet.formula(`K${row}`, `C${listsAt + index}`, native("0")).formula(`L${row}`, `D${listsAt + index}`, looks.unit);
  });
  return `J6:L${6 + count + lists.length}`;
}
