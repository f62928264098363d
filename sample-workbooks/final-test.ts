import type { Recipe } from "./blocks/book";
import { cautionsPage } from "./final-test/cautions";
import { coverPage } from "./final-test/cover";
import { criteriaPage } from "./final-test/criteria";
import { directionPage } from "./final-test/direction";
import { graphPage, markersOnly } from "./final-test/graph";
import { instrumentsPage } from "./final-test/instruments";
import { methodPage } from "./final-test/method";
import { depressurization, pressurization } from "./final-test/readings";
import { resultsPage } from "./final-test/results";
import { roomsPage } from "./final-test/rooms";
import { firm } from "./final-test/scenario";

/** The final test of one house: both directions from raw readings to a verdict, laid out as an invented firm's own template. */
function recipe(): Recipe {
  const directions = [
    directionPage("depressurization", depressurization),
    directionPage("pressurization", pressurization),
  ] as const;
  const results = resultsPage(...directions);
  const graph = graphPage(directions);
  const cover = coverPage(results.places, graph.points);
  const pages = [
    cover,
    roomsPage(),
    instrumentsPage(),
    ...directions,
    results,
    graph,
    criteriaPage(),
    methodPage(),
    cautionsPage(),
  ];
  const written = new Date(Date.UTC(2026, 9, 16));
  return {
    file: "final-test.xlsx",
    sheets: pages.map(({ sheet }) => sheet),
    names: Object.assign({}, ...pages.map(({ names }) => names)) as Record<string, string>,
    properties: {
      title: "Airtightness test, Larch House",
      subject: "Fan pressurization test by ISO 9972, final test at completion",
      description: "Sample workbook. Firm, house, people and readings are invented.",
      creator: firm,
      company: firm,
      created: written,
      modified: written,
    },
    markersOnly,
  };
}

export const finalTest = recipe();
