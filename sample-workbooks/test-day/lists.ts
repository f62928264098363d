import { type StatusItem, statusList } from "../blocks/check-lists";
import { footer, sheets } from "./layout";

type Stages = readonly (readonly [heading: string, items: readonly StatusItem[]])[];

const packing: Stages = [
  [
    "Fan and gauge",
    [
      ["Fan, guard, mains lead", "Looked at for damage; runs and stops.", "done"],
      ["Openings or rings, all of them", "Two stations may need two of them: see the sheet Fan.", "done"],
      ["Frame and panel for the door", "For the door of this house: width, height, threshold.", "done"],
      ["Gauge with two channels, spare batteries", "Charged, zeroed, certificate valid on the day."],
      ["Tubes, red and clear, spare ones", "Long enough for a calm corner outdoors; no kink, no water in them."],
      ["T-pieces and a box for the outdoor end", "Where wind is expected: ends at several façades, joined."],
    ],
  ],
  [
    "Weather and air",
    [
      ["Thermometers, indoors and outdoors", "Out of the van early, so that they are used to the air."],
      ["Barometer or the altitude of the place", "At the station, not reduced to sea level."],
      ["Hygrometer, wind gauge", "The wind near the ground where the test is; the Beaufort number as seen."],
    ],
  ],
  [
    "For the house",
    [
      ["Tape, film, plugs for ducts", "What holds for an hour and comes off without a trace."],
      ["Water for the traps", "Floor drains, unused basins, the dryer’s siphon."],
      ["Ladder, torch, mirror", "Roof hatch, ducts, the back of things."],
      ["Smoke pen or fog, thermal camera", "Fog only after the people of the sheet People know of it."],
    ],
  ],
  [
    "Papers",
    [
      ["Drawings with the envelope line", "Where the boundary of the test runs, and the volume with its convention."],
      ["Last test of this house", "Its leaks, its exponent, what was sealed then."],
      ["Certificates of gauge and fan", "Copies, with the dates on the sheet Day."],
      ["Workbook for the final test", "House and instruments typed in already."],
    ],
  ],
];

const people: Stages = [
  [
    "In the house",
    [
      ["Owner or occupants", "Day and hour, how long, doors and windows shut, no fire from the day before on."],
      ["Keepers of animals", "Birds and small animals elsewhere; no cat flap in use."],
      ["Neighbours with a shared wall", "Draughts and noise may be felt; leaks between the houses count."],
    ],
  ],
  [
    "On the site",
    [
      ["Site manager", "Nobody passes the door for two hours; power at the door; dust and mud away from it."],
      ["Trades still at work", "No drilling through the barrier that day; wet plaster and glue told of."],
      ["Ventilation installer", "Who switches the unit off, and who starts and balances it again."],
      ["Heating engineer", "Appliances off, pilots too; who lights them again and checks the draught."],
    ],
  ],
  [
    "Outside",
    [
      ["Fire service, alarm company", "Only with fog: before the test, and again when it is over."],
      ["Certifier or building control", "If somebody wants to be there; which method, which volume, which edition."],
    ],
  ],
];

const cautions: Stages = [
  [
    "Before the fan runs",
    [
      [
        "Combustion appliances",
        "Depressurizing can pull flue gas into the house. Appliances off, pilot lights too; check them again afterwards.",
      ],
      [
        "Open fires and stoves",
        "No fire since the day before: embers last longer than 24 hours. The ash removed or covered.",
      ],
      [
        "Asbestos, vermiculite, lead dust",
        "No test before a licensed person has assessed the house: the fan moves fibres and dust.",
        "n/a",
      ],
      ["People and animals", "Everyone in the house knows what will happen, and when."],
      ["Frost", "Cold air is drawn in: pipes, plants and wet trades protected, the test kept short in hard frost."],
      ["Fog and alarms", "The fire service told first, the alarms silenced; both undone afterwards."],
      ["Fan and mains leads", "Guard in place, leads whole and out of the way, the frame braced against the pressure."],
    ],
  ],
  [
    "While it runs",
    [
      [
        "Pressure",
        "No higher than the readings need; loose membranes, hatches and wet plaster watched at the highest one.",
      ],
      ["Doors between rooms", "Open and wedged; nobody behind a door that may slam."],
    ],
  ],
  [
    "Afterwards",
    [
      [
        "Everything as it was",
        "Ventilation, appliances, water seals, vents, taped openings: restored, and noted as restored.",
      ],
      ["Combustion appliances", "Lit again, the draught checked, carbon monoxide alarms back in service."],
      ["Alarms", "Restored; the fire service told that the test is over."],
    ],
  ],
];

const practice = "Common practice, no source; add what your own jobs have taught you.";

/** What goes into the van. */
export const packingList = statusList({
  name: sheets.pack,
  title: "To pack",
  lead: "Ticked off at the van, not from memory.",
  footer,
  stages: packing,
  spare: 1,
  closing: practice,
});

/** Who has to know of the test, and what. */
export const peopleList = statusList({
  name: sheets.people,
  title: "People to tell",
  lead: "Each of them the day before, at the latest.",
  footer,
  stages: people,
  spare: 1,
  closing: practice,
});

/** What may harm people, animals or the house. */
export const cautionsList = statusList({
  name: sheets.cautions,
  title: "Cautions",
  lead: "Asked on the telephone before leaving, looked at again on site.",
  footer,
  stages: cautions,
  spare: 1,
  closing:
    "The results are the tester’s responsibility under local codes. The workbook replaces no licence, and no local rule.",
});
