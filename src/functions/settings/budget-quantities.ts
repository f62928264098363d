/** Results that a budget can be made for, by their symbols in TESTRESULT. */
export const budgetQuantities = [
  "n",
  "C",
  "C_L",
  "q50",
  "n50",
  "qE50",
  "qF50",
  "q_pr",
  "n_pr",
  "qE_pr",
  "qF_pr",
  "ELA4",
  "AL10",
  "EqLA10",
] as const;

export type BudgetQuantity = (typeof budgetQuantities)[number];
