import { Stopped } from "../views/conversation";
import { createFilesView, type Offer } from "../views/files-view";
import { createFindingsView, createReviewOffer } from "../views/findings-view";
import { createGraphChoice, createGraphView } from "../views/graph-view";
import { createTraceView } from "../views/trace-view";
import { createTrialView } from "../views/trial-view";
import { createVerdictView } from "../views/verdict-view";
import type { ViewContext } from "../views/context";
import type { FileAnswer, ReviewAnswer, TraceAnswer, TypedChange, WorkbookAnswer } from "../views/desk/answers";
import { element } from "../views/elements";
import { renderPicture } from "../views/picture";
import { Tabs } from "../views/tabs";
import { english } from "../views/words/english";
import { type Forms, mountForms, readForms } from "./forms";
import { listSeries } from "./graph-series";
import { createHomeTools } from "./home-tools";
import { formatFirst, parseSelected } from "./port/addresses";
import { type DrawnGraph, PortProblem, type Unsubscribe } from "./port/port";
import { type Session, workbookId } from "./session";
import { createStartBlock } from "./start-block";
import { createFormList } from "./start-view";

const titles = {
  home: "Home",
  start: "Start",
  functions: "Functions",
  verdict: "Verdict",
  trace: "Trace",
  graph: "Graph",
  check: "Check",
  trial: "What if",
  files: "Hand over",
} as const;

export type TabName = keyof typeof titles;

/** The selection settles before a trace is worth its work; a person moving by arrow keys passes many cells. */
const settling = 350; // ms

/** Changes come one by one while a person types; looking through all cells waits until they pause. */
const pausing = 1000; // ms

/** The pane's tools over one workbook. Whatever a tool shows was computed in a worker, so that Excel's functions on this thread stay quick. */
export class Pane {
  private readonly status = element("p", { class: "status", role: "status" });
  private readonly tabs: Tabs<TabName>;
  private readonly context: ViewContext;
  private readonly forms: Forms;
  private readonly homeTools: ReturnType<typeof createHomeTools>;
  private ends: Unsubscribe[] = [];
  private isAwake = false;
  private shown: TabName = "home";
  private asked = 0;
  private hasWarned = false;
  private followed: ReturnType<typeof setTimeout> | undefined;
  private looked: ReturnType<typeof setTimeout> | undefined;
  private isPinned = false;
  /** The cell whose trace is shown, or is to be shown; "" for the selected one. */
  private traced = "";
  /** How far the reader went down from that cell. */
  private path: number[] = [];
  /** The cell that the pane itself selected, to show a step of a trace; "" for none. */
  private pointed = "";
  /** The view of What if over the workbook as it was read, and what was typed there. */
  private trial: { readonly of: WorkbookAnswer; readonly view: HTMLElement } | undefined;
  private readonly changes = new Map<string, string>();
  private start: HTMLElement | undefined;
  private review: ReviewAnswer | undefined;
  private graph = 0;

  constructor(
    page: Document,
    private readonly session: Session,
    private readonly parts: { readonly home: HTMLElement; readonly functions: HTMLElement },
  ) {
    this.context = {
      words: english,
      showTrace: (address) => void this.showCell(address),
      showInSheet: (address) => {
        this.pointed = address;
        void this.act(() => session.port.select(address));
      },
    };
    this.tabs = new Tabs(
      "Tools",
      (Object.keys(titles) as TabName[]).map((name) => ({ name, title: titles[name] })),
      (name) => void this.show(name),
    );
    const frame = element("div", { class: "tools" }, this.tabs.list, this.status, this.tabs.panel);
    page.querySelector("#tools")?.replaceChildren(frame);
    this.forms = readForms(page, session, (words) => this.say(words));
    mountForms(parts.functions, this.forms);
    this.homeTools = createHomeTools(session.port, (action) => this.act(action));
    parts.home.prepend(this.homeTools.root);
    this.tabs.choose("home");
    void this.wake();
  }

  /** Shows a tool, as the ribbon's buttons do. */
  choose(name: TabName): void {
    this.tabs.choose(name);
  }

