import vectors from "../vectors.json";
import { baselineEntry } from "./baseline-sets";
import { budgetEntry } from "./budget-entry";
import { monteCarloEntry } from "./monte-carlo-entry";
import { baselineSets, budgets } from "./stored";

/** The groups of vectors.json that a program here computes, each entry from its own inputs. */
export const groups: Readonly<Record<string, () => readonly unknown[]>> = {
  budgets: () => budgets.map(budgetEntry),
  baseline_sets: () => baselineSets.map(baselineEntry),
};

/** The groups that take minutes: written only where they are named. */
export const simulations: Readonly<Record<string, () => readonly unknown[]>> = {
  monte_carlo: () => vectors.monte_carlo.map((entry) => monteCarloEntry(entry, budgets)),
};
