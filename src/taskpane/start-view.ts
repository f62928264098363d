import { element } from "../views/elements";
import { PortProblem, type WorkbookPort } from "./port/port";

/** The blank forms beside the add-in, by the name of the file. */
const forms = [
  ["final-test", "Final test", "Both directions, validity, uncertainty and the verdict for the certificate."],
  ["final-test-ip", "Final test, inch-pound", "The same in cfm, ft² and °F."],
  [
    "mid-construction",
    "Mid-construction test",
    "The air barrier while it can still be mended: leaks, tape, repairs, outlook.",
  ],
  ["test-day", "Test day", "Stations, weather and cautions before the fan runs; a site record to print."],
  ["multi-unit", "Several dwellings", "Dwellings of one building, guarded or not, against one limit."],
  ["logger-import", "Logged readings", "Rows of a logger to stations with their scatter."],
  [
    "envelope-what-if",
    "Envelope what-if",
    "What the result becomes if the envelope, the target or the windows change.",
  ],
  ["programme-review", "Programme review", "Many tests of a programme in one table."],
] as const;

type Act = (action: () => Promise<string | void>) => Promise<void>;

/** Blank forms, fetched when asked for and opened as new workbooks. */
export function createFormList(port: WorkbookPort, act: Act): HTMLElement {
  const opens = port.abilities.newWorkbook === "opens";
  const start = (file: string, title: string) => async (): Promise<string> => {
    await port.openNew(`${file}.xlsx`, await fetchForm(file));
    return opens
      ? `“${title}” opened as a new workbook, perhaps behind this one.`
      : `“${title}” is saved as ${file}.xlsx.`;
  };
  return element(
    "section",
    {},
    element("h2", {}, "A blank form"),
    element(
      "ul",
      { class: "forms" },
      ...forms.map(([file, title, purpose]) =>
        element(
          "li",
          {},
          element("strong", {}, title),
          element("p", { class: "soft" }, purpose),
          element(
            "button",
            {
              type: "button",
              "aria-label": `${opens ? "Open" : "Save"} ${title}`,
              onclick: () => void act(start(file, title)),
            },
            opens ? "Open" : "Save",
          ),
        ),
      ),
    ),
  );
}

async function fetchForm(file: string): Promise<Uint8Array> {
  let answer: Response;
  try {
    answer = await fetch(`forms/${file}.xlsx`);
  } catch {
    throw new PortProblem("The form could not be fetched: is there a network?");
  }
  if (!answer.ok) throw new PortProblem(`The form could not be fetched: the server answered ${answer.status}.`);
  return new Uint8Array(await answer.arrayBuffer());
}
