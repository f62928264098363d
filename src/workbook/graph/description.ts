import type { GraphData, GraphLine } from "./data";
import { fixed, significant } from "./numbers";
import { targetWords } from "./targets";

/** The graph in words, for whoever does not see it. */
export function descriptionOf({ lines, targets, flowUnit }: GraphData): string {
  const limits = targets.map((target) => {
    const [flow, from] = targetWords(target, flowUnit);
    return `${flow}${target.pressure === 50 ? " at 50 Pa" : ""}${from === "" ? "" : ` (${from})`}`;
  });
  return [
    `Air leakage graph on logarithmic axes: flow through the envelope in ${flowUnit} against induced pressure difference in Pa.`,
    ...lines.map((line) => lineWords(line, flowUnit)),
    limits.length === 0 ? "No limit is marked." : `Marked: ${limits.join("; ")}.`,
  ].join(" ");
}

function lineWords(
  { name, used, excluded, exponent, coefficient, determination, q50 }: GraphLine,
  unit: string,
): string {
  const pressures = used.map(({ pressure }) => pressure);
  const range = `from ${significant(Math.min(...pressures), 3)} to ${significant(Math.max(...pressures), 3)} Pa`;
  const out = excluded.length === 0 ? "" : `, ${excluded.length} more not used`;
  return (
    `${name}: ${used.length} readings ${range}${out}; C ${significant(coefficient, 4)}, n ${fixed(exponent.value, 3)}, ` +
    `r² ${fixed(determination, 4)}, q50 ${significant(q50.value, 4)} ${unit}.`
  );
}
