import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, palette } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { sheets } from "./layout";
import { footer } from "./scenario";

interface Rule {
  readonly name: string;
  readonly label: string;
  readonly value: number | string;
  readonly unit: string;
  readonly source: string;
  readonly words?: readonly string[];
}

const acceptance = ["plain", "guarded acceptance", "guarded rejection"] as const;
const copy = "from memory; check against your own copy";

const groups: readonly (readonly [heading: string, rules: readonly Rule[]])[] = [
  [
    "The limit",
    [
      { name: "Limit", label: "Limit of n50", value: 0.6, unit: "1/h", source: "the programme’s own" },
      {
        name: "AcceptanceRule",
        label: "Rule of acceptance",
        value: "plain",
        unit: "",
        source: "JCGM 106:2012 8.2, 8.3",
        words: acceptance,
      },
      {
        name: "ExpandedShare",
        label: "Expanded uncertainty of a reported n50",
        value: 0.06,
        unit: "of n50, 95 %",
        source: "an assumption for all; each report’s own is better",
      },
    ],
  ],
  [
    "When a report counts as valid",
    [
      {
        name: "BothDirections",
        label: "Both directions needed",
        value: "yes",
        unit: "",
        source: "the programme’s own",
        words: ["yes", "no"],
      },
      { name: "FewestReadings", label: "Fewest readings in a direction", value: 5, unit: "", source: "ISO 9972:2015" },
      {
        name: "LowestPressure",
        label: "Lowest induced pressure, at least",
        value: 10,
        unit: "Pa",
        source: "ISO 9972:2015",
      },
      {
        name: "BaselineFactor",
        label: "and so many times the baseline",
        value: 5,
        unit: "",
        source: `ISO 9972:2015, ${copy}`,
      },
      {
        name: "HighestPressure",
        label: "Highest induced pressure, at least",
        value: 50,
        unit: "Pa",
        source: "ISO 9972:2015",
      },
      { name: "LargestBaseline", label: "Largest mean of the baseline", value: 5, unit: "Pa", source: "ISO 9972:2015" },
      { name: "LowestExponent", label: "Flow exponent, from", value: 0.5, unit: "", source: "ISO 9972:2015" },
      { name: "HighestExponent", label: "to", value: 1, unit: "", source: "ISO 9972:2015" },
      {
        name: "LowestR2",
        label: "Coefficient of determination, at least",
        value: 0.98,
        unit: "",
        source: "ISO 9972:2015",
      },
    ],
  ],
  [
    "When a report is looked at, and how soon (points)",
    [
      { name: "PointsInvalid", label: "Not valid", value: 4, unit: "points", source: "the reviewer’s choice" },
      {
        name: "ReportedTolerance",
        label: "Reported and recomputed n50 differ by more than",
        value: 2,
        unit: "%",
        source: "two decimals are 1 % of 0.5",
      },
      { name: "PointsDifferent", label: "… and then", value: 3, unit: "points", source: "the reviewer’s choice" },
      {
        name: "PointsTurned",
        label: "The recomputed n50 gives another verdict than the reported one",
        value: 6,
        unit: "points",
        source: "the reviewer’s choice",
      },
      {
        name: "PointsNear",
        label: "So near the limit that it could be either (5 % to 95 %)",
        value: 1,
        unit: "points",
        source: "the reviewer’s choice",
      },
      {
        name: "LargestApart",
        label: "Directions differ by more than",
        value: 10,
        unit: "%",
        source: "common practice, no source",
      },
      { name: "PointsApart", label: "… and then", value: 2, unit: "points", source: "the reviewer’s choice" },
      {
        name: "LowestPlausible",
        label: "n50 below this is looked at",
        value: 0.15,
        unit: "1/h",
        source: "common practice, no source",
      },
      { name: "PointsImplausible", label: "… and then", value: 2, unit: "points", source: "the reviewer’s choice" },
    ],
  ],
];

/** Every number that the review judges by, named, with its source; to be changed here and nowhere else. */
export function rulesPage(): Page {
  const count = groups.reduce((sum, [, rules]) => sum + rules.length + 2, 0);
  const last = 5 + count;
  const sheet = new Sheet(sheets.rules, [1.5, 52, 20, 15, 40], palette.copper, {
    orientation: "landscape",
    areas: [`B1:E${last}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  writePageHead(
    sheet,
    letterhead,
    ["B", "E"],
    "Rules of the review",
    "What counts as valid, what is looked at, and by which limit. The programme and local code decide.",
  );
  sheet.heightOf(14, 5, last).keep(`C6:C${last}`);
  const names: Record<string, string> = {};
  let row = 5;
  for (const [heading, rules] of groups) {
    writeHeading(sheet, row, ["B", "E"], heading);
    if (row === 5) writeColumnHeads(sheet, row, "C", ["value", "<<unit", "<source"]);
    for (const { name, label, value, unit, source, words } of rules) {
      row += 1;
      sheet.put(`B${row}`, label, looks.label).type(`C${row}`, value, "General", "right");
      sheet.put(`D${row}`, unit, looks.unit).put(`E${row}`, source, looks.noteLine);
      names[name] = onSheet(sheets.rules, `C${row}`);
      sheet.validate(
        words === undefined
          ? between(`C${row}`, 0, 1000, "Rule", "The review judges all houses by this number.")
          : oneOf(`C${row}`, words, "Rule", "Choose from the list."),
      );
    }
    row += 2;
  }
  return { sheet, names };
}
