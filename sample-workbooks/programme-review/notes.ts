import { notesSheet } from "../blocks/notes-page";
import type { Page } from "../blocks/sheet";
import { columnOfHouses, sheets } from "./layout";
import { footer } from "./scenario";

const notes: readonly (readonly [heading: string, words: string])[] = [
  [
    "What is recomputed",
    "From each report’s table of induced pressures and flows through the envelope: C and n of the ordinary line through the logarithms, C at reference conditions, n50 of each direction and the mean of both. Barometer 101 325 Pa and 50 % humidity are assumed, which changes n50 by a few thousandths.",
  ],
  [
    "What is not",
    "Volumes, baselines and the flows themselves are taken from the reports: a volume measured by another convention, or a wrong opening of the fan, does not show here. Where the flow column is in another unit, n50 recomputed and reported differ by a factor that gives it away (1.699 for cfm, 3.6 for L/s).",
  ],
  [
    "Validity",
    "By the rules on their sheet; a report that breaks one is “not valid”, whatever its number. The rules on wind, temperatures and preparation need the whole report and are not judged here.",
  ],
  [
    "Order",
    "Points add up over the reasons. They set the order in which to look, not the outcome: the tester is asked first, and a report is changed by its tester only. The probability of meeting the limit takes the uncertainty that the rules assume for all.",
  ],
  [
    "Risks of the rule",
    "Two shares of all houses, expected where the round’s results are lognormal and each is as uncertain as the rules assume: those above the limit that pass (global consumer’s risk), and those within it that do not (global producer’s risk), by JCGM 106:2012 9.5. A guarded rule trades one for the other. Reports that are not valid count as if they were.",
  ],
  [
    "More houses",
    "Take the protection off (there is no password), add rows inside the table and copy a row’s formulas into them; counts and lists grow with the table. The table can be filtered as it is; Excel sorts it only without the protection, since its rows hold formulas.",
  ],
  [
    "Caution",
    "A pass here is no certificate. The results are the testers’ responsibility under local codes; the programme and the certifier decide.",
  ],
];

/** What the review does and what it cannot see. */
export function notesPage(): Page {
  return {
    sheet: notesSheet(
      sheets.notes,
      footer,
      "What the review does, and what it cannot see.",
      notes,
      8 + notes.length,
      columnOfHouses("n50"),
    ),
    names: {},
  };
}
