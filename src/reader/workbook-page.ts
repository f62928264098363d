import { createComparisonView } from "../views/compare-view";
import { describeFailure, readProblem, type ViewContext } from "../views/context";
import type { CellPlace, TypedChange } from "../views/desk/answers";
import { element } from "../views/elements";
import { createFilesView, type Offer } from "../views/files-view";
import { createFindingsView, createReviewOffer } from "../views/findings-view";
import { createGraphChoice, createGraphView } from "../views/graph-view";
import { createSheetView } from "../views/sheets-view";
import { createTraceView } from "../views/trace-view";
import { createTrialView } from "../views/trial-view";
import { createVerdictView } from "../views/verdict-view";
import type { Words } from "../views/words/english";
import type { Ask, Conversation } from "../views/conversation";
import type { Entry } from "./library";
import { renderPicture } from "../views/picture";
import { Tabs } from "../views/tabs";

type TabName = keyof Words["tabs"];

/** Says what is going on, with how far it is and a button that stops it. */
export type Say = (
  words: string,
  job?: { readonly done: number; readonly of: number; readonly stop: () => void },
) => void;

/** What a page of one workbook needs from the reader around it. */
interface Surroundings {
  readonly words: Words;
  readonly desk: Conversation;
  readonly reviewer: Conversation;
  readonly say: Say;
  /** Reads a workbook again that the desk has forgotten; rejects where that was stopped or failed. */
  readonly prepare: (entry: Entry) => Promise<void>;
  readonly openLater: (file: File) => Promise<Entry>;
}

/** One workbook: its views under tabs, each made when it is first shown. */
export class WorkbookPage {
  readonly root = element("div", {});
  private readonly tabs: Tabs<TabName>;
  private readonly context: ViewContext;
  private trial: HTMLElement | undefined;
  private comparison: HTMLElement | undefined;
  private tab: TabName = "verdict";
  private tracedCell = "";
  /** How far the reader went down from that cell. */
  private path: number[] = [];
  private sheet = 0;
  private chosenCell: CellPlace | undefined;
  private graph = 0;
  private asked = 0;

  /** Asks the desk once it holds this workbook. */
  private readonly ask: Ask = async (name, given, watch) => {
    await this.around.prepare(this.entry);
    return this.around.desk.ask(name, given, watch);
  };

  constructor(
    private readonly entry: Entry,
    private readonly around: Surroundings,
  ) {
    const { words } = around;
    this.context = {
      words,
      showTrace: (address) => {
        this.tracedCell = address;
        this.path = [];
        this.tabs.choose("trace");
      },
      showInSheet: (address) => void this.showInSheet(address),
    };
    const names = Object.keys(words.tabs) as TabName[];
    this.tabs = new Tabs(
      entry.file.name,
      names.map((name) => ({ name, title: words.tabs[name] })),
      (name) => void this.show(name),
    );
    this.root.append(this.tabs.list, this.tabs.panel);
    const [verdict] = entry.answer?.verdicts ?? [];
    // A result that the verdict's formula computes within itself has no cell.
    this.tracedCell = [verdict?.result?.address, verdict?.address].find((address) => address) ?? "";
  }

  /** Shows the view that was shown last; what a sheet needs beside it may have been another workbook's meanwhile. */
  open(): void {
    this.tabs.choose(this.tab);
  }

  private async show(name: TabName): Promise<void> {
    const { say, words } = this.around;
    const asked = (this.asked += 1);
    this.tab = name;
    const made = this.make(name);
    if (made instanceof Promise) say(words.working);
    try {
      const view = await made;
      // Another tab may have been chosen meanwhile.
      if (asked !== this.asked) return;
      say("");
      this.tabs.panel.replaceChildren(view);
    } catch (problem) {
      if (asked !== this.asked) return;
      say("");
      // What another tab showed would stand below this one's title.
      this.tabs.panel.replaceChildren(element("div", { class: "view" }, describeFailure({ words }, problem)));
    }
  }

  private make(name: TabName): HTMLElement | Promise<HTMLElement> {
    const { answer } = this.entry;
    switch (name) {
      case "verdict":
        return answer ? createVerdictView(this.context, answer) : element("div", {});
      case "findings":
        return this.showFindings();
      case "trace":
        return this.showTrace();
      case "sheets":
        return this.showSheet();
      case "graph":
        return this.showGraph();
      case "trial":
        return this.showTrial();
      case "compare":
        return (this.comparison ??= this.createComparison());
      case "files":
        return this.showFiles();
    }
  }

  private showFindings(): HTMLElement {
    const { review } = this.entry;
    return review
      ? createFindingsView(this.context, review.answer)
      : createReviewOffer(this.context, () => this.runReview());
  }

  private async runReview(): Promise<void> {
    const { words, reviewer } = this.around;
    // Another workbook may be shown before the review ends.
    const say: Say = (...given) => {
      if (this.root.isConnected) this.around.say(...given);
    };
    const watch = (done: number, of: number): void =>
      say(words.findings.running(done, of), { done, of, stop: () => reviewer.stop(words.stopped) });
    try {
      const bytes = new Uint8Array(await this.entry.file.arrayBuffer());
      watch(0, 1);
      this.entry.review = await reviewer.ask("review", [this.entry.file.name, bytes], watch);
      say("");
      if (this.root.isConnected && this.tab === "findings") this.tabs.choose("findings");
    } catch (problem) {
      say(readProblem({ words }, problem));
    }
  }

