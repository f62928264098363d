import { type Recipe, recipeOf } from "./blocks/book";
import { housesPage } from "./programme-review/houses";
import { notesPage } from "./programme-review/notes";
import { overviewPage } from "./programme-review/overview";
import { rulesPage } from "./programme-review/rules";
import { programme } from "./programme-review/scenario";

/** Five hundred reports of a programme in one table, recomputed and put in the order in which to look at them. */
function recipe(): Recipe {
  const pages = [overviewPage(), housesPage(), rulesPage(), notesPage()];
  return recipeOf(pages, {
    file: "programme-review.xlsx",
    title: `Programme review, ${programme.name}`,
    form: "Programme review",
    subject: "Reports of airtightness tests, recomputed and judged",
    invented: "Programme, firms, houses and readings",
    written: new Date(Date.UTC(2026, 10, 9)),
  });
}

export const programmeReview = recipe();
