import { normalQuantile } from "./normal";

/** ±1.96: what encloses 95 % of a standard normal distribution. */
export const normal95 = normalQuantile(0.025);
