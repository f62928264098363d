import { type Recipe, recipeOf } from "./blocks/book";
import { criterionPage } from "./blocks/criterion-page";
import { basisPage } from "./multi-unit/basis";
import { cautionsPage } from "./multi-unit/cautions";
import { footer, sheets } from "./multi-unit/layout";
import { overviewPage } from "./multi-unit/overview";
import { resultsPage } from "./multi-unit/results";
import { runsPage } from "./multi-unit/runs";
import { samplingPage } from "./multi-unit/sampling";
import { unitsPage } from "./multi-unit/units";

/** A building of several units: a sample tested unguarded and guarded, leakage to the neighbours, the building's value as Σq/ΣV. */
function recipe(): Recipe {
  const runs = runsPage();
  const results = resultsPage(runs.tested);
  const typed = [
    overviewPage(results.places),
    unitsPage(),
    samplingPage(),
    basisPage(),
    runs,
    results,
    criterionPage({
      name: sheets.criteria,
      footer,
      criterion: "Canada, NBC 2020 reference",
      heading: "The criterion for this building",
    }),
  ];
  const pages = [...typed, cautionsPage(typed.map(({ sheet }) => sheet))];
  return recipeOf(pages, {
    file: "multi-unit.xlsx",
    title: "Airtightness of a building of several units, Cormorant Yard",
    form: "Airtightness of a building of several units",
    subject: "Guarded and unguarded tests of a sample of units, the building's value, leakage to neighbours",
    invented: "Firm, building, people and readings",
    written: new Date(Date.UTC(2026, 10, 13)),
  });
}

export const multiUnit = recipe();
