import { nameVerdict } from "../views/context";
import { element, listTable } from "../views/elements";
import type { Words } from "../views/words/english";
import { chooseLanguage, languages } from "../views/words/languages";
import { Conversation } from "../views/conversation";
import {
  createEntry,
  type Entry,
  listDropped,
  mostBytes,
  nameEntries,
  selectWorkbooks,
  sortByConcern,
} from "./library";
import { type Say, WorkbookPage } from "./workbook-page";

/** The page: choosing workbooks, the table of several, and one of them at a time. */
class Reader {
  private words: Words = chooseLanguage(navigator.languages);
  private entries: Entry[] = [];
  /** Workbooks that one of these was compared with, and the one that it is compared with now. */
  private laters: Entry[] = [];
  private compared: Entry | undefined;
  /** The workbook that is shown, or that will be once it is read. */
  private chosen: Entry | undefined;
  private isShown = false;
  /** What was found and chosen stays with its workbook; another language needs new pages. */
  private pages = new Map<Entry, WorkbookPage>();
  private stops = 0;
  private readonly desk = new Conversation(startWorker, () => this.forgetOpen());
  private readonly reviewer = new Conversation(startWorker);
  private readonly heading = element("h1", {});
  private readonly subtitle = element("p", { class: "soft" });
  private readonly tools = element("div", { class: "tools" });
  private readonly status = element("p", { class: "status", role: "status" });
  private readonly problems = element("div", { class: "problems", role: "alert" });
  private readonly content = element("main", {});

  constructor(root: HTMLElement) {
    const top = element("header", { class: "top" }, element("div", {}, this.heading, this.subtitle), this.tools);
    root.append(top, element("div", { class: "frame" }, this.status, this.problems, this.content));
    this.receiveDrops();
    this.showAll();
    this.desk.prepare();
  }

  private receiveDrops(): void {
    addEventListener("dragover", (event) => {
      event.preventDefault();
      document.body.classList.add("over");
    });
    addEventListener("dragleave", ({ relatedTarget }) => {
      if (relatedTarget === null) document.body.classList.remove("over");
    });
    addEventListener("drop", (event) => {
      event.preventDefault();
      document.body.classList.remove("over");
      if (event.dataTransfer) void listDropped(event.dataTransfer).then((files) => this.take(files));
    });
  }

  private readonly say: Say = (words, job) => {
    this.status.replaceChildren(words);
    if (!job) return;
    const { done, of, stop } = job;
    if (of > 1) this.status.append(" ", element("progress", { value: done, max: of, "aria-label": words }));
    this.status.append(" ", element("button", { type: "button", onclick: stop }, this.words.cancel));
  };

  /** Ends what the desk is doing, whichever of the questions it was for. */
  private readonly stopDesk = (): void => {
    this.stops += 1;
    this.desk.stop(this.words.stopped);
    this.say(this.words.stopped);
  };

  /** The desk has forgotten its workbooks; each is read again when something is asked about it. */
  private forgetOpen(): void {
    for (const entry of [...this.entries, ...this.laters]) if (entry.state === "open") entry.state = "read";
  }

  private complain(words: string): void {
    this.problems.append(element("p", {}, words));
  }

  /** Reads chosen files one after the other; a single one is shown at once, several as a table. */
  private async take(files: readonly File[]): Promise<void> {
    const chosen = selectWorkbooks(files);
    this.problems.replaceChildren();
    if (chosen.length === 0) {
      this.complain(this.words.noFiles);
      return;
    }
    const entries = chosen.map(createEntry);
    this.entries.push(...entries);
    this.showAll();
    const [first] = entries;
    if (first && entries.length === 1) await this.choose(first);
    else await this.readAll(entries);
  }

  private async readAll(entries: readonly Entry[]): Promise<void> {
    const { stops } = this;
    await this.closeOthers();
    for (const [done, entry] of entries.entries()) {
      // One of them may have been chosen meanwhile, and read.
      if (entry.state === "waiting") await this.open(entry, done, entries.length);
      if (this.stops !== stops) return;
      await this.closeOthers();
      if (!this.chosen) this.showAll();
    }
    this.say("");
  }

