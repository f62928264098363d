import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, shortDay, style } from "../blocks/style";
import { countOf, countOfBoth } from "../blocks/typed-cells";
import { listPlaces, tradeCount } from "./basis";
import { footer, sheets } from "./layout";
import { register, severities, states } from "./register-columns";

const list = { heads: 7, first: 8, count: 14 } as const;
const listLast = list.first + list.count - 1;
/** First rows of the totals by trade and by storey, on the pages below the list. */
const trades = { at: 28, first: 31, last: 30 + tradeCount } as const;
const storeys = { at: 60, first: 63, last: 62 + tradeCount } as const;
const chartRows = 14;

const sum = style({ bold: true, top: palette.petrol, align: "right" });
const count = native(decimals(0));
const flow = native(decimals(1));

/** Which repair is worth most for its money; what is left and what was won, by trade and by storey. */
export function rankingPage(): Page {
  const lastRow = storeys.last + 3 + chartRows;
  const sheet = new Sheet(sheets.ranking, [1.5, 5, 5, 30, 14, 9.5, 8, 8, 8, 8, 12, 8.5, 9, 11.5], palette.copper, {
    orientation: "landscape",
    areas: [`B1:N${listLast + 3}`, `B${trades.at}:N${storeys.at - 2}`, `B${storeys.at}:N${lastRow}`],
    titleRows: "1:4",
    pages: 3,
    footer,
  });
  const lead =
    "The leaks that are still to be repaired, by the flow that they take away for their cost; and the totals of what there is to do.";
  writePageHead(sheet, letterhead, ["B", "N"], sheets.ranking, lead);
  sheet.heightOf(14, 5, lastRow).heightOf(24, list.first, listLast);
  writeRanking(sheet);
  writeTotals(sheet, trades, { title: "By trade", list: "Trades", field: "trade", right: 13 });
  writeTotals(sheet, storeys, { title: "By storey", list: "Storeys", field: "storey", right: 9 });
  countByWay(sheet);
  return { sheet, names: {} };
}

function writeRanking(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "N"], "Repairs by flow removed per cost");
  writeColumnHeads(sheet, list.heads, "B", [
    "<rank",
    "<leak",
    "<place",
    "<trade",
    "<state",
    "<planned",
    "flow|m³/h",
    "least|m³/h",
    "most|m³/h",
    "<<from",
    "cost",
    "m³/h per",
    "<<due",
  ]);
  sheet.formula("L7", '"cost, "&Currency', looks.columnHead).formula("M7", '"100 "&Currency', looks.columnHead);
  sheet.put("M6", "m³/h per", { ...looks.columnHead, border: {} });
  const typed = (field: Parameters<typeof register.typed>[0]) => register.typed(field);
  const words = style({ align: "left" }, looks.textLine);
  const columns: readonly (readonly [letter: string, range: string, look: typeof words])[] = [
    ["C", typed("no"), style({ bold: true }, words)],
    ["D", typed("place"), words],
    ["E", typed("trade"), words],
    ["F", typed("state"), words],
    ["G", typed("planned"), words],
    ["H", register.derived("flow"), flow],
    ["I", register.derived("from"), flow],
    ["J", register.derived("to"), flow],
    ["K", register.derived("basis"), style({ indent: 1 }, words)],
    ["L", typed("cost"), native("0.##")],
    ["M", register.derived("worth"), style({ bold: true }, flow)],
    ["N", typed("due"), style({ format: shortDay, indent: 1 }, words)],
  ];
  for (let row = list.first; row <= listLast; row++) {
    const place = row - list.first + 1;
    const match = `MATCH(${place},${register.derived("rank")},0)`;
    sheet.formula(`B${row}`, `IF(COUNT(${register.derived("rank")})<${place},"",${place})`, words);
    for (const [letter, range, look] of columns) {
      const value = `INDEX(${range},${match})`;
      sheet.formula(`${letter}${row}`, `IF($B${row}="","",IF(${value}="","",${value}))`, look);
    }
  }
  const ranks = `COUNT(${register.derived("rank")})`;
  const more = `IF(${ranks}>${list.count},"Further ranks in the register: "&${ranks}-${list.count}&". ","")`;
  const unranked = `SUMPRODUCT((${register.derived("share")}="left")*(${register.derived("rank")}=""))`;
  sheet.formula(
    `B${listLast + 2}`,
    `${more}&"Still to be repaired or retested, but without a flow or a cost, so without a rank: "&${unranked}&". Ranked by the likely flow; where least and most lie far apart, so may the ranks."`,
    looks.note,
  );
  sheet.merge(`B${listLast + 2}:N${listLast + 3}`);
}

interface Totals {
  readonly title: string;
  readonly list: "Trades" | "Storeys";
  readonly field: "trade" | "storey";
  /** The column at which the chart ends, counted from 0. */
  readonly right: number;
}

