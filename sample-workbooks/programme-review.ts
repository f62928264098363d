import type { Recipe } from "./blocks/book";
import { firm } from "./blocks/heading";
import { housesPage } from "./programme-review/houses";
import { notesPage } from "./programme-review/notes";
import { overviewPage } from "./programme-review/overview";
import { rulesPage } from "./programme-review/rules";
import { programme } from "./programme-review/scenario";

/** Five hundred reports of a programme in one table, recomputed and put in the order in which to look at them. */
function recipe(): Recipe {
  const pages = [overviewPage(), housesPage(), rulesPage(), notesPage()];
  const written = new Date(Date.UTC(2026, 10, 9));
  return {
    file: "programme-review.xlsx",
    sheets: pages.map(({ sheet }) => sheet),
    names: Object.assign({}, ...pages.map(({ names }) => names)) as Record<string, string>,
    properties: {
      title: `Programme review, ${programme.name}`,
      subject: "Reports of airtightness tests, recomputed and judged",
      description: "Sample workbook. Programme, firms, houses and readings are invented.",
      creator: firm,
      company: firm,
      created: written,
      modified: written,
    },
    markersOnly: [],
  };
}

export const programmeReview = recipe();
