import { Desk } from "./desk/desk";
import { Refusal } from "./desk/refusal";
import type { Question, Reply } from "./conversation";

const desk = new Desk() as unknown as Record<keyof Desk, (...given: readonly unknown[]) => unknown>;

/** Takes questions to the desk, so that the page stays responsive while a workbook is recalculated. */
addEventListener("message", ({ data: { id, name, given } }: MessageEvent<Question>) => {
  const reply = (message: Reply): void => postMessage(message);
  const watch = (done: number, of: number): void => reply({ id, done, of });
  try {
    reply({ id, answer: desk[name](...given, watch) });
  } catch (problem) {
    const message = problem instanceof Error ? problem.message : String(problem);
    reply({ id, problem: message, ...(problem instanceof Refusal ? { refusal: problem.data } : {}) });
  }
});
