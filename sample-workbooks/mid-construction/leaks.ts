import { dayOf2026 } from "./scenario";

export interface Leak {
  readonly no: number;
  readonly found: number;
  readonly place: string;
  readonly element: string;
  readonly trade: string;
  readonly foundBy: string;
  readonly direction: "depressurization" | "pressurization";
  readonly severity: "small" | "medium" | "large";
  readonly action: string;
  readonly byWhom: string;
  readonly retest?: number;
  readonly state: "open" | "repaired" | "retested" | "accepted";
}

const [firstDay, secondDay, thirdDay] = [dayOf2026(9, 22), dayOf2026(9, 23), dayOf2026(9, 24)];
const depressurized = { found: firstDay, direction: "depressurization" } as const;

/** Invented leaks, in the order in which they were found. */
export const leaks: readonly Leak[] = [
  {
    ...depressurized,
    no: 1,
    place: "Sole plate to slab, north wall",
    element: "floor to wall",
    trade: "carpenter",
    foundBy: "smoke",
    severity: "large",
    action: "Prime the slab, tape the plate",
    byWhom: "Drum’s carpenters",
    retest: secondDay,
    state: "retested",
  },
  {
    ...depressurized,
    no: 2,
    place: "Roof window, bathroom",
    element: "window",
    trade: "window fitter",
    foundBy: "hand",
    severity: "large",
    action: "Fit the collar that belongs to it",
    byWhom: "Pellucid Glazing",
    retest: secondDay,
    state: "retested",
  },
  {
    ...depressurized,
    no: 3,
    place: "Pipe bundle, plant room",
    element: "pipe or duct",
    trade: "plumber",
    foundBy: "hand",
    severity: "medium",
    action: "Pull the pipes apart, a collar each",
    byWhom: "Weir & Wells",
    retest: secondDay,
    state: "retested",
  },
  {
    ...depressurized,
    no: 4,
    place: "Cables at the meter cupboard",
    element: "cable or box",
    trade: "electrician",
    foundBy: "smoke",
    severity: "small",
    action: "Grommets instead of tape",
    byWhom: "Sparrow Electric",
    retest: secondDay,
    state: "repaired",
  },
  {
    ...depressurized,
    no: 5,
    place: "Purlin ends, west gable",
    element: "wall to roof",
    trade: "carpenter",
    foundBy: "infrared",
    severity: "large",
    action: "Pre-cut pieces of membrane, taped to the timber",
    byWhom: "Drum’s carpenters",
    retest: secondDay,
    state: "retested",
  },
  {
    ...depressurized,
    no: 6,
    place: "Balcony door, sill",
    element: "door",
    trade: "window fitter",
    foundBy: "hand",
    severity: "medium",
    action: "Seal the sill to the slab, close the gasket’s corner",
    byWhom: "Pellucid Glazing",
    retest: thirdDay,
    state: "accepted",
  },
  {
    ...depressurized,
    no: 7,
    place: "Socket boxes, east bedroom",
    element: "cable or box",
    trade: "electrician",
    foundBy: "smoke",
    severity: "small",
    action: "Airtight boxes in outer walls",
    byWhom: "Sparrow Electric",
    retest: secondDay,
    state: "repaired",
  },
  {
    ...depressurized,
    no: 8,
    place: "Chimney collar, roof",
    element: "chimney",
    trade: "roofer",
    foundBy: "infrared",
    severity: "medium",
    action: "Heat-proof collar, as the flue’s papers allow",
    byWhom: "Slate & Daughters",
    state: "open",
  },
  {
    ...depressurized,
    no: 9,
    place: "Stair stringer at the slab",
    element: "floor to wall",
    trade: "carpenter",
    foundBy: "smoke",
    severity: "medium",
    action: "Lift the first tread, tape behind it",
    byWhom: "Drum’s carpenters",
    state: "open",
  },
  {
    ...depressurized,
    no: 10,
    place: "Letterbox, front door",
    element: "door",
    trade: "carpenter",
    foundBy: "sound",
    severity: "small",
    action: "Blank it off, box beside the door",
    byWhom: "Drum’s carpenters",
    state: "open",
  },
  {
    found: thirdDay,
    direction: "pressurization",
    no: 11,
    place: "Board joint behind the eaves, south",
    element: "wall to roof",
    trade: "carpenter",
    foundBy: "smoke",
    severity: "small",
    action: "Tape over the staples",
    byWhom: "Drum’s carpenters",
    state: "open",
  },
  {
    found: thirdDay,
    direction: "pressurization",
    no: 12,
    place: "Duct of the cooker hood",
    element: "pipe or duct",
    trade: "ventilation",
    foundBy: "sound",
    severity: "medium",
    action: "Cap until the hood is fitted",
    byWhom: "Bellows Air",
    state: "repaired",
  },
];
