import { recallFormulas } from "../../book/formulas";
import { sentence } from "../../file/problem";
import type { Finding } from "../finding";
import type { Check } from "../review";

/** The cells in which a form names the sheets that still hold the example's own entries, by the name of the cell. */
const marks = [
  { name: "ExampleSheets", holds: "rooms or readings", severity: "error" },
  { name: "ExampleLists", holds: "lists", severity: "warning" },
] as const;

/** Entries of the example in a form that was typed for another house. */
export const findExampleReadings: Check = ({ book, view }) =>
  marks.flatMap(({ name, holds, severity }): Finding[] => {
    const [area] = recallFormulas(book).listNamedAreas(name);
    const place = area && { sheet: area.sheet, row: area.top, column: area.left };
    const sheets = place ? view.readText(place) : "";
    if (!place || sheets === "") return [];
    return [
      {
        kind: "readings of the example",
        severity,
        place: view.formatAddress(place),
        what: sentence`The form is filled in for another house, but ${holds} of the example remain on ${sheets}.`,
        why:
          severity === "error"
            ? "Part of the result belongs to an invented house."
            : "The report would list what belongs to an invented house.",
        todo: "Enter this house's own, or clear the sheets that are not needed.",
      },
    ];
  });
