import { Conversation } from "../views/conversation";
import { element } from "../views/elements";
import { late, type OfficeLike, patience, reportHost } from "./host";
import { Pane, type TabName } from "./pane";
import { formatSelected } from "./port/addresses";
import { FilePort } from "./port/file-port";
import { OfficePort } from "./port/office-port";
import type { WorkbookPort } from "./port/port";
import { wireCopy, wireLinks } from "./reference-list";
import { wireSearch } from "./search";
import { Session } from "./session";

wireSearch(document);
wireCopy(document);
wireLinks(window);

const startWorker = (): Worker => new Worker(document.body.dataset["reviewer"] ?? "");

/** The ribbon's and the keyboard's actions, with the tool that each one shows. */
const actions: Readonly<Record<string, TabName>> = {
  showFunctions: "functions",
  showTrace: "trace",
  showGraph: "graph",
  showCheck: "check",
};

function openPane(createPort: (desk: Conversation) => WorkbookPort): Pane | undefined {
  const functions = document.getElementById("reference");
  const cautions = document.getElementById("cautions");
  if (!functions || !cautions) return undefined;
  // A worker that broke down has forgotten the workbook.
  const desk: Conversation = new Conversation(startWorker, () => session.forget());
  const session: Session = new Session(createPort(desk), desk, new Conversation(startWorker));
  const home = element("div", {}, cautions);
  // From now on the list is one of the tools, shown when it is chosen.
  functions.remove();
  const skip = document.querySelector<HTMLAnchorElement>("#skip");
  if (skip) Object.assign(skip, { href: "#panel", textContent: "Skip to the tool" });
  const pane = new Pane(document, session, { home, functions });
  // Links lead to a function or to the cautions: the tool that holds them is shown first.
  const showPart = (): void => {
    const part = `[id="${CSS.escape(location.hash.slice(1))}"]`;
    if (functions.querySelector(part)) pane.choose("functions");
    else if (home.querySelector(part)) {
      pane.choose("home");
      document.querySelector(part)?.scrollIntoView();
    }
  };
  addEventListener("hashchange", showPart);
  showPart();
  return pane;
}

/** Saves a file where Excel cannot open it as a new workbook. */
function save(name: string, bytes: Uint8Array): void {
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
  const address = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type }));
  element("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

function startInExcel(): void {
  const pane = openPane(() => new OfficePort(save));
  if (!pane) return;
  for (const [name, tool] of Object.entries(actions))
    Office.actions?.associate(name, (event?: Office.AddinCommands.Event) => {
      pane.choose(tool);
      void tryIn(Office.addin.showAsTaskpane()).finally(() => event?.completed());
    });
  const watched = Office.addin?.onVisibilityModeChanged(({ visibilityMode }) => {
    void (visibilityMode === Office.VisibilityMode.hidden ? pane.rest() : pane.wake());
  });
  void tryIn(watched);
}

/** Excel may refuse, as while a cell is being edited; the pane then does without. */
const tryIn = (asked: Promise<unknown>): Promise<unknown> => asked?.catch(() => undefined);

function offerFile(): void {
  const offer = document.getElementById("open-file");
  if (!offer) return;
  offer.hidden = false;
  offer.querySelector("input")?.addEventListener("change", ({ target }) => {
    const [file] = (target as HTMLInputElement).files ?? [];
    if (!file) return;
    void file.arrayBuffer().then((content) => {
      openPane((desk) => {
        const port = new FilePort(file.name, new Uint8Array(content), desk, save);
        offer.replaceChildren(...createFileTools(port, file.name));
        return port;
      });
    });
  });
}

/** Outside Excel there are no cells to click: the selected one is named, and the changed copy is saved. */
function createFileTools(port: FilePort, name: string): HTMLElement[] {
  const field = element("input", { type: "text", "aria-label": "Selected cell", placeholder: "Results!B4", size: 18 });
  const choose = (event: Event): void => {
    event.preventDefault();
    field.setCustomValidity("");
    port.select(field.value).catch((problem: unknown) => {
      field.setCustomValidity(problem instanceof Error ? problem.message : String(problem));
      field.reportValidity();
    });
  };
  void port.onSelection(() => {
    void port.findSelection().then((area) => {
      if (area) field.value = formatSelected(area);
    });
  });
  return [
    element("strong", {}, name),
    element(
      "form",
      { class: "filter", onsubmit: choose },
      element("label", {}, "Selected cell ", field),
      " ",
      element("button", { type: "submit" }, "Select"),
      " ",
      element("button", { type: "button", onclick: () => port.saveCopy() }, "Save a copy"),
    ),
  ];
}

const office = (globalThis as { Office?: OfficeLike }).Office;
const line = document.querySelector<HTMLElement>("#host");
const impatient = setTimeout(() => {
  if (!line) return;
  line.dataset["state"] = "waiting";
  line.textContent = late;
}, patience);
void reportHost(office, line?.dataset["runtime"] ?? "").then(({ state, sentence }) => {
  clearTimeout(impatient);
  if (!line) return;
  line.dataset["state"] = state;
  line.textContent = sentence;
  if (state === "ready") startInExcel();
  else if (state === "elsewhere") offerFile();
});
