import { type Recipe, recipeOf } from "./blocks/book";
import { dayPage } from "./test-day/day";
import { fanPage } from "./test-day/fan";
import { cautionsList, packingList, peopleList } from "./test-day/lists";
import { notesPage } from "./test-day/notes";
import { preparationPage } from "./test-day/preparation";
import { pressuresPage } from "./test-day/pressures";
import { recordPage } from "./test-day/record";
import { job } from "./test-day/scenario";
import { standardsPage } from "./test-day/standards";
import { weatherPage } from "./test-day/weather";

/** The evening before a test: whether it is likely to be valid, what to set, what to prepare, to pack and to tell, and
 * the record to write on by hand. */
function recipe(): Recipe {
  const lists = [packingList, peopleList, cautionsList].map(({ sheet }) => ({ sheet, names: {} }));
  const pages = [
    dayPage(),
    weatherPage(),
    pressuresPage(),
    fanPage(),
    preparationPage(),
    ...lists,
    recordPage(),
    standardsPage(),
    notesPage(),
  ];
  return recipeOf(pages, {
    file: "test-day.xlsx",
    title: `Test day, ${job.house}`,
    form: "Test day",
    subject: "Preparation of an airtightness test by ISO 9972",
    invented: "Firm, house, people and weather",
    written: new Date(Date.UTC(2026, 10, 23)),
  });
}

export const testDay = recipe();
