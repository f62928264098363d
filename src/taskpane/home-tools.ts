import { element } from "../views/elements";
import type { UnboundSheet, WorkbookPort } from "./port/port";

type Act = (action: () => Promise<string | void>) => Promise<void>;

/** What this program can do, and what needs mending in the workbook. */
export function createHomeTools(port: WorkbookPort, act: Act): HTMLElement {
  const mend = element("div", { role: "status" });
  const root = element(
    "div",
    { class: "home-tools" },
    port.abilities.lacks.length > 0 &&
      element("ul", { class: "lacks" }, ...port.abilities.lacks.map((lack) => element("li", {}, lack))),
    mend,
  );
  const look = async (): Promise<void> => {
    const sheets = await port.findUnbound();
    mend.replaceChildren(...(sheets.length === 0 ? [] : [createMendOffer(sheets, port, act, look)]));
  };
  // A workbook that cannot be looked through now, such as one in protected view, shows no offer.
  look().catch(() => undefined);
  return root;
}

function createMendOffer(
  sheets: readonly UnboundSheet[],
  port: WorkbookPort,
  act: Act,
  look: () => Promise<void>,
): HTMLElement {
  const locked = sheets.filter(({ isProtected }) => isProtected).map(({ name }) => `“${name}”`);
  const agree = element("input", { type: "checkbox" });
  const mendAll = async (): Promise<string> => {
    let mended = 0;
    const refused: string[] = [];
    for (const { name, isProtected } of sheets) {
      if (isProtected && !agree.checked) {
        refused.push(`“${name}” is protected and was left as it is.`);
        continue;
      }
      try {
        mended += await port.mend(name);
      } catch (problem) {
        refused.push(problem instanceof Error ? problem.message : String(problem));
      }
    }
    await look();
    return [`${mended} ${mended === 1 ? "formula was" : "formulas were"} entered once more.`, ...refused].join(" ");
  };
  const start = port.startWithWorkbook;
  return element(
    "section",
    { class: "mend" },
    element("h2", {}, "Formulas that show #NAME?"),
    element(
      "p",
      {},
      "This workbook was changed where the add-in was not running. Entered once more, the formulas calculate again.",
    ),
    element("ul", {}, ...sheets.map(({ name, count }) => element("li", {}, `${name}: ${count}`))),
    locked.length > 0 &&
      element(
        "label",
        { class: "filter" },
        agree,
        ` Unprotect ${locked.join(", ")} for this, and protect again in the same way. It cannot be undone afterwards.`,
      ),
    element(
      "p",
      {},
      element("button", { type: "button", class: "main", onclick: () => void act(mendAll) }, "Mend"),
      " ",
      start &&
        element(
          "button",
          {
            type: "button",
            onclick: () =>
              void act(async () => {
                await start();
                return "The add-in will start with this workbook once the workbook has been saved.";
              }),
          },
          "Start the add-in with this workbook",
        ),
    ),
  );
}
