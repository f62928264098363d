import type { Desk } from "./desk/desk";
import type { RefusalData } from "./desk/refusal";

type Methods = { [Name in keyof Desk]: Desk[Name] };

type WithoutWatch<Given extends unknown[]> = Given extends [...infer Rest, (done: number, of: number) => void]
  ? Rest
  : Given;

export interface Question {
  readonly id: number;
  readonly name: keyof Desk;
  readonly given: readonly unknown[];
}

export type Reply =
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly problem: string; readonly refusal?: RefusalData }
  | { readonly id: number; readonly done: number; readonly of: number };

interface Pending {
  readonly resolve: (answer: never) => void;
  readonly reject: (problem: Error) => void;
  readonly watch: ((done: number, of: number) => void) | undefined;
}

/** What the desk refused, for the page to say in its own words. */
export class Refused extends Error {
  constructor(
    message: string,
    readonly refusal: RefusalData,
  ) {
    super(message);
  }
}

/** Says that a person has stopped the work. */
export class Stopped extends Error {}

export type Ask = Conversation["ask"];

/** A conversation with a desk in a worker: questions one after the other, stopped by ending the worker. */
export class Conversation {
  private worker: Worker | undefined;
  private readonly pending = new Map<number, Pending>();
  private asked = 0;

  /** `forget` hears that the worker has ended, by request or by a fault, and its workbooks with it. */
  constructor(
    private readonly start: () => Worker,
    private readonly forget: () => void = () => undefined,
  ) {}

  ask<Name extends keyof Desk>(
    name: Name,
    given: WithoutWatch<Parameters<Methods[Name]>>,
    watch?: (done: number, of: number) => void,
  ): Promise<ReturnType<Methods[Name]>> {
    const id = (this.asked += 1);
    return new Promise((resolve, reject) => {
      this.pending.set(id, { resolve, reject, watch });
      this.listen().postMessage({ id, name, given } satisfies Question);
    });
  }

  /** Ends the work; whatever was asked is answered by the given words, and workbooks must be opened anew. */
  stop(words: string): void {
    this.end(new Stopped(words));
  }

  private end(problem: Error): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.forget();
    for (const { reject } of this.pending.values()) reject(problem);
    this.pending.clear();
  }

  /** Starts the worker, so that it has read its code by the time of the first question. */
  prepare(): void {
    this.listen();
  }

  private listen(): Worker {
    if (this.worker) return this.worker;
    const worker = this.start();
    worker.addEventListener("message", ({ data }: MessageEvent<Reply>) => this.receive(data));
    worker.addEventListener("error", ({ message }) => this.end(new Error(message)));
    return (this.worker = worker);
  }

  private receive(reply: Reply): void {
    const pending = this.pending.get(reply.id);
    if (!pending) return;
    if ("done" in reply) {
      pending.watch?.(reply.done, reply.of);
      return;
    }
    this.pending.delete(reply.id);
    if ("problem" in reply)
      pending.reject(reply.refusal ? new Refused(reply.problem, reply.refusal) : new Error(reply.problem));
    else pending.resolve(reply.answer as never);
  }
}
