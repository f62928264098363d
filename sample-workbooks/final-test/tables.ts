import { quoted } from "../blocks/add-in";
import type { CellStyle } from "../blocks/hucre";
import { decimals, fromAddIn, palette, style } from "../blocks/style";

/** Column heads of the add-in's tables. */
export const tableHeads = ["<what it is", "<symbol", "value", "lower", "upper", "<<unit", "<source"];

const one = decimals(1);
const two = decimals(2);
const three = decimals(3);
const four = decimals(4);
/** Pascals are whole, inches of mercury are not; a flow per area in cfm/ft² and a density in lb/ft³ need the more digits, the smaller their number. */
const barometer = "[>=1000]0;0.00";
const perArea = "[>=0.1]0.000;0.0000";
const density = "[>=0.5]0.0000;0.00000";

/** Digits that a reader wants to see, by the symbol of the row. */
const valueFormats: Readonly<Record<string, string>> = {
  C: three,
  n: four,
  r2: "0.00000",
  N: "0",
  dof: "0",
  t: four,
  s_n: four,
  s_lnC: four,
  n_data: four,
  prior_share: three,
  q50: one,
  dp01: two,
  dp02: two,
  dp0: two,
  dp_min: two,
  dp_max: two,
  rho_i: density,
  rho_e: density,
  p_bar: barometer,
  k_q: four,
  q_min: one,
  q_max: one,
  rho_leak: density,
  C_L: three,
  n50: three,
  qE50: perArea,
  qF50: perArea,
  p_r: "0",
  q_pr: one,
  n_pr: three,
  qE_pr: perArea,
  qF_pr: perArea,
  ELA4: one,
  AL10: one,
  EqLA10: one,
  zeros_dp0: "0",
};

/** The look of a cell of a table, by its column and by the symbol of its row; words shrink rather than being cut off. */
export function tableLook(column: number, symbol: string): CellStyle {
  if (column >= 5)
    return style(
      { size: 8, colour: palette.grey, shrink: true, indent: column === 5 ? 1 : 0 },
      fromAddIn(undefined, "left"),
    );
  if (column < 2) return style({ shrink: true }, fromAddIn(undefined, "left"));
  const format = valueFormats[symbol];
  return format ? fromAddIn(format) : style({ shrink: true }, fromAddIn());
}

/** A row of a table by its symbol. */
export function placeIn(symbols: readonly string[], symbol: string): number {
  const place = symbols.indexOf(symbol);
  if (place < 0) throw new Error(`the table has no row ${symbol}`);
  return place;
}

/**
 * A value of a table that fills cells, or #N/A where its row does not carry the symbol. Three traps are behind this: a table that gives one error
 * leaves the cells below blank, and a plain reference would read them as 0; so would it a value that is blank where the table is frozen; and MATCH
 * takes no notice of letter case, so that the number of readings N could be taken for the exponent n.
 */
export function guardedCell(symbol: string, symbolCell: string, valueCell: string): string {
  return `IF(${symbolCell}=${quoted(symbol)},IF(${valueCell}="","",${valueCell}),NA())`;
}
