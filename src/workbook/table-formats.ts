import { barometer, byResult, decimals } from "./looks";

/** Rows of the whole-test table of one direction, in their settled order. */
export const wholeTestSymbols: readonly string[] = [
  ..."direction count dp01 dp02 dp0 dp_min dp_max rho_i rho_e p_bar basis k_q q_min q_max dof t n s_n C s_lnC r2 standard rho_leak".split(
    " ",
  ),
  ..."C_L q50 n50 qE50 qF50 p_r q_pr n_pr qE_pr qF_pr ELA4 AL10 EqLA10 n_data prior_share limits zeros_dp0 method".split(
    " ",
  ),
];

const one = decimals(1);
const two = decimals(2);
const three = decimals(3);
const four = decimals(4);
/** A flow per area in cfm/ft² and a density in lb/ft³ need the more digits, the smaller their number. */
const perArea = "[>=0.1]0.000;0.0000";
const density = "[>=0.5]0.0000;0.00000";

/** Digits that a reader wants to see of a result, by the symbol of its row. */
export const resultFormats: Readonly<Record<string, string>> = {
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

/** The columns of a table of UNCERTAINTYBUDGET: undefined for words. */
export const budgetFormats: readonly (string | undefined)[] = [
  undefined,
  undefined,
  byResult,
  undefined,
  four,
  four,
  "0.0 %",
  "0",
  byResult,
  byResult,
  undefined,
];

/** What a check measures: counts, pressures, shares and exponents in one column. */
export const measuredFormat = "[>=100]0;[>=10]0.0;0.00##";