  /** Reads and recalculates a workbook, and tells whether it is open then; one that was stopped stays as it was. */
  private async open(entry: Entry, done = 0, of = 1): Promise<boolean> {
    const { file } = entry;
    const { stops } = this;
    this.say(this.words.reading(file.name, done, of), { done, of, stop: this.stopDesk });
    try {
      if (file.size > mostBytes) throw new Error(this.words.tooLarge(file.name, (file.size / 2 ** 20).toFixed(0)));
      const bytes = new Uint8Array(await file.arrayBuffer());
      // Stopped before the desk had the question.
      if (this.stops !== stops) return false;
      entry.answer = await this.desk.ask("open", [entry.id, file.name, bytes]);
      entry.state = "open";
      return true;
    } catch (problem) {
      if (this.stops !== stops) return false;
      entry.state = "unreadable";
      entry.problem = problem instanceof Error ? problem.message : String(problem);
      this.complain(this.words.notRead(file.name, entry.problem));
      return false;
    }
  }

  /** Before a question about a workbook: the desk may have forgotten it, or closed it for another. */
  private async prepare(entry: Entry): Promise<void> {
    if (entry.state === "open") return;
    if (!(await this.open(entry))) throw new Error(entry.problem || this.words.stopped);
    this.say("");
  }

  /**
   * The desk holds the chosen workbook and the one that it is compared with: each takes a hundred megabytes. Which these are is looked up before each is closed,
   * since a person may choose another meanwhile.
   */
  private async closeOthers(): Promise<void> {
    for (const other of [...this.entries, ...this.laters])
      if (other.state === "open" && other !== this.chosen && other !== this.compared) {
        other.state = "read";
        // A stop, which answers this too, has closed it as well.
        await this.desk.ask("close", [other.id]).catch(() => undefined);
      }
  }

  private async choose(entry: Entry): Promise<void> {
    const { stops } = this;
    this.problems.replaceChildren();
    this.chosen = entry;
    this.compared = undefined;
    await this.closeOthers();
    const isOpen = entry.state === "open" || (await this.open(entry));
    // Another one was chosen while this one was read.
    if (this.chosen !== entry) return;
    if (this.stops === stops) this.say("");
    if (isOpen) this.showOne(entry);
    else this.showAll();
  }

  private showOne(entry: Entry): void {
    this.chosen = entry;
    this.isShown = true;
    this.heading.textContent = entry.file.name;
    this.subtitle.textContent = this.words.motto;
    document.title = entry.file.name;
    this.fillTools();
    const page = this.pages.get(entry) ?? this.createPage(entry);
    this.pages.set(entry, page);
    this.content.replaceChildren(page.root);
    page.open();
  }

  private createPage(entry: Entry): WorkbookPage {
    return new WorkbookPage(entry, {
      words: this.words,
      desk: this.desk,
      reviewer: this.reviewer,
      say: this.say,
      prepare: (one) => this.prepare(one),
      openLater: async (file) => {
        const later = createEntry(file);
        this.laters.push(later);
        this.compared = later;
        await this.closeOthers();
        await this.open(later);
        this.problems.replaceChildren();
        return later;
      },
    });
  }

  private showAll(): void {
    this.chosen = undefined;
    this.compared = undefined;
    this.isShown = false;
    const { words } = this;
    document.documentElement.lang = words.locale.slice(0, 2);
    document.title = words.title;
    document.adoptedStyleSheets = [];
    this.heading.textContent = words.title;
    this.subtitle.textContent = words.motto;
    this.fillTools();
    this.content.replaceChildren(this.entries.length === 0 ? this.createWelcome() : this.listEntries());
  }

  private fillTools(): void {
    const { words } = this;
    const language = element(
      "select",
      {
        "aria-label": words.language,
        onchange: ({ target }) => this.changeLanguage((target as HTMLSelectElement).value),
      },
      ...languages.map(({ name, locale }) =>
        element("option", { value: locale, selected: locale === words.locale }, name),
      ),
    );
    const back =
      this.isShown && this.entries.length > 1
        ? [element("button", { type: "button", onclick: () => this.showAll() }, words.back)]
        : [];
    this.tools.replaceChildren(...back, ...(this.entries.length > 0 ? this.createChoosers() : []), language);
  }