  /** Listens to Excel while the pane is seen; what happened while it was not is unknown. */
  async wake(): Promise<void> {
    if (this.isAwake) return;
    this.isAwake = true;
    const { session } = this;
    const { port } = session;
    const ends: Unsubscribe[] = [];
    try {
      ends.push(await port.onChange(() => this.noteChange()));
      ends.push(await port.onSelection(() => void this.noteSelection()));
      // It may have been hidden meanwhile.
      if (this.isAwake) this.ends = ends;
      else await endAll(ends);
      session.hear(this.isAwake);
    } catch {
      // Without events, as in a protected view, each tool reads the workbook when a person asks for it.
      await endAll(ends);
      this.isAwake = false;
    }
    this.noteChange();
  }

  /** Stops listening while the pane is hidden. */
  async rest(): Promise<void> {
    clearTimeout(this.followed);
    clearTimeout(this.looked);
    this.session.hear(false);
    this.isAwake = false;
    await endAll(this.ends.splice(0));
  }

  private warn(): void {
    this.say("The workbook has changed; choose the tool again to see it as it is now.");
    this.hasWarned = true;
  }

  private say(words: string, stop?: () => void): void {
    this.hasWarned = false;
    this.status.replaceChildren(words);
    if (stop) this.status.append(" ", element("button", { type: "button", onclick: stop }, english.cancel));
  }

  /** Does something and says why where it cannot be done. */
  private async act(action: () => Promise<string | void>): Promise<void> {
    try {
      this.say((await action()) ?? "");
    } catch (problem) {
      this.say(describeProblem(problem));
    }
  }

  private noteChange(): void {
    this.session.forget();
    this.review = undefined;
    // A workbook that changed is traced by other steps.
    this.path = [];
    if (this.shown === "trace") this.traceAgain();
    else if (this.showsWorkbook) this.warn();
    clearTimeout(this.looked);
    if (this.shown === "home") this.looked = setTimeout(() => void this.homeTools.look(), pausing);
  }

  private get showsWorkbook(): boolean {
    return this.shown !== "home" && this.shown !== "start" && this.shown !== "functions";
  }

  /** The next trace is of what is selected now, unless one is kept, or the pane selected a cell of it. */
  private async noteSelection(): Promise<void> {
    if (this.isPinned) return;
    if (this.pointed !== "") {
      const [place, selected] = [parseSelected(this.pointed), await this.session.port.findSelection()];
      if (place && selected && formatFirst(place) === formatFirst(selected)) return;
      this.pointed = "";
    }
    this.startTrace("");
    if (this.shown === "trace") this.traceAgain();
  }

  private startTrace(address: string): void {
    this.traced = address;
    this.path = [];
  }

  private traceAgain(): void {
    clearTimeout(this.followed);
    this.followed = setTimeout(() => void this.show("trace", true), settling);
  }

  /** Selects a cell, and shows where it comes from. */
  private async showCell(address: string): Promise<void> {
    await this.act(() => this.session.port.select(address));
    clearTimeout(this.followed);
    this.startTrace(address);
    this.tabs.choose("trace");
  }

  /** @param follows A trace that follows the selection by itself leaves what was said of a person's last step. */
  private async show(name: TabName, follows = false): Promise<void> {
    // A trace that was to follow must not take the place of another tool.
    clearTimeout(this.followed);
    const asked = (this.asked += 1);
    this.shown = name;
    const made = this.make(name);
    if (made instanceof Promise && !follows) this.say(english.working);
    try {
      const view = await made;
      // Another tool may have been chosen meanwhile.
      if (asked !== this.asked) return;
      if (this.showsWorkbook && name !== "check" && this.session.isOutdated) this.warn();
      else if (!follows || this.hasWarned) this.say("");
      this.tabs.panel.replaceChildren(view);
    } catch (problem) {
      if (asked === this.asked) this.say(describeProblem(problem));
    }
  }

