import vectors from "../vectors.json";
import { baselineEntry } from "./baseline-sets";
import { budgetEntry } from "./budget-entry";
import { conformity } from "./conformity";
import { monteCarloEntry } from "./monte-carlo-entry";
import { repair } from "./repair";
import { risks } from "./risks";
import { baselineSets, budgets } from "./stored";

/** The groups of vectors.json that a program here computes, each entry from its own inputs. */
export const groups: Readonly<Record<string, () => readonly unknown[]>> = {
  budgets: () => budgets.map(budgetEntry),
  baseline_sets: () => baselineSets.map(baselineEntry),
  conformity: () => vectors.conformity.map((entry) => conformity(entry as Parameters<typeof conformity>[0])),
  risks: () => vectors.risks.map((entry) => risks(entry as Parameters<typeof risks>[0])),
  repair: () => vectors.repair.map((entry) => repair(entry as Parameters<typeof repair>[0])),
};

/** The groups that take minutes: written only where they are named. */
export const simulations: Readonly<Record<string, () => readonly unknown[]>> = {
  monte_carlo: () => vectors.monte_carlo.map((entry) => monteCarloEntry(entry, budgets)),
};
