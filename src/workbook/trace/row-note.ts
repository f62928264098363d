import type { Slot } from "../formula/grid/slot";
import { explain } from "./explain";
import type { Place } from "./tree";
import type { Workbench } from "./workbench";

/** What the row of an add-in's table says about one of its cells: its words, symbol, unit and source, by the columns that its comment lists. */
export function rowNote(
  bench: Workbench,
  owner: Slot,
  { sheet, row, column }: { readonly sheet: number; readonly row: number; readonly column: number },
  { label, symbol, unit, value }: Pick<Place, "label" | "symbol" | "unit" | "value">,
): Partial<Place> {
  const { filled } = owner;
  if (!filled) return {};
  const { calls } = bench.explanation(owner, () => explain(owner, bench.tools, bench.now));
  const note = calls.map((id) => bench.tools.functions.get(id)).find((one) => one && one.columns.length > 0);
  if (note?.columns.length !== filled.right - filled.left + 1) return {};
  const entry = (...names: readonly string[]): string => {
    const place = note.columns.findIndex((name) => names.includes(name));
    if (place < 0 || filled.left + place === column) return "";
    const found = bench.state({ sheet, row, column: filled.left + place }).value;
    return typeof found === "string" ? found : "";
  };
  const source = entry("source", "clause");
  const heading = note.columns[column - filled.left] ?? "";
  const what = entry("what it is", "check", "source of uncertainty");
  return {
    label: what === "" ? label : heading === "value" || heading === "measured" ? what : `${what}, ${heading}`,
    symbol: entry("symbol") || symbol,
    unit: typeof value === "number" ? entry("unit") || unit : "",
    ...(source === "" ? {} : { source }),
  };
}
