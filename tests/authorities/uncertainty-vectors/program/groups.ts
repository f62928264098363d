import vectors from "../vectors.json";
import { conformity } from "./conformity";
import { repair } from "./repair";
import { risks } from "./risks";

/** The groups of vectors.json that a program here computes, each entry from its own inputs. */
export const groups: Readonly<Record<string, () => readonly unknown[]>> = {
  conformity: () => vectors.conformity.map((entry) => conformity(entry as Parameters<typeof conformity>[0])),
  risks: () => vectors.risks.map((entry) => risks(entry as Parameters<typeof risks>[0])),
  repair: () => vectors.repair.map((entry) => repair(entry as Parameters<typeof repair>[0])),
};
