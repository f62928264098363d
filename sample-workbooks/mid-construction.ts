import { type Recipe, recipeOf } from "./blocks/book";
import { criterionPage } from "./blocks/criterion-page";
import { basisPage } from "./mid-construction/basis";
import { cautionsPage } from "./mid-construction/cautions";
import { forecastMarkers, forecastPage } from "./mid-construction/forecast";
import { footer, sheets } from "./mid-construction/layout";
import { registerPage } from "./mid-construction/leak-register";
import { overviewPage, progressMarkers } from "./mid-construction/overview";
import { pointTestPage } from "./mid-construction/point-test";
import { quickPage } from "./mid-construction/quick-tests";
import { rankingPage } from "./mid-construction/ranking";
import { pointTests } from "./mid-construction/scenario";
import { seriesMarkers, seriesPage } from "./mid-construction/series";
import { tradePage } from "./mid-construction/trade-sheet";
import { twoPointPage } from "./mid-construction/two-point";

/** Tests of one house while its air barrier is open: how far it is, which leaks there are, what each repair won, what the final test may show. */
function recipe(): Recipe {
  const [first, second] = [pointTestPage(pointTests[0]), pointTestPage(pointTests[1])];
  const tests = [first.places, second.places] as const;
  const series = seriesPage(first.places);
  const forecast = forecastPage(tests, series.places);
  const typed = [
    overviewPage({ tests, series: series.places, forecast: forecast.places }),
    basisPage(),
    quickPage(),
    twoPointPage(),
    first,
    registerPage(),
    series,
    second,
    rankingPage(),
    tradePage(),
    forecast,
    criterionPage({
      name: sheets.limits,
      footer,
      criterion: "Passive house, new build",
      heading: "The criterion that the final test will be held to",
    }),
  ];
  const pages = [...typed, cautionsPage(typed.map(({ sheet }) => sheet))];
  return recipeOf(pages, {
    file: "mid-construction.xlsx",
    title: "Airtightness in mid-construction, Teasel House",
    form: "Airtightness in mid-construction",
    subject: "Quick and multi-point tests, leak register, repairs and forecast",
    invented: "Firm, house, people and readings",
    written: new Date(Date.UTC(2026, 8, 25)),
    markersOnly: [...seriesMarkers, ...forecastMarkers, ...progressMarkers],
  });
}

export const midConstruction = recipe();
