import { call, spillingCall } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { budgetHeads, budgetLook, budgetRows, sourceRows } from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { input, looks, native, palette } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { assumptionsIn } from "./assumptions";
import { type BudgetTable, budgetTables, budgetTop } from "./budget-places";
import { decidingBudget, type DecidingBudget, decidingRows } from "./deciding-budget";
import type { RunPlaces, Runs } from "./direction";
import { footer, sheets } from "./places";
import type { Scenario } from "./scenario";
import { assumptionAt, assumptionsFirst } from "./uncertainty-places";
import { includedRows, runArguments } from "./whole-test";

/** What is assumed, and the budgets of both directions and of their mean. */
export function uncertaintyPage(form: Scenario, runs: Runs): Page & { readonly deciding: DecidingBudget } {
  const assumptions = assumptionsIn(form.units);
  const decidesAt = assumptionsFirst + assumptions.length + 3;
  const lastRow = decidesAt + decidingRows - 1;
  const widths = [1.5, 54, 32, 13, 11, 37, 2, 2, 45, 12, 11, 12, 12, 12, 9, 9, 11, 11, 60];
  const sheet = new Sheet(sheets.uncertainty, widths, palette.petrol, {
    orientation: "landscape",
    areas: [`B1:F${decidesAt - 2}`, `B${decidesAt}:F${lastRow}`, ...budgetTables.flatMap(partsOf)],
    titleRows: "1:4",
    footer,
  });
  const lead =
    "The budget by JCGM 100. What is typed here replaces what the function would assume; a blank cell leaves the assumption to it, and the row of the table says so.";
  pageHead(sheet, letterhead, ["B", "F"], "Uncertainty", lead);
  pageHead(
    sheet,
    letterhead,
    ["I", "S"],
    "Uncertainty",
    "Each source is a row, with what it contributes; then what follows from all of them.",
  );
  // The heads of all three tables stand in the rows that every printed page repeats and the window keeps in sight.
  columnHeads(sheet, 4, "I", budgetHeads);
  sheet.height(26, 4).freeze(4);
  sheet.heightOf(13.5, 5, budgetTop("pressurization") + budgetRows);
  assumptionTable(sheet, form);
  tape(sheet, assumptionsFirst + assumptions.length, form);
  const [depressurization, pressurization] = [runs[0], runs[2]];
  budget(sheet, "mean", [depressurization, pressurization]);
  budget(sheet, "depressurization", [depressurization]);
  budget(sheet, "pressurization", [pressurization]);
  const deciding = decidingBudget(sheet, decidesAt, runs);
  const names = { VolumeUncertainty: assumptionAt(form.units, "volume uncertainty") };
  return { sheet, names, deciding };
}

/** A table prints on two pages: its sources, then what follows from them. */
function partsOf(table: BudgetTable): string[] {
  const top = budgetTop(table);
  const cut = top + sourceRows;
  return [`I${top - 2}:S${cut - 1}`, `I${cut}:S${top + budgetRows - 1}`];
}

function assumptionTable(sheet: Sheet, { units }: Scenario): void {
  section(sheet, assumptionsFirst - 2, ["B", "F"], "What is taken as known");
  columnHeads(sheet, assumptionsFirst - 1, "B", ["<what it is", "<setting", "value", "<<unit", "<basis"]);
  assumptionsIn(units).forEach(({ label, what, value, unit, basis, format, highest, words }, index) => {
    const row = assumptionsFirst + index;
    sheet.put(`B${row}`, what, looks.label).put(`C${row}`, label, looks.unit).put(`E${row}`, unit, looks.unit);
    sheet.put(`D${row}`, value, input(format, "right")).put(`F${row}`, basis, looks.noteLine);
    const title = "Assumption";
    sheet.validate(
      words
        ? oneOf(`D${row}`, words, title, what)
        : between(`D${row}`, 0, highest ?? 1000, title, `${what}. Blank leaves it to the function.`),
    );
  });
}

/** The tape's part of the volume's uncertainty, for comparison with what is assumed. */
function tape(sheet: Sheet, row: number, { units }: Scenario): void {
  sheet.put(`B${row}`, "For comparison: the tape’s part of the volume’s uncertainty, standard", looks.label);
  sheet.formula(
    `D${row}`,
    'IF(ISNUMBER(TapeUncertainty),IFERROR(TapeUncertainty/InternalVolume,""),"")',
    native("0.0000"),
  );
  sheet
    .put(`E${row}`, "fraction", looks.unit)
    .put(`F${row}`, `from the tolerance in ${units.length}, sheet Rooms`, looks.noteLine);
  sheet.paint(`B${row}:F${row}`, looks.label);
}

const titles: Readonly<Record<BudgetTable, string>> = {
  mean: "Budget of the mean of both directions",
  depressurization: "Budget of depressurization, first run",
  pressurization: "Budget of pressurization, first run",
};

/** One table of UNCERTAINTYBUDGET; with two runs that of their mean, to which the first one's own table is handed. */
function budget(sheet: Sheet, table: BudgetTable, runs: readonly RunPlaces[]): void {
  const top = budgetTop(table);
  section(sheet, top - 1, ["I", "S"], titles[table]);
  const own = runs.at(-1) as RunPlaces;
  const other =
    runs.length > 1
      ? onSheet(
          sheets.uncertainty,
          `I${budgetTop("depressurization")}:S${budgetTop("depressurization") + budgetRows - 1}`,
        )
      : undefined;
  const made = runs.map(({ readings }) => `COUNTA(${readings})>0`);
  const formula = call(
    "UNCERTAINTYBUDGET",
    ...runArguments(own.form, own.conditions),
    own.settings.test,
    includedRows(own.form),
    other,
  );
  spillingCall(
    sheet,
    `I${top}:S${top + budgetRows - 1}`,
    `IF(AND(${made.join(",")}),${formula},"")`,
    budgetLook,
    runs.every(({ form: { readings } }) => readings !== undefined),
  );
  sheet.when(`K${top}:K${top + budgetRows - 1}`, `K${top}="warning"`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}