  private make(name: TabName): HTMLElement | Promise<HTMLElement> {
    switch (name) {
      case "home":
        void this.homeTools.look();
        return this.parts.home;
      case "functions":
        return this.parts.functions;
      case "start":
        return (this.start ??= element(
          "div",
          { class: "view" },
          createFormList(this.session.port, (action) => this.act(action)),
          element(
            "section",
            {},
            element("h2", {}, "The smallest test, in your own sheet"),
            element(
              "p",
              { class: "soft" },
              "Readings of both directions, settings, results, checks and verdict from the selected cell on. Nothing is overwritten.",
            ),
            createStartBlock(this.forms),
          ),
        ));
      case "verdict":
        return this.session.open().then((answer) => createVerdictView(this.context, answer));
      case "trace":
        return this.showTrace();
      case "graph":
        return this.showGraph();
      case "check":
        return this.showReview();
      case "trial":
        return this.showTrial();
      case "files":
        return this.showFiles();
    }
  }

  private async showTrace(): Promise<HTMLElement> {
    const { port, desk } = this.session;
    const { asked } = this;
    const answer = await this.session.open();
    const selection = await port.findSelection();
    const first = answer.verdicts[0];
    const selected = selection ? formatFirst(selection) : "";
    // An older request, still on its way, leaves the choice to the newer one.
    if (asked === this.asked && this.traced === "") this.traced = selected;
    const address = this.traced;
    const pin = element("input", {
      type: "checkbox",
      checked: this.isPinned,
      onchange: ({ target }) => {
        this.isPinned = (target as HTMLInputElement).checked;
        void this.noteSelection();
      },
    });
    const view = element(
      "div",
      { class: "view" },
      element("p", { class: "soft" }, "Select a cell to see where its figure comes from."),
      element("label", { class: "filter" }, pin, " Keep this trace while I select other cells"),
      first &&
        element(
          "p",
          {},
          element(
            "button",
            { type: "button", class: "link", onclick: () => void this.showCell(first.address) },
            `Trace the verdict (${first.address})`,
          ),
        ),
    );
    if (selection && selection.rows * selection.columns > 1 && address === selected)
      view.append(
        element("p", { class: "soft" }, `Several cells are selected; the trace is of the first, ${address}.`),
      );
    if (address === "") {
      view.append(element("p", { class: "caution" }, "No cell is selected."));
      return view;
    }
    try {
      const trace = await desk.ask("trace", [workbookId, address]);
      view.append(
        createTraceView(this.context, trace, this.path),
        element(
          "p",
          {},
          element(
            "button",
            { type: "button", onclick: () => void this.act(() => this.writeTrace(address, trace)) },
            "Write this trace to a new sheet",
          ),
        ),
      );
    } catch {
      view.append(element("p", { class: "caution" }, `${address} holds nothing to trace.`));
    }
    return view;
  }

  private async writeTrace(address: string, { steps }: TraceAnswer): Promise<string> {
    const rows = steps.map((step) => [step.address, step.title, step.kind, step.value, step.withNumbers]);
    const name = await this.session.port.addSheet("Trace", [
      [`cell (trace of ${address})`, "what", "kind", "value", "with numbers"],
      ...rows,
    ]);
    return `The trace is on the sheet “${name}”.`;
  }

  private async showGraph(): Promise<HTMLElement> {
    const { port, desk } = this.session;
    const { graphs } = await this.session.open();
    if (graphs.length === 0) return element("div", { class: "view" }, element("p", {}, english.graph.none));
    this.graph = Math.min(this.graph, graphs.length - 1);
    const chosen = this.graph;
    const graph = await desk.ask("drawGraph", [workbookId, chosen]);
    const draw = async (): Promise<DrawnGraph> => {
      await this.session.open();
      const graph = await desk.ask("drawGraph", [workbookId, chosen]);
      const { description, svg, flowUnit } = graph;
      const png = await renderPicture(svg);
      return { title: "Air leakage graph", description, png, series: listSeries(graph), flowUnit };
    };
    const offer = (words: string, action: () => Promise<string>): HTMLElement =>
      element("button", { type: "button", onclick: () => void this.act(action) }, words);
    return element(
      "div",
      {},
      createGraphChoice(this.context, graphs, this.graph, (index) => {
        this.graph = index;
        this.tabs.choose("graph");
      }),
      createGraphView(this.context, graph),
      port.abilities.canDraw &&
        element(
          "p",
          { class: "offers" },
          offer("Insert as a chart", async () => {
            await port.insertChart(await draw());
            return "The chart is on a new sheet, with its points and what it shows in words: the test as it is now. Later changes do not reach it.";
          }),
          " ",
          offer("Insert as a picture", async () => {
            await port.insertPicture(await draw());
            return "The picture is at the selected cell.";
          }),
        ),
    );
  }

