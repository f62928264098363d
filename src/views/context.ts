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
