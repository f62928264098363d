/** What is wrong with a file, for programs; the message is for people. */
export type ProblemKind =
  | "not a zip"
  | "legacy or encrypted"
  | "encrypted"
  | "binary workbook"
  | "zip bomb"
  | "damaged"
  | "hostile name"
  | "document type"
  | "broken XML"
  | "no workbook"
  | "too large"
  | "cannot write";

const longestValue = 80;

/** At most 80 characters of a value that a file holds: it may be as long as the file. */
export function shortened(value: string): string {
  return value.length > longestValue ? `${value.slice(0, longestValue - 1)}…` : value;
}

/** Tags a sentence about values of a file, so that it repeats each of them shortened. */
export function sentence(words: TemplateStringsArray, ...values: readonly (string | number)[]): string {
  return String.raw({ raw: words }, ...values.map((value) => shortened(String(value))));
}

/** A workbook that cannot be read or written; the message is one line that a person can act on. */
export class WorkbookProblem extends Error {
  constructor(
    readonly kind: ProblemKind,
    message: string,
  ) {
    super(message.replace(/\s*[\r\n]+\s*/g, " "));
    this.name = "WorkbookProblem";
  }
}
