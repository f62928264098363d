import vectors from "../vectors.json";
import type { baselineEntry } from "./baseline-sets";
import type { budgetEntry } from "./budget-entry";

/** Entries of vectors.json with the types of the programs that compute them, which a JSON file cannot give. */
export const budgets = vectors.budgets as unknown as readonly ReturnType<typeof budgetEntry>[];
export const baselineSets = vectors.baseline_sets as unknown as readonly ReturnType<typeof baselineEntry>[];
