import { call } from "../blocks/add-in";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { writeSourcedNotes } from "../blocks/notes-page";
import { type Page, Sheet } from "../blocks/sheet";
import { fromAddIn, looks, palette } from "../blocks/style";
import { footer, sheets } from "./layout";

const notes: readonly (readonly [subject: string, where: string, words: string, source: string, mark: string])[] = [
  [
    "Stack",
    "Weather",
    "Inside minus outside, at the height of the outdoor tube’s end: ρe·g·(z − zn)·(Ti − Te)/Ti, dry air at 101 325 Pa. At altitude it is smaller in the ratio of the barometers.",
    "ASHRAE Fundamentals 2021, ch. 16; hydrostatics",
    "C",
  ],
  [
    "Wind",
    "Weather",
    "½·ρ·U² with the speed near the ground, gusts where they are forecast. A façade feels a part of it, the lee side with the other sign; the share is typed in.",
    "ASHRAE Fundamentals 2021, ch. 24; the shares: common practice, no source",
    "C",
  ],
  [
    "Is a test possible",
    "Day, Weather",
    "Height × temperature difference, wind and Beaufort are advice of the standards: beyond them a satisfactory baseline is unlikely, not impossible. ASTM E779 alone forbids the test beyond its height × temperature difference. The baseline’s own limit binds, where the standard has one.",
    "the standard chosen, sheet Standards",
    "–",
  ],
  [
    "Lowest pressure",
    "Pressures",
    "The larger of the standard’s lowest pressure and its multiple of the largest baseline, rounded up to whole pascals.",
    "ISO 9972:2015, 5.3.4: about 10 Pa, five baselines",
    "C",
  ],
  [
    "Pressures to set",
    "Pressures",
    "Equal steps from the highest to the lowest. The gauge shows the induced pressure plus the baseline, with its sign.",
    "ISO 9972:2015, induced pressure; equal steps: common practice",
    "C",
  ],
  [
    "Flow and opening",
    "Fan",
    "The expected leakage carried to the pressure and to the densities of the hour; of several openings the smallest that gives it. What the fan can give falls with the pressure it works against.",
    "ISO 9972:2015, air leakage rate; certificate",
    "C",
  ],
  [
    "Preparation",
    "Preparation",
    "Five kinds of openings, three methods. The table is written from memory of the standard and is the user’s to change.",
    "ISO 9972:2015, preparation of the building",
    "M",
  ],
  [
    "Lists",
    "To pack, People, Cautions",
    "What to take, whom to tell, what may go wrong. Flue gas and embers are named in published guidance (C); the rest is practice.",
    "common practice, no source",
    "–",
  ],
];

/** Where each figure comes from, and what it cannot tell. */
export function notesPage(): Page {
  const end = 7 + notes.length + 2;
  const sheet = new Sheet(sheets.notes, [1.5, 18, 14, 49, 27, 6.5], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:F${end}`],
    pages: 1,
    footer,
  });
  const lead =
    "C: read in a published text. M: from memory of the document; check your own copy. –: practice, or another sheet.";
  writePageHead(sheet, letterhead, ["B", "F"], "Notes", lead);
  writeHeading(sheet, 5, ["B", "F"], "Where it comes from");
  writeSourcedNotes(
    sheet,
    ["<subject", "<where", "<what it does", "<<source", "<<mark"],
    notes.map(([subject, where, words, source, mark]) => ({ subject, where, words, source, mark })),
    49,
  );
  sheet.put(`B${end}`, "Calculation core, version", looks.label).paint(`C${end}`, looks.label);
  sheet.addIn(`D${end}`, call("METHODVERSION", "HighestFlowDep"), fromAddIn(undefined, "left"));
  return { sheet, names: {} };
}
