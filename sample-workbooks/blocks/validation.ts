import type { DataValidation } from "./hucre";

interface Words {
  readonly title: string;
  /** Shown when the cell is selected. */
  readonly hint: string;
  /** Shown when the entry is refused. */
  readonly refusal: string;
}

const shown = { allowBlank: true, showInputMessage: true, showErrorMessage: true, errorStyle: "stop" } as const;

function words({ title, hint, refusal }: Words) {
  return { inputTitle: title, inputMessage: hint, errorTitle: title, errorMessage: refusal };
}

/** A number between two limits, both allowed. */
export function between(range: string, lowest: number, highest: number, title: string, hint: string): DataValidation {
  const refusal = `A number from ${lowest} to ${highest} is expected here.`;
  return {
    ...shown,
    type: "decimal",
    operator: "between",
    formula1: String(lowest),
    formula2: String(highest),
    range,
    ...words({ title, hint, refusal }),
  };
}

/** A whole number between two limits. */
export function wholeBetween(
  range: string,
  lowest: number,
  highest: number,
  title: string,
  hint: string,
): DataValidation {
  const refusal = `A whole number from ${lowest} to ${highest} is expected here, or nothing.`;
  return { ...between(range, lowest, highest, title, hint), type: "whole", ...words({ title, hint, refusal }) };
}

/** One of a few words. */
export function oneOf(range: string, values: readonly string[], title: string, hint: string): DataValidation {
  const refusal = `Choose from the list: ${values.join(", ")}.`;
  return { ...shown, type: "list", values: [...values], range, ...words({ title, hint, refusal }) };
}

/** One of the entries of a range. */
export function fromList(range: string, source: string, title: string, hint: string): DataValidation {
  return {
    ...shown,
    type: "list",
    formula1: source,
    range,
    ...words({ title, hint, refusal: "Choose from the list." }),
  };
}

/** A day from 2000 on, as Excel's serial number. */
export function day(range: string, title: string, hint: string): DataValidation {
  const refusal = "A date is expected here.";
  return { ...between(range, 36526, 73050, title, hint), type: "date", ...words({ title, hint, refusal }) };
}

/** Any text up to a length. */
export function text(range: string, title: string, hint: string, longest = 120): DataValidation {
  return {
    ...shown,
    type: "textLength",
    operator: "lessThanOrEqual",
    formula1: String(longest),
    range,
    ...words({ title, hint, refusal: `At most ${longest} characters.` }),
  };
}
