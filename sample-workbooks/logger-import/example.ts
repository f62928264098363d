import type { ExampleBlock } from "../blocks/example";
import { logRows, sheets } from "./layout";

/** What the example of the log fills. */
export const exampleBlocks: readonly ExampleBlock[] = [
  { label: "House", sheet: sheets.overview, texts: ["C6:C8"], kind: "house" },
  { label: "Log", sheet: sheets.log, numbers: [`C${logRows.first}:D${logRows.last}`], kind: "result" },
];
