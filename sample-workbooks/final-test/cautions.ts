import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { heightFor, type Page, Sheet } from "../blocks/sheet";
import { looks, palette, style } from "../blocks/style";
import { text } from "../blocks/validation";
import { footer, sheets } from "./layout";

const stages: readonly (readonly [stage: string, items: readonly (readonly [what: string, words: string])[]])[] = [
  [
    "Before the fan runs",
    [
      [
        "Combustion appliances",
        "Depressurizing can pull flue gas into the house. Appliances off, pilot lights too; check them again afterwards.",
      ],
      [
        "Open fires and stoves",
        "No fire since the day before: embers last longer than 24 hours. Remove the ash or cover it.",
      ],
      [
        "Asbestos, vermiculite, lead dust",
        "No test before a licensed person has assessed the house: the fan moves fibres and dust.",
      ],
      [
        "People and animals",
        "Everyone in the house knows what will happen. Windows and doors stay shut for the length of the test.",
      ],
      ["Frost", "Cold air is drawn in: protect pipes, plants and wet trades, and keep the test short in hard frost."],
      ["Fog and alarms", "If fog is used to find leaks, tell the fire service first and silence the alarms."],
      [
        "Fan and mains leads",
        "Guard in place, leads undamaged and out of the way, the door frame braced against the pressure.",
      ],
    ],
  ],
  [
    "While it runs",
    [
      [
        "Pressure",
        "No higher than the readings need. Loose membranes, ceiling hatches and drying plaster are watched at the highest pressure.",
      ],
      ["Doors between rooms", "Open, so that the whole house is one zone; nobody stands behind a door that may slam."],
    ],
  ],
  [
    "Afterwards",
    [
      [
        "Everything as it was",
        "Ventilation, appliances, water seals, closed vents and taped openings restored, and noted as restored.",
      ],
      [
        "Combustion appliances",
        "Lit again, draught checked, no smell of flue gas. Carbon monoxide alarms back in service.",
      ],
      ["Alarms", "Fire and smoke alarms restored, the fire service told that the test is over."],
    ],
  ],
];

/** A list to go through on the day, with room for initials. */
export function cautionsPage(): Page {
  const items = stages.reduce((sum, [, list]) => sum + list.length, 0);
  const last = 5 + items + 2 * stages.length + 2;
  const sheet = new Sheet(sheets.cautions, [1.5, 27, 56, 12], palette.copper, {
    orientation: "portrait",
    areas: [`B1:D${last}`],
    pages: 1,
    footer,
  });
  writePageHead(
    sheet,
    letterhead,
    ["B", "D"],
    "Cautions",
    "To be gone through on the day. The workbook replaces no licence, and no local rule.",
  );
  let row = 5;
  for (const [stage, list] of stages) {
    writeHeading(sheet, row, ["B", "D"], stage);
    sheet.put(
      `D${row}`,
      "seen to by",
      style({ size: 8, colour: palette.grey, align: "right", vertical: "bottom", bottom: palette.petrol }),
    );
    sheet.height(18, row);
    for (const [what, words] of list) {
      row += 1;
      sheet.put(`B${row}`, what, style({ bold: true }, looks.textLine)).put(`C${row}`, words, looks.textLine);
      sheet.type(`D${row}`, null, undefined, "left");
      sheet.height(heightFor(words, 56) + 4, row);
      sheet.validate(text(`D${row}`, "Seen to by", "Initials of the person who saw to it.", 20));
    }
    row += 2;
  }
  sheet.put(`B${row}`, "The results are the tester’s responsibility under local codes.", looks.note);
  sheet.merge(`B${row}:D${row}`);
  return { sheet, names: {} };
}
