import { type IssueRefusal, type TypedRefusal, WorkbookProblem } from "../../workbook/index";

/** Why the desk refuses what is asked of it, in English. */
const refusals = {
  notOpen: () => "the workbook is not open",
  noCell: (address: string) => `there is no cell ${address}`,
  noGraph: () => "there is no such test",
  noFile: () => "this Excel does not hand over the whole file: save the workbook and open it in the review page",
  frozen: () =>
    "this is an issue copy: a changed copy would keep its frozen results and its mark of issue; change the workbook that it was issued from",
  writeDay: () => "write a day as 24 November 2026 or 2026-11-24, a time as 14:05",
  ambiguousComma: (whole: string, decimal: string) => `this may be ${whole} or ${decimal}; write one of these`,
};

/** What a page needs to say a refusal in its reader's language. */
export interface RefusalData {
  readonly key: RefusalKey | ToldKey;
  /** What the sentence names. */
  readonly given: readonly string[];
  /** The cell, and what was typed into it; "" for a refusal of something else. */
  readonly about: string;
}

export type RefusalKey = keyof typeof refusals;

/** Refusals that come with a sentence of the workbook's own. */
type ToldKey = TypedRefusal | IssueRefusal["reason"];

const aboutCell = (about: string, why: string): string => (about === "" ? why : `${about}: ${why}`);

/** What a desk cannot do, in English and as data. */
export class Refusal extends WorkbookProblem {
  private constructor(
    why: string,
    readonly data: RefusalData,
  ) {
    super("cannot write", aboutCell(data.about, why));
  }

  static of(key: RefusalKey, given: readonly string[] = [], about = ""): Refusal {
    const say: (...given: readonly string[]) => string = refusals[key];
    return new Refusal(say(...given), { key, given, about });
  }

  static told(why: string, key: ToldKey, given: readonly string[], about = ""): Refusal {
    return new Refusal(why, { key, given, about });
  }
}
