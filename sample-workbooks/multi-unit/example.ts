import type { ExampleBlock } from "../blocks/example";
import { sheets, testedCount, unitRows } from "./layout";
import { readingCells } from "./runs";

/** What the example of the building fills. */
export const exampleBlocks: readonly ExampleBlock[] = [
  { label: "Building", sheet: sheets.overview, texts: ["C6:C8"], kind: "house" },
  { label: "Sizes", sheet: sheets.units, numbers: [`D${unitRows.first}:G${unitRows.last}`], kind: "result" },
  ...Array.from({ length: testedCount }, (_, index): ExampleBlock => {
    return { label: `Readings, unit ${index + 1}`, sheet: sheets.runs, numbers: [readingCells(index)], kind: "result" };
  }),
];
