import { nameVerdict } from "../views/context";
import { element, listTable } from "../views/elements";
import type { Words } from "../views/words/english";
import { chooseLanguage, languages } from "../views/words/languages";
import { Conversation } from "../views/conversation";
import { createEntry, type Entry, listDropped, mostBytes, selectWorkbooks, sortByConcern } from "./library";
import { type Say, WorkbookPage } from "./workbook-page";

/** The page: choosing workbooks, the table of several, and one of them at a time. */
class Reader {
  private words: Words = chooseLanguage(navigator.languages);
  private entries: Entry[] = [];
  private compared: Entry[] = [];
  private shown: Entry | undefined;
  private readonly desk = new Conversation(startWorker);
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

  /** Ends what the desk is doing. It forgets its workbooks, which are read again when they are chosen. */
  private readonly stopDesk = (): void => {
    this.desk.stop(this.words.stopped);
    for (const entry of this.entries) if (entry.state === "open") entry.state = "read";
    this.compared = [];
  };

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
    await this.closeOthers();
    this.showAll();
    const [first] = entries;
    for (const [done, entry] of entries.entries()) {
      await this.open(entry, done, entries.length);
      if (entry.state === "waiting") break;
      // One of them may have been chosen meanwhile.
      if (entries.length > 1 && this.shown !== entry) await this.closeOthers(this.shown);
      if (!this.shown) this.showAll();
    }
    const isStopped = entries.some(({ state }) => state === "waiting");
    this.say(isStopped ? this.words.stopped : "");
    if (entries.length === 1 && first?.state === "open") this.showOne(first);
    else if (!this.shown) this.showAll();
  }

  /** Reads and recalculates a workbook; one that was stopped goes on waiting. */
  private async open(entry: Entry, done = 0, of = 1): Promise<void> {
    const { file } = entry;
    let isStopped = false;
    const stop = (): void => {
      isStopped = true;
      this.stopDesk();
    };
    this.say(this.words.reading(file.name, done, of), { done, of, stop });
    try {
      if (file.size > mostBytes) throw new Error(this.words.tooLarge(file.name, (file.size / 2 ** 20).toFixed(0)));
      const bytes = new Uint8Array(await file.arrayBuffer());
      entry.answer = await this.desk.ask("open", [entry.id, file.name, bytes]);
      entry.state = "open";
    } catch (problem) {
      if (isStopped) return;
      entry.state = "unreadable";
      entry.problem = problem instanceof Error ? problem.message : String(problem);
      this.complain(this.words.notRead(file.name, entry.problem));
    }
  }

  /** The desk holds one workbook at a time, and the one that it is compared with: each takes a hundred megabytes. */
  private async closeOthers(kept?: Entry): Promise<void> {
    for (const other of [...this.entries, ...this.compared])
      if (other.state === "open" && other !== kept) {
        await this.desk.ask("close", [other.id]);
        other.state = "read";
      }
    this.compared = [];
  }

  private async choose(entry: Entry): Promise<void> {
    this.problems.replaceChildren();
    await this.closeOthers(entry);
    if (entry.state !== "open") await this.open(entry);
    this.say(entry.state === "waiting" ? this.words.stopped : "");
    if (entry.state === "open") this.showOne(entry);
  }

  private showOne(entry: Entry): void {
    this.shown = entry;
    this.heading.textContent = entry.file.name;
    this.subtitle.textContent = this.words.motto;
    document.title = entry.file.name;
    this.fillTools();
    const page = new WorkbookPage(entry, {
      words: this.words,
      desk: this.desk,
      reviewer: this.reviewer,
      say: this.say,
      openLater: async (file) => {
        const later = createEntry(file);
        await this.closeOthers(entry);
        await this.open(later);
        this.compared = [later];
        this.problems.replaceChildren();
        return later;
      },
    });
    this.content.replaceChildren(page.root);
  }

  private showAll(): void {
    this.shown = undefined;
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
      this.shown && this.entries.length > 1
        ? [element("button", { type: "button", onclick: () => this.showAll() }, words.back)]
        : [];
    this.tools.replaceChildren(...back, ...(this.entries.length > 0 ? this.createChoosers() : []), language);
  }

  private changeLanguage(locale: string): void {
    this.words = languages.find((one) => one.locale === locale) ?? this.words;
    document.documentElement.lang = locale.slice(0, 2);
    if (this.shown) this.showOne(this.shown);
    else this.showAll();
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
    const rows = sortByConcern(this.entries).map((entry) => {
      const { answer, state, file, problem } = entry;
      const open = element(
        "button",
        { type: "button", class: "cell", onclick: () => void this.choose(entry) },
        file.name,
      );
      const verdicts = [...new Set(answer?.verdicts.map(({ word }) => nameVerdict({ words }, word)))].join(", ");
      const doubts = answer
        ? [
            ...(answer.differences.length > 0 ? [words.verdict.differ(answer.differences.length)] : []),
            ...(answer.notEvaluated.length > 0 ? [words.verdict.notEvaluated(answer.notEvaluated.length)] : []),
          ].join(" ")
        : "";
      if (state === "unreadable") return [file.name, "", problem];
      return [open, state === "waiting" ? words.waiting : verdicts, doubts];
    });
    return element(
      "div",
      { class: "view" },
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
  async function install(): Promise<void> {
    keep.disabled = true;
    document.head.append(element("link", { rel: "manifest", href: "reader.webmanifest" }));
    await navigator.serviceWorker.register("reader-offline.js");
    await navigator.serviceWorker.ready;
    keep.textContent = words.offlineReady;
  }
  return [keep];
}
