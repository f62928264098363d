import { type Recipe, recipeOf } from "./blocks/book";
import { cautionsPage } from "./final-test/cautions";
import { coverPage } from "./final-test/cover";
import { criteriaPage } from "./final-test/criteria";
import { graphPage, markersOnly } from "./final-test/graph";
import { larchHouse, tamarackHouse } from "./final-test/houses";
import { firmPage } from "./final-test/firm";
import { methodPage } from "./final-test/method";
import { nativeFormulasPage } from "./final-test/native-formulas";
import { preparationPage } from "./final-test/preparation";
import { reportPage } from "./final-test/report";
import { resultsPage } from "./final-test/results";
import { roomsPage } from "./final-test/rooms";
import { runPage } from "./final-test/run";
import type { Direction, Scenario } from "./final-test/scenario";
import { uncertaintyPage } from "./final-test/uncertainty";
import { validityPage } from "./final-test/validity";

/** The final test of one house: every run of both directions from raw readings to a verdict and a report, laid out as an invented firm's own template. */
function recipe(form: Scenario): Recipe {
  const page = (direction: Direction, run: 1 | 2) =>
    runPage({ direction, run, units: form.units, readings: form.runs[direction][run - 1] });
  const runs = [
    page("depressurization", 1),
    page("depressurization", 2),
    page("pressurization", 1),
    page("pressurization", 2),
  ] as const;
  const uncertainty = uncertaintyPage(form, runs);
  const results = resultsPage(form, runs, uncertainty.deciding);
  const graph = graphPage(runs);
  const typed = [
    coverPage(form, results.places, runs[0].wholeTest.value("q50"), graph.points),
    roomsPage(form),
    firmPage(form),
    preparationPage(),
    ...runs,
  ];
  const pages = [
    ...typed,
    validityPage(runs),
    uncertainty,
    results,
    graph,
    reportPage(form, runs, results.places, graph.points),
    nativeFormulasPage(runs, results.places),
    criteriaPage(form),
    methodPage(
      results.places.cell("n50", "mean"),
      typed.map(({ sheet }) => sheet),
    ),
    cautionsPage(),
  ];
  return recipeOf(pages, {
    file: form.file,
    title: `Airtightness test, ${form.house.name}`,
    form: "Airtightness test",
    subject: "Fan pressurization test by ISO 9972, final test at completion",
    invented: "Firm, house, people and readings",
    written: new Date(Date.UTC(2026, 9, 16)),
    paper: form.units.system === "IP" ? "letter" : "a4",
    markersOnly,
  });
}

export const finalTest = recipe(larchHouse);

/** The same form in inch-pound units, for another house. */
export const finalTestInchPound = recipe(tamarackHouse);
