import { type ExampleBlock, exampleWidths, writeExample } from "../blocks/example";
import { cautionSheet, type CautionStage } from "../blocks/check-lists";
import type { Page, Sheet } from "../blocks/sheet";
import { footer, sheets, testedCount, unitRows } from "./layout";
import { readingCells } from "./runs";

const stages: readonly CautionStage[] = [
  [
    "Before the fans run",
    [
      [
        "Asbestos, vermiculite, lead dust",
        "No test before a licensed person has assessed the building: the fans move fibres and dust, between flats too.",
      ],
      [
        "Combustion appliances",
        "Off in the tested flat and in every flat beside, above and below it, pilot lights too: a flue may serve several, and one flat’s fan can pull another’s flue gas in.",
      ],
      [
        "Open fires and stoves",
        "No fire since the day before: embers last longer than 24 hours. Remove the ash or cover it.",
      ],
      [
        "People and animals",
        "Every household is told the day and the hour, and who comes in. Nobody opens a door while the fans run; somebody is with the frail, and with the animals.",
      ],
      [
        "Fog and alarms",
        "A house alarm sounds in every flat: fire service told, detectors silenced and a watch kept, before any fog.",
      ],
      ["Frost", "Cold air is drawn in: protect pipes and plants, and keep the test short in hard frost."],
      ["Fans and mains leads", "Guards in place, leads off the stairs: the way out stays clear in every hallway."],
    ],
  ],
  [
    "While they run",
    [
      [
        "Neighbours at the same pressure",
        "The guarding fans hold 0 Pa between the tested flat and each neighbour, read and noted; stairwell and shafts are held or opened to outdoors, as the record says.",
      ],
      ["Odours and dust", "Air comes through shafts and sockets of other flats. Stop where somebody is unwell."],
      ["Doors", "Entrance doors pull or slam: nobody stands behind one."],
    ],
  ],
  [
    "Afterwards",
    [
      [
        "Everything as it was",
        "Ventilation, water seals, taped openings and shafts restored in every flat that was entered, and noted.",
      ],
      ["Combustion appliances", "Lit again in all flats, draught checked. Carbon monoxide alarms back in service."],
      ["Alarms", "House alarm restored, fire service told that the tests are over."],
    ],
  ],
];

/** What the example of the building fills. */
const exampleBlocks: readonly ExampleBlock[] = [
  { label: "Building", sheet: sheets.overview, texts: ["C6:C8"], kind: "house" },
  { label: "Sizes", sheet: sheets.units, numbers: [`D${unitRows.first}:G${unitRows.last}`], kind: "result" },
  ...Array.from({ length: testedCount }, (_, index): ExampleBlock => {
    return { label: `Readings, unit ${index + 1}`, sheet: sheets.runs, numbers: [readingCells(index)], kind: "result" };
  }),
];

/** What to see to where the fans of several flats run at once. */
export function cautionsPage(pages: readonly Sheet[]): Page {
  const lead =
    "To be gone through on every day of tests, with the households of the tested flats and of their neighbours.";
  const sheet = cautionSheet(sheets.cautions, footer, lead, stages, [2, 2, ...exampleWidths]);
  return { sheet, names: writeExample(sheet, exampleBlocks, pages) };
}
