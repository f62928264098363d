import type { SheetArea } from "../../book/area";
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
    const named = book.names.find((one) => one.name === name);
    const area: SheetArea | undefined = named && view.findNamedArea(named.text, named.sheet);
    const place = area && { sheet: area.sheet, row: area.top, column: area.left };
    const sheets = place ? view.readText(place) : "";
    if (!place || sheets === "") return [];
    return [
      {
        kind: "readings of the example",
        severity,
        place: view.formatAddress(place),
        what: sentence`The house is another one, but ${holds} of the example are still on ${sheets}.`,
        why:
          severity === "error"
            ? "The result is partly that of an invented house."
            : "The report would name what belongs to an invented house.",
        todo: "Type this house's own entries, or empty the sheets that are not needed.",
      },
    ];
  });
