import { labels as known, type Label } from "../../../src/functions/settings/labels";
import type { House } from "./house";

/** The labels of a settings range. */
export const labels: readonly string[] = Object.keys(known);

/** The words that a label takes; none where it takes a number. */
const words = new Map(Object.entries(known).map(([label, { words = [] }]: [string, Label]) => [label, words]));

/** Where numbers of a label lie that a tester would type. */
const usual: readonly (readonly [RegExp, number, number])[] = [
  [/barometric/, 88_000, 104_000],
  [/temperature$/, -20, 35],
  [/humidity$|share|accuracy|uncertainty$/, 0, 0.1],
  [/confidence/, 0.6, 0.999],
  [/reference pressure/, 1, 100],
  [/density$/, 1, 1.3],
  [/exponent/, 0.45, 1],
  [/date|valid until/, 45_000, 48_000],
  [/trials/, 1000, 2000],
  [/class|storeys|beaufort|degrees of freedom/, 1, 5],
  [/volume|area|q50/, 50, 5000],
];

const numbered = (label: string, share: number) => {
  const [, lowest, highest] = usual.find(([pattern]) => pattern.test(label)) ?? [/./, 0, 20];
  return lowest + share * (highest - lowest);
};

/** Labels with sound values. What a whole test cannot do without mostly stands first. */
export function settingsOf({ settings, given }: House): unknown[][] {
  const needed: unknown[][] = [
    ["volume", 500],
    ["indoor temperature", 20],
    ["outdoor temperature", 5],
    ["flow basis", "through the envelope"],
    ["quantity", "air change rate"],
  ];
  const rows = given[0] === true && given[1] === true ? needed.slice(1) : needed;
  for (const [pick, share, asWord] of settings) {
    const label = labels[pick % labels.length] as string;
    if (rows.some(([name]) => name === label)) continue;
    const list = words.get(label) ?? [];
    if (list.length > 0) rows.push([label, list[Math.floor(share * list.length)] ?? list[0]]);
    else rows.push([label, asWord && share < 0.05 ? "AAABBB" : numbered(label, share)]);
  }
  return rows;
}
