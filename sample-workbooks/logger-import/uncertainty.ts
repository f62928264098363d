import { call, kept, quoted, type Setting, settingsBlock } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { budgetHeads, budgetLook, budgetRows, sourceRows } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, palette } from "../blocks/style";
import { baselineFacts, baselineFactsOf, belowBaselineFacts } from "./baseline-facts";
import { knownSection, knownSettings } from "./known";
import { logSettingCell } from "./log-settings";
import { type Direction, directions, sheets } from "./places";
import { argumentsOf } from "./readings";
import { footer } from "./scenario";
import { testSettingPlaces } from "./test-settings";

const settingsFirst = belowBaselineFacts + 3;
const settingsColumns = { depressurization: ["B", "C"], pressurization: ["D", "E"] } as const;

/** The first row of a table; its title stands above it. The second one is that of the mean. */
const tableTop = { depressurization: 7, pressurization: 7 + budgetRows + 4 } as const;
const titles = {
  depressurization: "Budget of depressurization",
  pressurization: "Budget of the mean of both directions",
} as const;

/** The expanded uncertainty of the mean of both directions, or #N/A. */
export const expandedOfMean = (() => {
  const top = tableTop.pressurization;
  const column = (letter: string) => onSheet(sheets.uncertainty, `${letter}${top}:${letter}${top + budgetRows - 1}`);
  return `INDEX(${column("I")},MATCH("expanded",${column("H")},0))`;
})();

/** How well the result is known: what the stations say of the baselines, and the budgets of depressurization and of the mean. */
export function uncertaintyPage(): Page {
  const last = tableTop.pressurization + budgetRows - 1;
  const cut = (top: number) => [
    `G${top - 2}:Q${top + sourceRows - 1}`,
    `G${top + sourceRows}:Q${top + budgetRows - 1}`,
  ];
  const sheet = new Sheet(
    sheets.uncertainty,
    [1.5, 36, 25, 31, 25, 2, 45, 12, 11, 12, 12, 12, 9, 9, 11, 11, 60],
    palette.petrol,
    {
      orientation: "landscape",
      areas: [
        `B1:E${settingsFirst - 3}`,
        `B${settingsFirst - 1}:E${settingsFirst + 25}`,
        ...cut(tableTop.depressurization),
        ...cut(tableTop.pressurization),
      ],
      titleRows: "1:4",
      footer,
    },
  );
  const lead = "The budget by JCGM 100, with the baselines as well known as their stations say.";
  pageHead(sheet, letterhead, ["B", "E"], sheets.uncertainty, lead);
  pageHead(
    sheet,
    letterhead,
    ["G", "Q"],
    sheets.uncertainty,
    "Each source is a row; then what follows from all of them.",
  );
  columnHeads(sheet, 4, "G", budgetHeads);
  sheet.height(26, 4).freeze(4);
  sheet.heightOf(13.5, 5, last);
  knownSection(sheet);
  baselineFacts(sheet);
  const settings = directions.map((direction) => {
    const [left, right] = settingsColumns[direction];
    section(sheet, settingsFirst - 1, [left, right], `Settings, ${direction}`);
    return settingsBlock(sheet, [left, right], settingsFirst, settingsOf(direction));
  });
  directions.forEach((direction, index) => {
    const { pressures, flows, before, after, include } = argumentsOf(direction);
    const top = tableTop[direction];
    const other =
      index === 0 ? undefined : `$G$${tableTop.depressurization}:$Q$${tableTop.depressurization + budgetRows - 1}`;
    section(sheet, top - 1, ["G", "Q"], titles[direction]);
    const formula = call(
      "UNCERTAINTYBUDGET",
      quoted(direction),
      ...[pressures, flows, before, after],
      settings[index],
      include,
      other,
    );
    sheet.addIn(`G${top}:Q${top + budgetRows - 1}`, formula, budgetLook);
    sheet.when(`I${top}:I${top + budgetRows - 1}`, `I${top}="warning"`, {
      font: { bold: true, color: { rgb: palette.fail } },
    });
  });
  return { sheet, names: {} };
}

/** The settings of the whole test, what the certificate and the log say, and the baselines of this direction. */
function settingsOf(direction: Direction): readonly Setting[] {
  const { flows, include } = argumentsOf(direction);
  const [c, m] = [logSettingCell("fan coefficient"), logSettingCell("fan exponent")];
  const lowest = `_xlfn.MINIFS(${flows},${include},"yes")`;
  return [
    ...testSettingPlaces.map(({ label, cell, format }): Setting => [label, kept(cell), format]),
    ["gauge resolution", kept(logSettingCell("gauge resolution")), decimals(1)],
    ["fan exponent", kept(m), "0.000"],
    ["fan pressure at lowest flow", `IF(COUNT(${flows},${c},${m})<3,"",(${lowest}/${c})^(1/${m}))`, decimals(1)],
    ["budget quantity", quoted("n50")],
    ...(["before", "after"] as const).flatMap((set): Setting[] => {
      const { uncertainty, freedom } = baselineFactsOf(direction, set);
      return [
        [`baseline ${set} uncertainty`, kept(uncertainty), "0.000"],
        [`baseline ${set} degrees of freedom`, kept(freedom), decimals(1)],
      ];
    }),
    ...knownSettings.map(({ label, cell, format }): Setting => [label, kept(cell), format]),
  ];
}
