// Firefox by WebDriver BiDi, the W3C's protocol, as far as the walk through the review page needs it. Playwright's own client for it
// asks for commands that the Firefox of Debian does not know.
import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openSocket, type Socket } from "./socket";

interface Message {
  readonly id?: number;
  readonly type: "success" | "error" | "event";
  readonly method?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: unknown;
  readonly message?: string;
}

type Parameters = Readonly<Record<string, unknown>>;

/** A Firefox with one page, and every request and complaint that it reported. */
export class Firefox {
  readonly requests: string[] = [];
  readonly complaints: string[] = [];
  private readonly waiting = new Map<number, (message: Message) => void>();
  private context = "";
  private sent = 0;

  private constructor(
    private readonly program: ChildProcess,
    private readonly socket: Socket,
    private readonly profile: string,
  ) {
    socket.listen((text) => this.receive(JSON.parse(text) as Message));
  }

  static async start(): Promise<Firefox> {
    const path = process.env["FIREFOX"] ?? "/usr/bin/firefox-esr";
    if (!existsSync(path))
      throw new Error(`No Firefox at ${path}: install it, or name another in the variable FIREFOX`);
    const profile = mkdtempSync(join(tmpdir(), "firefox-"));
    const program = spawn(path, ["--headless", "--remote-debugging-port=0", "--profile", profile], {
      stdio: ["ignore", "ignore", "pipe"],
    });
    const address = await new Promise<string>((resolve, reject) => {
      let heard = "";
      program.stderr.on("data", (data: Buffer) => {
        heard += data.toString();
        const [, found] = /WebDriver BiDi listening on ws:\/\/(\S+)/.exec(heard) ?? [];
        if (found !== undefined) resolve(found);
      });
      program.on("exit", () => reject(new Error(`Firefox ended: ${heard}`)));
    });
    const firefox = new Firefox(program, await openSocket(`http://${address}/session`), profile);
    await firefox.send("session.new", { capabilities: {} });
    await firefox.send("session.subscribe", { events: ["network.beforeRequestSent", "log.entryAdded"] });
    const { contexts } = (await firefox.send("browsingContext.getTree", {})) as { contexts: { context: string }[] };
    firefox.context = contexts[0]?.context ?? "";
    return firefox;
  }

  async open(url: string): Promise<void> {
    await this.send("browsingContext.navigate", { context: this.context, url, wait: "complete" });
  }

  /** What a function gives that runs inside the page. */
  async evaluate<Given, Answer>(run: (given: Given) => Answer | Promise<Answer>, given: Given): Promise<Answer> {
    const { result } = await this.call(
      `async () => JSON.stringify(await (${run.toString()})(${JSON.stringify(given)}))`,
    );
    return (result.value === undefined ? undefined : JSON.parse(result.value)) as Answer;
  }

  /** Chooses files in a file input, as a person does. */
  async setFiles(selector: string, files: readonly string[]): Promise<void> {
    const { result } = await this.call(`() => document.querySelector(${JSON.stringify(selector)})`);
    await this.send("input.setFiles", { context: this.context, element: { sharedId: result.sharedId }, files });
  }

  async close(): Promise<void> {
    const ended = new Promise((resolve) => this.program.on("exit", resolve));
    await this.send("browser.close", {}).catch(() => this.program.kill());
    await ended;
    this.socket.close();
    rmSync(this.profile, { recursive: true, force: true });
  }

  private async call(functionDeclaration: string): Promise<{ result: { value?: string; sharedId?: string } }> {
    const target = { context: this.context };
    const answer = await this.send("script.callFunction", { functionDeclaration, target, awaitPromise: true });
    const { type, exceptionDetails } = answer as { type: string; exceptionDetails?: { text: string } };
    if (type === "exception") throw new Error(exceptionDetails?.text);
    return answer as { result: { value?: string; sharedId?: string } };
  }

  private send(method: string, params: Parameters): Promise<unknown> {
    const id = (this.sent += 1);
    return new Promise((resolve, reject) => {
      this.waiting.set(id, ({ type, result, message }) =>
        type === "error" ? reject(new Error(`${method}: ${message}`)) : resolve(result),
      );
      this.socket.send(JSON.stringify({ id, method, params }));
    });
  }

  private receive(message: Message): void {
    if (message.id !== undefined) {
      this.waiting.get(message.id)?.(message);
      this.waiting.delete(message.id);
      return;
    }
    const { request, level, text } = (message.params ?? {}) as {
      request?: { url: string };
      level?: string;
      text?: string;
    };
    if (message.method === "network.beforeRequestSent" && request) this.requests.push(request.url);
    if (message.method === "log.entryAdded" && level === "error") this.complaints.push(text ?? "");
  }
}
