import { onSheet } from "./address";
import { writeColumnHeads, writeHeading } from "./heading";
import type { Sheet } from "./sheet";
import { decimals, fromAddIn, native, palette, style } from "./style";
import { between, text } from "./validation";

/** An opening of a flow device: q = c · p^m in m³/h, valid between two fan pressures, Pa. */
export type DeviceOpening = readonly [name: string, c: number, m: number, lowest: number, highest: number];

/** The names by which a form takes over a firm's openings, column by column. */
export function nameOpenings(
  column: (letter: string) => string,
  [name, coefficient, exponent, from, to]: readonly [string, string, string, string, string],
): Record<string, string> {
  return {
    OpeningNames: column(name),
    OpeningCoefficients: column(coefficient),
    OpeningExponents: column(exponent),
    OpeningFrom: column(from),
    OpeningTo: column(to),
  };
}

/** The openings of a flow device, B to H from a heading on; gives the five columns as a call of the add-in takes them, and their names. */
export function writeFlowDeviceTable(
  sheet: Sheet,
  at: number,
  openings: readonly DeviceOpening[],
  rows = 6,
): { readonly range: string; readonly names: Record<string, string> } {
  const [heads, first, last] = [at + 1, at + 2, at + 1 + rows];
  writeHeading(sheet, at, ["B", "H"], "Flow device, from its certificate: flow = c · (fan pressure)^{m}");
  const flows = ["lowest flow, m³/h", "highest flow, m³/h"];
  writeColumnHeads(sheet, heads, "B", ["<opening", "c, m³/h at 1 Pa", "m", "from, Pa", "to, Pa", ...flows]);
  for (let row = first; row <= last; row++) {
    const [name = null, c = null, m = null, from = null, to = null] = openings[row - first] ?? [];
    sheet.type(`B${row}`, name, undefined, "left").type(`C${row}`, c, decimals(2)).type(`D${row}`, m, decimals(3));
    sheet.type(`E${row}`, from, decimals(0)).type(`F${row}`, to, decimals(0));
    const flowAt = (pressure: string) => `IF(COUNT($C${row}:$F${row})<4,"",$C${row}*${pressure}${row}^$D${row})`;
    sheet.formula(`G${row}`, flowAt("E"), native(decimals(0))).formula(`H${row}`, flowAt("F"), native(decimals(0)));
  }
  sheet.validate(
    text(`B${first}:B${last}`, "Opening", "Name of the opening, from the largest to the smallest.", 20),
    between(`C${first}:C${last}`, 0.001, 100000, "c, m³/h", "Flow coefficient of this opening from the certificate."),
    between(`D${first}:D${last}`, 0.3, 1, "m", "Exponent of this opening from the certificate, near 0.5."),
    between(`E${first}:F${last}`, 0, 2000, "Valid range, Pa", "Fan pressures between which the certificate holds."),
  );
  const column = (letter: string) => onSheet(sheet.name, `${letter}${first}:${letter}${last}`);
  return { range: `$B$${first}:$F$${last}`, names: nameOpenings(column, ["B", "C", "D", "E", "F"]) };
}

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
export function writeFanDemandTable(sheet: Sheet, at: number, call: string): void {
  writeColumnHeads(sheet, at - 1, "B", ["<what it is", "<symbol", "value", "lower", "upper", "<<unit", "<source"]);
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