  private showReview(): HTMLElement {
    const told = english.findings;
    const { review } = this;
    if (!review) return createReviewOffer(this.context, () => this.act(() => this.runReview()));
    const write = async (): Promise<string> => {
      const rows = review.groups
        .flatMap(({ first, places, related }) => [first, ...places.map((place) => ({ ...first, place })), ...related])
        .map(({ severity, kind, place, what, why, todo }) => [told.severities[severity], kind, place, what, why, todo]);
      const name = await this.session.port.addSheet("Findings", [
        ["severity", "finding", "cell", "what", told.why, told.todo],
        ...rows,
      ]);
      return `The findings are on the sheet “${name}”.`;
    };
    const view = createFindingsView(this.context, review);
    if (review.groups.length > 0)
      view.append(
        element(
          "p",
          {},
          element(
            "button",
            { type: "button", onclick: () => void this.act(write) },
            "Write the findings to a new sheet",
          ),
        ),
      );
    return view;
  }

  private async runReview(): Promise<string> {
    const told = english.findings;
    const stop = (): void => this.session.reviewer.stop(english.stopped);
    this.say(told.running(0, 1), stop);
    const { review, isOutdated } = await this.session.review((done, of) => this.say(told.running(done, of), stop));
    const outdated = "The workbook has changed since the review began; review it again to see it as it is now.";
    if (this.shown !== "check") {
      if (isOutdated) return outdated;
      this.review = review;
      return "The review is ready under Check.";
    }
    this.review = review;
    this.tabs.choose("check");
    if (!isOutdated) return "";
    // Shown once, since it took its time, and not again.
    this.review = undefined;
    return outdated;
  }

  private async showTrial(): Promise<HTMLElement> {
    const { desk } = this.session;
    const answer = await this.session.open();
    if (this.trial?.of === answer) return this.trial.view;
    const actions = {
      run: async (changes: readonly TypedChange[]) => {
        await this.session.open();
        return desk.ask("tryOut", [workbookId, changes]);
      },
      make: (changes: readonly TypedChange[]) => this.makeCopy(changes),
    };
    const view = createTrialView(this.context, await desk.ask("listInputs", [workbookId]), actions, this.changes);
    this.trial = { of: answer, view };
    return view;
  }

  /** A copy of the workbook as it is now, with these changes. */
  private async makeCopy(changes: readonly TypedChange[]): Promise<FileAnswer> {
    await this.session.open();
    return this.session.desk.ask("makeChangedCopy", [workbookId, changes]);
  }

  private async showFiles(): Promise<HTMLElement> {
    const { port, desk } = this.session;
    const { issued } = await this.session.open();
    const issue = async (): Promise<FileAnswer> => {
      await this.session.open();
      return desk.ask("makeIssueCopy", [workbookId]);
    };
    const offers: Offer[] = [
      { words: english.files.issue, make: issue },
      // The results of an issue copy are frozen.
      ...(issued ? [] : [{ words: english.files.recalculated, make: () => this.makeCopy([]) }]),
    ];
    const open = async (): Promise<string> => {
      const { name, bytes, notes } = await issue();
      await port.openNew(name, bytes as Uint8Array);
      return notes.join(" ");
    };
    return element(
      "div",
      {},
      port.abilities.newWorkbook === "opens" &&
        element(
          "p",
          {},
          element(
            "button",
            { type: "button", class: "main", onclick: () => void this.act(open) },
            "Open an issue copy as a new workbook",
          ),
        ),
      createFilesView(this.context, offers),
    );
  }
}

const endAll = (ends: readonly Unsubscribe[]) => Promise.allSettled(ends.map((end) => end()));

/** Words for a person; a fault of the pane's own is named as it is. */
const describeProblem = (problem: unknown): string =>
  problem instanceof PortProblem || problem instanceof Stopped
    ? problem.message
    : english.failed(problem instanceof Error ? problem.message : String(problem));
