import type { ExampleBlock } from "../blocks/example";
import { sheets } from "./layout";
import { pointCells } from "./point-test";
import { quickTyped } from "./quick-tests";
import { seriesRows } from "./series";

/** What the example of the site fills. */
export const exampleBlocks: readonly ExampleBlock[] = [
  { label: "House", sheet: sheets.overview, texts: ["C6:C8"], kind: "house" },
  { label: "Readings", sheet: sheets.quick, numbers: [`D${quickTyped.first}:F${quickTyped.last}`], kind: "result" },
  ...[sheets.first, sheets.second].flatMap((sheet): ExampleBlock[] => [
    { label: "Readings", sheet, numbers: [pointCells.readings], kind: "result" },
    { label: "Baseline readings", sheet, numbers: [pointCells.baselines], kind: "result" },
  ]),
  { label: "Readings", sheet: sheets.series, numbers: [`F${seriesRows.first}:H${seriesRows.last}`], kind: "result" },
];
