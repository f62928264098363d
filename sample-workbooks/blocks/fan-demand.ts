import { columnHeads } from "./heading";
import type { Sheet } from "./sheet";
import { decimals, fromAddIn, palette, style } from "./style";

/** Symbols of the table of FANDEMAND, in order; they never change. */
const symbols = [
  "q50",
  "n",
  "dp_max",
  "q_env_dep",
  "q_fan_dep",
  "q_ind_dep",
  "opening_dep",
  "p_fan_dep",
  "q_env_pres",
  "q_fan_pres",
  "q_ind_pres",
  "opening_pres",
  "p_fan_pres",
] as const;

export const fanDemandRows = symbols.length;

const wholeNumbers: readonly string[] = ["dp_max", "p_fan_dep", "p_fan_pres"];

/** The cell of a value of the table whose first row is given, in column D. */
export function fanDemandCell(at: number, symbol: (typeof symbols)[number]): string {
  return `D${at + symbols.indexOf(symbol)}`;
}

/** Column heads above a row, and the table of a call of FANDEMAND from there on, B to H. */
export function fanDemandTable(sheet: Sheet, at: number, call: string): void {
  columnHeads(sheet, at - 1, "B", ["<what it is", "<symbol", "value", "lower", "upper", "<<unit", "<source"]);
  sheet.addIn(`B${at}:H${at + symbols.length - 1}`, call, (row, column) => {
    const symbol = symbols[row] ?? "";
    if (column === 2) return fromAddIn(symbol === "n" ? decimals(2) : decimals(wholeNumbers.includes(symbol) ? 0 : 1));
    const words = fromAddIn(undefined, "left");
    if (column === 5) return style({ size: 8, colour: palette.grey, indent: 1 }, words);
    return style({ shrink: true, ...(column === 6 && { size: 8, colour: palette.grey }) }, words);
  });
}

/** A sentence on the flow and the opening of one direction; blank while the table has no figures. */
export function fanDemandWords(at: number, direction: "dep" | "pres"): string {
  // A table that gives one error leaves the cells below it blank: the symbol beside the value tells whether the row is there.
  const value = (symbol: (typeof symbols)[number]) => {
    const cell = fanDemandCell(at, symbol);
    return `IF(${cell.replace("D", "C")}="${symbol}",${cell},"")`;
  };
  const [flow, opening, pressure] = [
    value(`q_fan_${direction}`),
    value(`opening_${direction}`),
    value(`p_fan_${direction}`),
  ];
  const name = direction === "dep" ? "Depressurization" : "Pressurization";
  const gives = `"opening “"&${opening}&"” gives it at a fan pressure of "&ROUND(${pressure},0)&" Pa."`;
  const sentence = `"${name}: "&ROUND(${flow},0)&" m³/h at the fan; "&IF(${opening}="none","no opening of this device gives it.",${gives})`;
  return `IFERROR(IF(ISNUMBER(${flow}),${sentence},""),"")`;
}