  private changeLanguage(locale: string): void {
    this.words = languages.find((one) => one.locale === locale) ?? this.words;
    this.pages.clear();
    document.documentElement.lang = locale.slice(0, 2);
    if (this.chosen && this.isShown) this.showOne(this.chosen);
    else if (!this.chosen) this.showAll();
  }

  private createWelcome(): HTMLElement {
    const { words } = this;
    return element(
      "div",
      { class: "welcome" },
      ...this.createChoosers(),
      element("p", { class: "soft" }, words.drop),
      ...offerOffline(words),
    );
  }

  /** Buttons for files and for a folder; the inputs behind them are reached through the buttons alone. */
  private createChoosers(): HTMLElement[] {
    const create = (title: string, attributes: Readonly<Record<string, boolean | string>>): HTMLElement[] => {
      const input = element("input", {
        type: "file",
        class: "spoken",
        tabindex: -1,
        "aria-label": title,
        ...attributes,
        onchange: ({ target }) => void this.take([...((target as HTMLInputElement).files ?? [])]),
      });
      return [element("button", { type: "button", onclick: () => input.click() }, title), input];
    };
    return [
      ...create(this.words.choose, { multiple: true, accept: ".xlsx,.xlsm" }),
      ...create(this.words.chooseFolder, { webkitdirectory: true }),
    ];
  }

  private listEntries(): HTMLElement {
    const { words } = this;
    const names = nameEntries(this.entries);
    const rows = sortByConcern(this.entries).map((entry) => {
      const { answer, state, problem } = entry;
      const name = names.get(entry) ?? "";
      const open = element("button", { type: "button", class: "cell", onclick: () => void this.choose(entry) }, name);
      const verdicts = [...new Set(answer?.verdicts.map(({ word }) => nameVerdict({ words }, word)))].join(", ");
      const doubts = answer
        ? [
            ...(answer.differences.length > 0 ? [words.verdict.differ(answer.differences.length)] : []),
            ...(answer.notEvaluated.length > 0 ? [words.verdict.notEvaluated(answer.notEvaluated.length)] : []),
          ].join(" ")
        : "";
      if (state === "unreadable") return [name, "", problem];
      return [open, state === "waiting" ? words.waiting : verdicts, doubts];
    });
    return element(
      "div",
      { class: "view workbooks" },
      element("p", { class: "soft" }, words.worstFirst),
      listTable(words.workbooks, [words.workbook, words.tabs.verdict, words.tabs.findings], rows),
    );
  }
}

/** A worker from the code in the page: a file opened from a disk cannot load another. */
function startWorker(): Worker {
  const code = document.getElementById("worker-code")?.textContent ?? "";
  return new Worker(URL.createObjectURL(new Blob([code], { type: "text/javascript" })));
}

const root = document.getElementById("page");
if (root) new Reader(root);

/** Where the page was served, a button that keeps it for use without a network; a page opened from a disk needs none. */
function offerOffline(words: Words): HTMLElement[] {
  if (!location.protocol.startsWith("http") || !("serviceWorker" in navigator)) return [];
  const keep = element("button", { type: "button", onclick: () => void install() }, words.offline);
  const outcome = element("p", { class: "caution", role: "status" });
  async function install(): Promise<void> {
    keep.disabled = true;
    outcome.textContent = "";
    try {
      await waitUntilActive(await navigator.serviceWorker.register("reader-offline.js"));
      document.head.append(element("link", { rel: "manifest", href: "reader.webmanifest" }));
      keep.textContent = words.offlineReady;
    } catch {
      outcome.textContent = words.offlineFailed;
      keep.disabled = false;
    }
  }
  return [keep, outcome];
}

/** A worker that cannot store what it keeps becomes redundant without ever being ready. */
function waitUntilActive({ installing }: ServiceWorkerRegistration): Promise<void> {
  return new Promise((resolve, reject) => {
    if (!installing) return resolve();
    installing.addEventListener("statechange", () => {
      if (installing.state === "activated") resolve();
      if (installing.state === "redundant") reject(new Error("not installed"));
    });
  });
}
