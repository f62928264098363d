import { type ExampleBlock, exampleWidths, writeExample } from "../blocks/example";
import { cautionSheet, type CautionStage } from "../blocks/check-lists";
import type { Page, Sheet } from "../blocks/sheet";
import { footer, sheets } from "./layout";
import { pointCells } from "./point-test";
import { quickTyped } from "./quick-tests";
import { seriesRows } from "./series";

const stages: readonly CautionStage[] = [
  [
    "Before the fan runs",
    [
      [
        "Asbestos, vermiculite, lead dust",
        "In an old house no test before a licensed person has assessed it: the fan moves fibres and dust.",
      ],
      [
        "Combustion appliances",
        "Depressurizing can pull flue gas into the house, site heaters too. Off, pilot lights too; check them again afterwards.",
      ],
      [
        "Open fires and stoves",
        "No fire since the day before: embers last longer than 24 hours. Remove the ash or cover it.",
      ],
      [
        "People on the site",
        "Every trade knows when the fan runs. Nobody opens a door or a hatch, nobody drills through the barrier until the series is done.",
      ],
      ["Fog and alarms", "If fog is used, tell the fire service first, silence the alarms, and mind who has asthma."],
      ["Frost", "Cold air is drawn in: protect water pipes, fresh screed and plaster."],
      [
        "Fan and mains leads",
        "Guard in place, leads undamaged and out of the wet, the frame braced in the rough opening.",
      ],
    ],
  ],
  [
    "While it runs",
    [
      [
        "Membranes that are not yet held",
        "Depressurizing pulls a membrane off its battens, pressurizing blows it against the insulation: no more pressure than the laths will bear, and somebody watches the roof.",
      ],
      ["Dust", "A building site blows: eyes shielded, a mask where it was sawn or ground."],
      [
        "Ladders and openings",
        "Stair holes and scaffold guarded. A leak high up is felt with one hand while the other one holds on.",
      ],
      [
        "Tape for the test only",
        "Written down as temporary in the series, with the day on which it must come off or be made lasting.",
      ],
    ],
  ],
  [
    "Afterwards",
    [
      ["Everything as it was", "Ventilation, water seals, appliances and alarms restored, and noted as restored."],
      ["Tape for the test only", "Taken off, or made lasting; the register says which."],
      [
        "Nothing gets lined before",
        "A leak that is open in the register is not covered until it is retested: this is the last day it can be reached.",
      ],
    ],
  ],
];

/** What the example of the site fills. */
const exampleBlocks: readonly ExampleBlock[] = [
  { label: "House", sheet: sheets.overview, texts: ["C6:C8"], kind: "house" },
  { label: "Readings", sheet: sheets.quick, numbers: [`D${quickTyped.first}:F${quickTyped.last}`], kind: "result" },
  ...[sheets.first, sheets.second].flatMap((sheet): ExampleBlock[] => [
    { label: "Readings", sheet, numbers: [pointCells.readings], kind: "result" },
    { label: "Baseline readings", sheet, numbers: [pointCells.baselines], kind: "result" },
  ]),
  { label: "Readings", sheet: sheets.series, numbers: [`F${seriesRows.first}:H${seriesRows.last}`], kind: "result" },
];

/** What to see to on a building site with the fan in the door. */
export function cautionsPage(pages: readonly Sheet[]): Page {
  const lead = "To be gone through on the day of every test while the barrier is open.";
  const sheet = cautionSheet(sheets.cautions, footer, lead, stages, [2, 2, ...exampleWidths]);
  return { sheet, names: writeExample(sheet, exampleBlocks, pages) };
}
