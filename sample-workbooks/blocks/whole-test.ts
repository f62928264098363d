/** Rows of the whole-test table of one direction, in their settled order. */
export const wholeTestSymbols: readonly string[] = [
  ..."direction count dp01 dp02 dp0 dp_min dp_max rho_i rho_e p_bar basis k_q q_min q_max dof t n s_n C s_lnC r2 standard rho_leak".split(
    " ",
  ),
  ..."C_L q50 n50 qE50 qF50 p_r q_pr n_pr qE_pr qF_pr ELA4 AL10 EqLA10 n_data prior_share limits zeros_dp0 method".split(
    " ",
  ),
];
