import type { Finding } from "../../workbook/index";

/** Findings of one kind and severity, the first of them standing for all. */
export interface Gathered {
  readonly first: Finding;
  readonly rest: readonly Finding[];
}

/** Where one cause makes many findings, they are read as one; two or three are read one by one. */
const fewest = 4;

export function gathered(findings: readonly Finding[], all: boolean): Gathered[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const key = `${finding.severity} ${finding.kind}`;
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].flatMap((group) => {
    if (all || group.length < fewest) return group.map((first) => ({ first, rest: [] }));
    const [first, ...rest] = group;
    return first ? [{ first, rest }] : [];
  });
}
