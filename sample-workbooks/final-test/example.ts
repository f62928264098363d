import type { ExampleBlock } from "../blocks/example";
import { houseFacts } from "./cover";
import { outlineCorners } from "./envelope";
import { instrumentCells } from "./firm";
import { sheets, sheetOf } from "./layout";
import { preparationPlaces } from "./preparation";
import { runCellsTyped } from "./readings";
import { roomTable } from "./rooms";

const runs = (["depressurization", "pressurization"] as const).flatMap((direction) =>
  ([1, 2] as const).map((run) => sheetOf(direction, run)),
);

const { first, last } = roomTable;

/** What the example of the final test fills. */
export const exampleBlocks: readonly ExampleBlock[] = [
  { label: "House", sheet: sheets.cover, texts: houseFacts, kind: "house" },
  { label: "Rooms", sheet: sheets.rooms, numbers: [`D${first}:E${last}`, `G${first}:G${last}`], kind: "result" },
  { label: "Outlines", sheet: sheets.rooms, numbers: outlineCorners, kind: "result" },
  ...runs.flatMap((sheet): ExampleBlock[] => [
    { label: "Readings", sheet, numbers: runCellsTyped.readings, kind: "result" },
    { label: "Baseline readings", sheet, numbers: runCellsTyped.baselines, kind: "result" },
  ]),
  { label: "Sealing list", sheet: sheets.preparation, texts: [preparationPlaces.sealingList], kind: "report" },
  {
    label: "Instruments",
    sheet: sheets.firm,
    texts: [instrumentCells.words],
    numbers: [instrumentCells.days],
    kind: "report",
  },
];
