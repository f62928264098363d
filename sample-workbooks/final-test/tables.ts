import type { CellStyle } from "../blocks/hucre";
import { palette } from "../blocks/palette";
import { decimals, fromAddIn, style } from "../blocks/style";

/** Column heads of the add-in's tables. */
export const tableHeads = ["<what it is", "<symbol", "value", "lower", "upper", "<<unit", "<source"];

const one = decimals(1);
const two = decimals(2);
const three = decimals(3);
const four = decimals(4);

/** Digits that a reader wants to see, by the symbol of the row. */
export const valueFormats: Readonly<Record<string, string>> = {
  C: three,
  n: four,
  r2: "0.00000",
  N: "0",
  dof: "0",
  t: four,
  s_n: four,
  s_lnC: four,
  q50: one,
  dp01: two,
  dp02: two,
  dp0: two,
  dp_min: two,
  dp_max: two,
  rho_i: four,
  rho_e: four,
  p_bar: "0",
  k_q: four,
  q_min: one,
  q_max: one,
  rho_leak: four,
  C_L: three,
  n50: three,
  qE50: three,
  qF50: three,
  p_r: "0",
  q_pr: one,
  n_pr: three,
  qE_pr: three,
  qF_pr: three,
  ELA4: one,
  AL10: one,
  EqLA10: one,
};

/** The look of a table's columns that hold words: what it is, symbol, unit, source. */
export function textLook(column: number): CellStyle {
  const base = fromAddIn(undefined, "left", column >= 5 ? 8 : 9);
  return column >= 5 ? style({ size: 8, colour: palette.grey }, base) : base;
}
