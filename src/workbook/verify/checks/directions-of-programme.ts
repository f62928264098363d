import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import { listDescendants } from "../../formula/parse/syntax";
import { shorten } from "../../file/problem";
import { formatCellValue } from "../../formatting";
import type { Finding } from "../finding";
import { findEntry } from "../look-ups";
import type { Check } from "../review";

const one = /^(either|one|any|depressurization|pressurization)\b/i;
const both = /^both\b/i;
const sourceWords = /source|programme|program|standard|quelle|référence/i;
const furthest = 20;

/**
 * A criterion under which one direction is enough, though the other criteria of the same source ask for both, where a verdict rests on one
 * direction.
 */
export const checkDirectionsOfProgramme: Check = ({ view, judgements }) => {
  const restsOnOne = judgements.some(
    ({ runs }) => runs.length > 0 && new Set(runs.map((run) => run.direction)).size === 1,
  );
  if (!restsOnOne) return [];
  const seen = new Set<string>();
  return view.listFormulaPlaces().flatMap((place): Finding[] => {
    const root = one.test(view.readText(place)) ? view.parseFormulaAt(place)?.root : undefined;
    const entries = root ? listDescendants(root).flatMap((node) => findEntry(view, node, place) ?? []) : [];
    return entries.flatMap((entry): Finding[] => {
      const address = view.formatAddress(entry);
      if (seen.has(address) || !view.isTyped(entry) || !one.test(view.readText(entry))) return [];
      seen.add(address);
      const other = findStricter(view, entry);
      if (!other) return [];
      return [
        {
          kind: "one direction accepted",
          severity: "warning",
          place: address,
          what: `The criterion accepts one direction (${formatCellValue(view.readText(entry))}), and the verdict rests on one; another criterion of the same source, ${shorten(readSource(view, entry))}, asks for both (${view.formatAddress(other)}).`,
          why: "A house often leaks less in one direction than in the other.",
          todo: "Look up which directions the programme asks for.",
        },
      ];
    });
  });
};

/** Another row of the table with the same source that asks for both directions. */
function findStricter(view: Inspector, entry: Place): Place | undefined {
  const source = readSource(view, entry);
  if (source === "") return undefined;
  const { sheet, column } = entry;
  for (let step = -furthest; step <= furthest; step++) {
    const other = { sheet, row: entry.row + step, column };
    if (step !== 0 && both.test(view.readText(other)) && readSource(view, other) === source) return other;
  }
  return undefined;
}

/** What a row says of its source, under a heading that asks for it. */
function readSource(view: Inspector, { sheet, row, column }: Place): string {
  for (let step = 1; step <= 6; step++) {
    const place = { sheet, row, column: column + step };
    if (view.isTyped(place) && sourceWords.test(readHeading(view, place))) return view.readText(place);
  }
  return "";
}

/** The topmost text of an unbroken column of texts: in a table of words, its heading. */
function readHeading(view: Inspector, { sheet, row, column }: Place): string {
  let top = row;
  while (top > 0 && view.readText({ sheet, row: top - 1, column }) !== "") top--;
  return view.readText({ sheet, row: top, column });
}
