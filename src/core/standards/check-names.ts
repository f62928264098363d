/** The rows of the table that first was given out. Workbooks may read them by their places, which stay. */
export const firstCheckNames = [
  "direction",
  "count_dp0",
  "dp01+",
  "dp01-",
  "dp02+",
  "dp02-",
  "count",
  "dp_min",
  "dp0_of_min",
  "reading_of_min",
  "dp_max",
  "dp_span",
  "dp_step",
  "n",
  "r2",
  "r",
  "s_q10",
  "height_dT",
  "wind",
  "beaufort",
  "gauge_days",
  "fan_days",
  "reach_50",
  "reach_4",
  "reach_pr",
  "n50",
  "q50_apart",
] as const;

/** What can be checked about one direction of a test; also the keys of the table, which never change. Later rows follow the first ones; `method` is the last. */
export const checkNames = [
  ...firstCheckNames,
  "dp_min_about",
  "dp0_range",
  "zeros_dp0",
  "theta_e",
  "technique",
  "ci_q50",
  "ci_qE75",
  "method",
] as const;

export type CheckName = (typeof checkNames)[number];