  private async showTrace(): Promise<HTMLElement> {
    const told = this.around.words.trace;
    const field = element("input", { type: "text", value: this.tracedCell, placeholder: told.example, size: 24 });
    const form = element(
      "form",
      {
        class: "filter",
        onsubmit: (event) => {
          event.preventDefault();
          this.context.showTrace(field.value.trim());
        },
      },
      element("label", {}, `${told.cell} `, field),
      " ",
      element("button", { type: "submit" }, told.go),
    );
    const view = element("div", { class: "view" }, element("p", { class: "soft" }, told.about), form);
    if (this.tracedCell === "") return view;
    const place = await this.ask("locate", [this.entry.id, this.tracedCell]);
    view.append(
      place
        ? createTraceView(this.context, await this.ask("trace", [this.entry.id, this.tracedCell]), this.path)
        : element("p", { class: "caution" }, told.unknown(this.tracedCell)),
    );
    return view;
  }

  private async showInSheet(address: string): Promise<void> {
    const { say, words } = this.around;
    try {
      const place = await this.ask("locate", [this.entry.id, address]);
      if (!place) return;
      this.sheet = place.sheet;
      this.chosenCell = place;
      this.tabs.choose("sheets");
    } catch (problem) {
      say(words.failed(readProblem({ words }, problem)));
    }
  }

  private async showSheet(): Promise<HTMLElement> {
    const { words } = this.around;
    const sheets = this.entry.answer?.sheets ?? [];
    const names = sheets.map(({ name, isVisible }, index) =>
      element(
        "li",
        {},
        element(
          "button",
          {
            type: "button",
            "aria-current": index === this.sheet ? "true" : undefined,
            onclick: () => {
              this.sheet = index;
              this.chosenCell = undefined;
              this.tabs.choose("sheets");
            },
          },
          isVisible ? name : `${name} (${words.sheets.hidden})`,
        ),
      ),
    );
    const view = createSheetView(
      this.context,
      await this.ask("showSheet", [this.entry.id, this.sheet, this.chosenCell]),
    );
    view.prepend(element("ul", { class: "sheet-names" }, ...names));
    return view;
  }

  private async showGraph(): Promise<HTMLElement> {
    const { words } = this.around;
    const graphs = this.entry.answer?.graphs ?? [];
    if (graphs.length === 0) return element("div", { class: "view" }, element("p", {}, words.graph.none));
    const view = createGraphView(this.context, await this.ask("drawGraph", [this.entry.id, this.graph]));
    const choice = createGraphChoice(this.context, graphs, this.graph, (index) => {
      this.graph = index;
      this.tabs.choose("graph");
    });
    if (choice) view.prepend(choice);
    return view;
  }

  private async showTrial(): Promise<HTMLElement> {
    const { id } = this.entry;
    const actions = {
      run: (changes: readonly TypedChange[]) => this.ask("tryOut", [id, changes]),
      make: (changes: readonly TypedChange[]) => this.ask("makeChangedCopy", [id, changes]),
    };
    return (this.trial ??= createTrialView(
      this.context,
      await this.ask("listInputs", [id]),
      actions,
      this.entry.changes,
    ));
  }

  private createComparison(): HTMLElement {
    const { words, openLater, prepare, say } = this.around;
    const told = words.compare;
    const outcome = element("div", {});
    const choose = element("input", {
      type: "file",
      accept: ".xlsx,.xlsm",
      onchange: ({ target }) => {
        const [file] = (target as HTMLInputElement).files ?? [];
        if (file) void compare(file);
      },
    });
    const compare = async (file: File): Promise<void> => {
      outcome.replaceChildren();
      try {
        const later = await openLater(file);
        if (later.state !== "open") {
          const why = later.state === "unreadable" ? words.notRead(file.name, later.problem) : words.stopped;
          outcome.replaceChildren(element("p", { class: "caution" }, why));
          return;
        }
        const ask: Ask = async (...question) => {
          await prepare(later);
          return this.ask(...question);
        };
        const answer = await ask("compare", [this.entry.id, later.id]);
        say("");
        outcome.replaceChildren(
          createComparisonView(this.context, answer, {
            count: () => ask("countTurns", [this.entry.id, later.id]),
            tryOne: (index) => ask("tryTurn", [this.entry.id, later.id, index]),
          }),
        );
      } catch (problem) {
        outcome.replaceChildren(describeFailure({ words }, problem));
      }
    };
    return element(
      "div",
      { class: "view" },
      element("p", { class: "soft" }, told.about),
      element("label", { class: "filter" }, `${told.choose} `, choose),
      outcome,
    );
  }

  private showFiles(): HTMLElement {
    const { words } = this.around;
    const { id, answer } = this.entry;
    const told = words.files;
    const drawGraph = () => this.ask("drawGraph", [id, this.graph]);
    const nameFile = (ending: string): string => this.entry.file.name.replace(/\.[^.]*$/, ending);
    const graphs: Offer[] =
      (answer?.graphs.length ?? 0) === 0
        ? []
        : [
            {
              words: told.graph,
              make: async () => ({
                name: nameFile(" (graph).svg"),
                type: "image/svg+xml",
                bytes: (await drawGraph()).svg,
                notes: [],
              }),
            },
            {
              words: told.picture,
              make: async () => ({
                name: nameFile(" (graph).png"),
                type: "image/png",
                bytes: await renderPicture((await drawGraph()).svg),
                notes: [],
              }),
            },
          ];
    return createFilesView(this.context, [
      { words: told.issue, make: () => this.ask("makeIssueCopy", [id]) },
      // The results of an issue copy are frozen.
      ...(this.entry.answer?.issued
        ? []
        : [{ words: told.recalculated, make: () => this.ask("makeChangedCopy", [id, []]) }]),
      {
        words: told.findings,
        make: () =>
          this.entry.review ? Promise.resolve(this.entry.review.page) : Promise.reject(new Error(told.reviewFirst)),
      },
      ...graphs,
    ]);
  }
}
