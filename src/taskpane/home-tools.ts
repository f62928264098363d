import { element } from "../views/elements";
import type { UnboundSheet, WorkbookPort } from "./port/port";

type Act = (action: () => Promise<string | void>) => Promise<void>;

interface HomeTools {
  readonly root: HTMLElement;
  /** Looks through the workbook for formulas to mend; one that cannot be looked through now, as in protected view, keeps what was offered. */
  readonly look: () => Promise<void>;
}

/** What this program can do, and what needs mending in the workbook. */
export function createHomeTools(port: WorkbookPort, act: Act): HomeTools {
  const mend = element("div", { role: "status" });
  const root = element(
    "div",
    { class: "home-tools" },
    port.abilities.lacks.length > 0 &&
      element("ul", { class: "lacks" }, ...port.abilities.lacks.map((lack) => element("li", {}, lack))),
    mend,
    port.startWithWorkbook && offerStart(port.startWithWorkbook, act),
  );
  let offered = "";
  const look = async (): Promise<void> => {
    const sheets = await port.findUnbound().catch(() => undefined);
    const found = JSON.stringify(sheets);
    // The same offer stays as the person left it.
    if (!sheets || found === offered) return;
    offered = found;
    mend.replaceChildren(...(sheets.length === 0 ? [] : [createMendOffer(sheets, port, act, look)]));
  };
  return { root, look };
}

function offerStart(start: () => Promise<void>, act: Act): HTMLElement {
  const keep = async (): Promise<string> => {
    await start();
    return "The add-in will start with this workbook once the workbook has been saved.";
  };
  const words = "Start the add-in with this workbook";
  return element("p", {}, element("button", { type: "button", onclick: () => void act(keep) }, words));
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
    element("p", {}, element("button", { type: "button", class: "main", onclick: () => void act(mendAll) }, "Mend")),
  );
}
