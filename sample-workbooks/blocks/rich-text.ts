import type { CellStyle, RichTextRun } from "./hucre";

/** A space at the edge of a run would need an attribute that the schema does not know; a no-break space needs none. */
const edges = (text: string) => text.replace(/^ | $/g, "\u00A0");

/** "q_{E50} in m^{3}" as runs: _{…} is set below the line, ^{…} above it. */
export function runsOf(marked: string, style: CellStyle): RichTextRun[] {
  const runs: RichTextRun[] = [];
  const font = style.font ?? {};
  for (const [, below, above, plain] of marked.matchAll(/_\{([^}]*)\}|\^\{([^}]*)\}|([^_^]+|[_^])/g)) {
    if (below !== undefined) runs.push({ text: below, font: { ...font, vertAlign: "subscript" } });
    else if (above !== undefined) runs.push({ text: above, font: { ...font, vertAlign: "superscript" } });
    else runs.push({ text: edges(plain ?? ""), font: { ...font } });
  }
  return runs;
}
