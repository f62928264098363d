import { Refused, Stopped } from "./conversation";
import { element } from "./elements";
import type { Words } from "./words/english";

/** What every view needs besides its data. */
export interface ViewContext {
  readonly words: Words;
  /** Shows where a cell comes from. */
  readonly showTrace: (address: string) => void;
  /** Shows a cell in its sheet. */
  readonly showInSheet: (address: string) => void;
}

/** A number to five digits as the reader's language writes it. */
export function formatNumber({ words }: Pick<ViewContext, "words">, value: number): string {
  return new Intl.NumberFormat(words.locale, { maximumSignificantDigits: 5, useGrouping: false }).format(value);
}

/** Why something did not work, in the reader's language as far as the desk refused it. */
export function readProblem({ words }: Pick<ViewContext, "words">, problem: unknown): string {
  if (problem instanceof Refused && words.refusals) {
    const { key, given, about } = problem.refusal;
    const why = words.refusals[key](...given);
    return about === "" ? why : `${about} : ${why}`;
  }
  return problem instanceof Error ? problem.message : String(problem);
}

/** Where an outcome would be: what was asked did not work, and why; or that it was stopped. */
export function describeFailure({ words }: Pick<ViewContext, "words">, problem: unknown): HTMLElement {
  const reason = readProblem({ words }, problem);
  return element("p", { class: "caution" }, problem instanceof Stopped ? reason : words.failed(reason));
}

/** A verdict's word in the reader's language; "" is a test that is still to be made. */
export const nameVerdict = ({ words: { verdict: told } }: Pick<ViewContext, "words">, word: string): string =>
  word === "" ? told.open : (told.words[word] ?? word);

/** An address to click. A finding may name something else than a cell, such as a defined name; that stays text. */
export function cellButton({ showTrace }: ViewContext, address: string): HTMLElement | string {
  if (!/![A-Z]+\d+(:[A-Z]+\d+)?$/i.test(address)) return address;
  return element("button", { type: "button", class: "cell", onclick: () => showTrace(address) }, address);
}
