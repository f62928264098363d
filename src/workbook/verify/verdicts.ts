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

/** Words for a limit that is met: English, German, French, Spanish, Italian, Dutch, Polish. */
const passWords =
  "pass(?:ed|es)?|bestanden|erfüllt|eingehalten|conforme|réussie?|satisfait|respectée?|cumple|apto|aprobad[oa]|superad[oa]" +
  "|superat[oa]|idone[oa]|geslaagd|voldoet|goedgekeurd|spełnia|spełnion[aey]|pozytywn[yai]|zgodn[yae]";

/** The same for one that is not met, and for a test that is not valid. */
const failWords =
  "fail(?:ed|s)?|not valid|not proven|nicht (?:bestanden|erfüllt|eingehalten)|durchgefallen|ungültig|non conforme|non valable|échoué" +
  "|no (?:cumple|conforme|apto|superado)|no válido|non (?:superato|idoneo|valido)|niet geslaagd|voldoet niet|afgekeurd|ongeldig" +
  "|nie spełnia|niezgodn[yae]|negatywn[yai]|nieważn[yae]";

/** Words that turn a claim around or make it a condition. */
const turns =
  "not|no|fail\\p{L}*|or|if|when|where|to|must|should|may|can|does|did|open|earlier|previous|last" +
  "|nicht|kein\\p{L}*|wenn|oder|muss|soll|pas|ne|non|si|ou|doit|échou\\p{L}*|niet|geen|indien|of|moet|nie|jeśli|lub|deve|debe";

const isPass = new RegExp(`^(?:${passWords})$`, "iu");
const containsPass = new RegExp(`(?<!\\p{L})(?:${passWords})(?!\\p{L})`, "iu");
const containsTurn = new RegExp(`(?<!\\p{L})(?:${turns})(?!\\p{L})|\\?|…`, "iu");

/** Whether a word says that a limit is met. */
export const saysPass = (word: string): boolean => isPass.test(word.trim());

/** A few words claiming a pass, alone or as a sentence: "The house passes". */
export const claimsPass = (text: string): boolean =>
  containsPass.test(text) && text.trim().split(/\s+/).length <= mostWords && !containsTurn.test(text);

/** Whether a text of any length claims a pass, in the words of a verdict or of a report: "The house meets the limit". */
export const containsClaim = (text: string): boolean =>
  (containsPass.test(text) || containsMeeting.test(text)) && !containsTurn.test(text);

const containsMeeting =
  /(?<!\p{L})(meets|complies|satisfies|fulfils|fulfills|erfüllt|respecte|satisfait|cumple|soddisfa|rispetta|voldoet|spełnia)(?!\p{L})/iu;

const mostWords = 7;

/** Words that a verdict can be. */
export const verdictWord = new RegExp(`^(?:${passWords}|${failWords})$`, "iu");

/** How the cell of a verdict is labelled. */
export const verdictLabel =
  /verdict|ergebnis|urteil|bewertung|résultat|conclusion|veredicto|resultado|esito|giudizio|oordeel|resultaat|wynik|ocena/i;

/** A text as a part of a pattern that matches it. */
export const escapePattern = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
