import { shorten } from "../../functions/cells/text";

export { shorten };

/** The kind of problem with a file, for programs; the message is for people. */
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
  | "cannot write"
  | "not a form";

/** Template tag for a sentence that quotes values from a file: shortens each of them. */
export function sentence(words: TemplateStringsArray, ...values: readonly (string | number)[]): string {
  return String.raw({ raw: words }, ...values.map((value) => shorten(String(value))));
}

/** A workbook that cannot be read or written; the message is one actionable line. */
export class WorkbookProblem extends Error {
  constructor(
    readonly kind: ProblemKind,
    message: string,
  ) {
    super(message.replace(/\s*[\r\n]+\s*/g, " "));
    this.name = "WorkbookProblem";
  }
}
