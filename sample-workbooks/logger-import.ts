import { type Recipe, recipeOf } from "./blocks/book";
import { logPage } from "./logger-import/log";
import { notesPage } from "./logger-import/notes";
import { overviewPage } from "./logger-import/overview";
import { readingsPage } from "./logger-import/readings";
import { house } from "./logger-import/scenario";
import { stationsPage } from "./logger-import/stations";
import { uncertaintyPage } from "./logger-import/uncertainty";
import { directionPage } from "./logger-import/whole-test";

/** A logger's export of one test, reduced to stations that feed a whole test of both directions. */
function recipe(): Recipe {
  const typed = [overviewPage(), logPage()];
  const pages = [
    ...typed,
    stationsPage(),
    readingsPage(),
    directionPage("depressurization"),
    directionPage("pressurization"),
    uncertaintyPage(),
    notesPage(typed.map(({ sheet }) => sheet)),
  ];
  return recipeOf(pages, {
    file: "logger-import.xlsx",
    title: `Airtightness test from a logger’s file, ${house.name}`,
    form: "Airtightness test from a logger’s file",
    subject: "A logger’s rows reduced to stations",
    invented: "Firm, house, people and log",
    written: new Date(Date.UTC(2026, 9, 30)),
  });
}

export const loggerImport = recipe();
