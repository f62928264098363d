import { type Recipe, recipeOf } from "./blocks/book";
import { componentsPage } from "./envelope-what-if/components";
import { fanPage } from "./envelope-what-if/fan";
import { inUsePage } from "./envelope-what-if/in-use";
import { libraryPage } from "./envelope-what-if/library";
import { limitsPage } from "./envelope-what-if/limits";
import { notesPage } from "./envelope-what-if/notes";
import { oddPlanPage } from "./envelope-what-if/odd-plan";
import { overviewPage } from "./envelope-what-if/overview";
import { project } from "./envelope-what-if/scenario";
import { sensitivityPage } from "./envelope-what-if/sensitivity";
import { sizesAndTargetsPage } from "./envelope-what-if/sizes-and-targets";
import { targetsPage } from "./envelope-what-if/targets";
import { variantsPage } from "./envelope-what-if/variants";

/** An estimator's workbook: several forms of a house that is not built yet, what each may leak and what its components will. */
function recipe(): Recipe {
  const pages = [
    overviewPage(),
    targetsPage(),
    sensitivityPage(),
    variantsPage(),
    oddPlanPage(),
    sizesAndTargetsPage(),
    componentsPage(),
    libraryPage(),
    fanPage(),
    inUsePage(),
    limitsPage(),
    notesPage(),
  ];
  return recipeOf(pages, {
    file: "envelope-what-if.xlsx",
    title: `Airtightness before building, ${project.name}`,
    form: "Airtightness before building",
    subject: "Estimate of allowed leakage, components, fan, infiltration and heat",
    invented: "Firm, house, people and figures",
    written: new Date(Date.UTC(2026, 10, 9)),
  });
}

export const envelopeWhatIf = recipe();
