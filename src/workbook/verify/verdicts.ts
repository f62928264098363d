import { areaOf, type SheetArea, type Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import { type Argument, type Call, findFilledArea } from "../book/add-in-calls";

/** A verdict given by the add-in. */
export interface Verdict {
  readonly call: Call;
  /** The cells that show it, with the word. */
  readonly cells: readonly { readonly place: Place; readonly word: string }[];
  readonly result: Argument | undefined;
  readonly target: Argument | undefined;
  /** The tables or words that say whether the test is valid. */
  readonly validity: readonly Argument[];
  /** What it reads for the comparison: result, limit, uncertainty, rule, decimals, and which directions the result is of. */
  readonly judged: readonly SheetArea[];
}

/** Every call of PASSFAIL with its verdict. */
export function findVerdicts(view: Inspector, calls: readonly Call[]): Verdict[] {
  return calls
    .filter(({ id }) => id === "PASSFAIL")
    .map((call) => {
      const area = call.alone ? findFilledArea(view, call) : areaOf(call.place);
      const cells = view.listUsedPlaces(area).map((place) => ({ place, word: view.readText(place).toLowerCase() }));
      const [result, target] = call.arguments;
      const validity = call.arguments.slice(5, 7).flatMap((argument) => argument ?? []);
      const judged = call.arguments.toSpliced(5, 2).flatMap((argument) => argument?.areas ?? []);
      return { call, cells: cells.filter(({ word }) => word !== ""), result, target, validity, judged };
    });
}

/** The words with which a verdict says that a limit is met. */
export const saysPass = (word: string): boolean => /^pass(ed)?$/i.test(word.trim());

/** A few words claiming a pass, alone or as a sentence: "The house passes". */
export const claimsPass = (text: string): boolean =>
  /\bpass(ed|es)?\b/i.test(text) &&
  text.trim().split(/\s+/).length <= mostWords &&
  !/\b(not|no|fail\w*|or|if|when|where|to|must|should|may|can|does|did|open|earlier|previous|last)\b|\?|…/i.test(text);

const mostWords = 7;

/** Words that a verdict can be. */
export const verdictWord = /^(pass(ed)?|fail(ed)?|not valid|not proven)$/i;