/** Leaks by their state, flow left and won, cost of what is planned; a chart of the flows below. */
function writeTotals(
  sheet: Sheet,
  { at, first, last }: typeof trades | typeof storeys,
  { title, list, field, right }: Totals,
): void {
  writeHeading(sheet, at, ["B", "N"], title);
  writeColumnHeads(sheet, first - 1, "D", [`<${field}`, ...states, "all", "left|m³/h", "planned|m³/h", "won|m³/h", ""]);
  sheet.put(`M${first - 2}`, "planned,", { ...looks.columnHead, border: {} });
  sheet.formula(`M${first - 1}`, '"cost, "&Currency', looks.columnHead);
  const names = register.typed(field);
  for (let row = first; row <= last; row++) {
    const name = onSheet(sheets.basis, `${listPlaces[list]}${row - first + listPlaces.first}`);
    sheet.formula(`D${row}`, `IF(${name}="","",${name})`, looks.label);
    const known = (value: string) => `IF(OR($D${row}="",COUNTA(${names})=0),"",${value})`;
    states.forEach((_, index) => {
      const letter = "EFGH".charAt(index);
      const counted = countOfBoth([names, `$D${row}`], [register.typed("state"), `${letter}$${first - 1}`]);
      sheet.formula(`${letter}${row}`, known(counted), count);
    });
    sheet.formula(`I${row}`, known(`SUM(E${row}:H${row})`), count);
    const flowOf = (condition: string, values = register.derived("flow")) =>
      known(`SUMPRODUCT((${names}=$D${row})*(${condition}),${values})`);
    sheet.formula(`J${row}`, flowOf(`${register.derived("share")}="left"`), flow);
    sheet.formula(`K${row}`, flowOf(`${register.typed("planned")}="yes"`), flow);
    sheet.formula(`L${row}`, flowOf(`${register.derived("share")}="won"`), flow);
    const cost = register.typed("cost");
    const planned = flowOf(`${register.typed("planned")}="yes"`, cost);
    sheet.formula(`M${row}`, `IF(COUNTA(${cost})>COUNT(${cost}),NA(),${planned})`, native("0.##"));
  }
  const total = last + 1;
  sheet.put(`D${total}`, "all", style({ align: "left" }, sum));
  for (const letter of "EFGHI") sheet.formula(`${letter}${total}`, `SUM(${letter}${first}:${letter}${last})`, sum);
  for (const letter of "JKL")
    sheet.formula(`${letter}${total}`, `SUM(${letter}${first}:${letter}${last})`, style({ format: decimals(1) }, sum));
  sheet.formula(`M${total}`, `SUM(M${first}:M${last})`, style({ format: "0.##" }, sum));
  sheet.put(`D${total + 1}`, `Rows that no count above holds: ${field} or state missing or unknown`, looks.note);
  sheet.merge(`D${total + 1}:H${total + 1}`);
  sheet.formula(`I${total + 1}`, `COUNTA(${register.typed("place")})-I${total}`, count);
  sheet.when(`I${total + 1}`, `I${total + 1}<>0`, { font: { bold: true, color: { rgb: palette.fail } } });
  drawTotals(sheet, total + 2, { field, first, last, right });
}

/** Flow left and flow won, side by side for each trade or storey. */
function drawTotals(
  sheet: Sheet,
  at: number,
  { field, first, last, right }: Pick<Totals, "field" | "right"> & { readonly first: number; readonly last: number },
): void {
  const column = (letter: string) => onSheet(sheets.ranking, `${letter}${first}:${letter}${last}`);
  const bars = [
    { name: "still to win", values: column("J"), colour: palette.copper },
    { name: "won", values: column("L"), colour: palette.petrol },
  ];
  const place = { from: { row: at, col: 3 }, to: { row: at + chartRows - 1, col: right } };
  sheet.chart(
    barChart("upright", column("D"), bars, place, {
      axisTitle: "flow at 50 Pa, m³/h",
      format: "0",
      textSize: 9,
      alternative: `Two bars for each ${field}: the flow at 50 Pa that its leaks still let through, and the flow that its repairs have won.`,
    }),
  );
}

/** Ways of finding, and the severity of what is still to be retested, beside the chart of the storeys. */
function countByWay(sheet: Sheet): void {
  const ways = storeys.last + 5;
  writeHeading(sheet, ways - 1, ["K", "M"], "How they were found");
  for (let index = 0; index < 5; index++) {
    const row = ways + index;
    const way = onSheet(sheets.basis, `${listPlaces.WaysOfFinding}${index + listPlaces.first}`);
    sheet.formula(`K${row}`, `IF(${way}="","",${way})`, looks.label).paint(`L${row}`, looks.label);
    sheet.formula(`M${row}`, `IF(K${row}="","",${countOf(register.typed("foundBy"), `K${row}`)})`, count);
  }
  const at = ways + 7;
  writeHeading(sheet, at - 1, ["K", "M"], "Still to be retested");
  severities.forEach((severity, index) => {
    const row = at + index;
    sheet.put(`K${row}`, severity, looks.label).paint(`L${row}`, looks.label);
    const inState = (state: string) =>
      countOfBoth([register.typed("severity"), `K${row}`], [register.typed("state"), `"${state}"`]);
    sheet.formula(`M${row}`, `${inState("open")}+${inState("repaired")}`, count);
  });
  const large = at + severities.length - 1;
  sheet.when(`K${large}:M${large}`, `$M$${large}>0`, { font: { bold: true, color: { rgb: palette.fail } } });
}

/** Where the Overview finds how many leaks there are in all, and how many in each state. */
export const countPlaces = {
  all: onSheet(sheets.ranking, `I${trades.last + 1}`),
  open: onSheet(sheets.ranking, `E${trades.last + 1}`),
  repaired: onSheet(sheets.ranking, `F${trades.last + 1}`),
  done: onSheet(sheets.ranking, `G${trades.last + 1}:H${trades.last + 1}`),
} as const;
