import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import type { Units } from "../blocks/units";
import { between, fromList } from "../blocks/validation";
import { openingTable } from "./instruments";
import { readingRows } from "./reading-rows";

/** Fans beside the first one of the readings, each with its columns: opening, fan pressure, flow. */
const fans = [
  { name: "fan 2", opening: "D", pressure: "E", flow: "F" },
  { name: "fan 3", opening: "G", pressure: "H", flow: "I" },
  { name: "fan 4", opening: "J", pressure: "K", flow: "L" },
] as const;

const rows = { title: 39, heads: 41, first: 42 } as const;
const sum = "M";
const rowOf = (reading: number) => rows.first + reading - readingRows.first;

/** The last row that the section takes. */
export const furtherFansLast = rowOf(readingRows.last);

/** The cell with what the further fans add to the indicated flow of a reading, blank where none ran; `reading` is its row. */
export const furtherFlow = (reading: number): string => `${sum}${rowOf(reading)}`;

/** Where one flow device is not enough: what each further one reads beside the first, reading by reading, and the flow that it adds. */
export function furtherFansSection(sheet: Sheet, { flow: unit }: Units): void {
  section(sheet, rows.title, ["B", "U"], "Further fans at the same time, for large buildings; blank where they rest");
  for (const { name, opening } of fans)
    sheet.put(`${opening}${rows.heads - 1}`, name, style({ align: "center" }, looks.group));
  columnHeads(sheet, rows.heads, "B", [
    "<no.",
    "",
    ...fans.flatMap(() => ["^opening", "pressure|Pa", `flow|${unit}`]),
    `added|${unit}`,
  ]);
  for (let reading = readingRows.first; reading <= readingRows.last; reading++) {
    const row = rowOf(reading);
    sheet.put(`B${row}`, reading - readingRows.first + 1, looks.unit).paint(`C${row}`, looks.label);
    for (const { opening, pressure, flow } of fans) {
      sheet.type(`${opening}${row}`, null, undefined, "center").type(`${pressure}${row}`, null, decimals(1));
      sheet.formula(`${flow}${row}`, flowOf(`${opening}${row}`, `${pressure}${row}`), native(decimals(1)));
    }
    const typed = fans.map(({ opening, pressure }) => `${opening}${row}:${pressure}${row}`).join(",");
    const flows = fans.map(({ flow }) => `${flow}${row}`).join(",");
    sheet.formula(`${sum}${row}`, `IF(COUNTA(${typed})=0,"",SUM(${flows}))`, native(decimals(1)));
  }
  for (const { opening, pressure } of fans) {
    const range = (letter: string) => `${letter}${rows.first}:${letter}${furtherFansLast}`;
    sheet.validate(
      fromList(
        range(opening),
        openingTable.name,
        "Opening",
        "The opening of this fan, as on the sheet Instruments; blank where it rests.",
      ),
      between(range(pressure), 0, 2000, "Fan pressure, Pa", "As this fan’s gauge shows it; blank where it rests."),
    );
  }
  sheet.rich(
    `O${rows.heads}`,
    "The row belongs to the reading with the same number. Each fan gives c · p^{m} of its opening, #N/A outside the range of its certificate; column L above is the sum of all fans. " +
      "The openings of all fans stand in one table on the sheet Instruments, a row of its own for each fan whose certificate differs; the certificates themselves go among the further instruments there. " +
      "The budget of uncertainty counts the whole flow of a reading under the opening of its first fan, which is the cautious side for its calibration.",
    looks.note,
  );
  sheet.merge(`O${rows.heads}:U${rows.heads + 6}`);
}

/** The indicated flow of one fan: blank where it rests, #N/A where half of the pair is missing, the certificate is, or the pressure leaves its range. */
function flowOf(opening: string, pressure: string): string {
  const found = (letter: string) => `INDEX(${openingTable.column(letter)},MATCH(${opening},${openingTable.name},0))`;
  const [c, m, from, to] = ["D", "E", "F", "G"].map(found) as [string, string, string, string];
  const certified = `IF(COUNT(${pressure},${c},${m},${from},${to})<5,NA(),IF(AND(${pressure}>=${from},${pressure}<=${to}),${c}*${pressure}^${m},NA()))`;
  return `IF(COUNTA(${opening},${pressure})=0,"",IF(COUNTA(${opening},${pressure})<2,NA(),${certified}))`;
}
