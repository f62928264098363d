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

/** Words for a limit that is met: English, German, French, Spanish, Portuguese, Italian, Dutch, Polish, Czech, Swedish, Finnish, Chinese and Japanese. */
const passWords =
  "pass(?:ed|es)?|complies|compliant|satisfied|fulfilled|bestanden|erfüllt|eingehalten|conformes?|réussie?|satisfaite?|respectée?s?" +
  "|cumple|cumplid[oa]|apt[oa]|aprobad[oa]|superad[oa]|aprovad[oa]|cumpre|superat[oa]|idone[oa]|rispettat[oa]|soddisfatt[oa]" +
  "|geslaagd|voldoet|voldaan|goedgekeurd|spełnia|spełnion[aey]|pozytywn[yai]|zgodn[yae]|vyhovuje|vyhověl[aoi]?|splněn[aoy]?|splňuje" +
  "|godkän(?:d|t|da)|uppfyll(?:er|d|t|da)|hyväksytty|läpäisty|läpäisee|täyttää|合格";

/** The same for one that is not met, and for a test that is not valid. */
const failWords =
  "fail(?:ed|s)?|not (?:valid|proven|passed|satisfied|fulfilled|compliant)|non-?compliant|does not comply" +
  "|nicht (?:bestanden|erfüllt|eingehalten)|durchgefallen|ungültig|non conformes?|non valable|échoué" +
  "|no (?:cumple|conforme|apt[oa]|superad[oa])|no válido|reprovad[oa]|não (?:cumpre|conforme|aprovad[oa])" +
  "|non (?:superato|idoneo|valido|rispettato|soddisfatto)|niet (?:geslaagd|voldaan)|voldoet niet|afgekeurd|ongeldig" +
  "|nie spełnia|niezgodn[yae]|negatywn[yai]|nieważn[yae]|nevyhovuje|nevyhověl[aoi]?|nesplněn[aoy]?|nesplňuje" +
  "|(?:ej|inte) (?:godkän[dt]|uppfyll[dt])|underkän(?:d|t|da)|uppfyller (?:ej|inte)|hylätty|ei (?:hyväksytty|läpäise|täytä)|不合格";

/** Words that turn a claim around or make it a condition. */
const turns =
  "not|no|fail\\p{L}*|or|if|when|where|to|must|should|may|can|does|did|open|earlier|previous|last" +
  "|nicht|kein\\p{L}*|wenn|oder|muss|soll|pas|ne|non|si|ou|doit|échou\\p{L}*|niet|geen|indien|of|moet|nie|jeśli|lub|deve|debe" +
  "|não|se|nebo|pokud|musí|inte|ej|om|eller|ska|måste|ei|jos|tai|pitää";

/** What a limit is called where its keeping is stated beside it: "Requirement satisfied". */
const requirement =
  "(?:the |die |der |l')?(?:requirements?|limit|criterion|anforderung(?:en)?|grenzwert|exigence|seuil|requisito|límite|limite|eis|kravet|krav|požadavek|vaatimus)" +
  "(?: is| are| ist| sind| est| es| è| är| je| on)? ";

const isPass = new RegExp(`^(?:${requirement})?(?:${passWords})[.!]?$`, "iu");
const containsPass = new RegExp(`(?<!\\p{L})(?:${passWords})(?!\\p{L})`, "iu");
const containsTurn = new RegExp(`(?<!\\p{L})(?:${turns})(?!\\p{L})|\\?|…`, "iu");

/** How the cell of a verdict is labelled. */
export const verdictLabel =
  /verdict|ergebnis|urteil|bewertung|r[ée]sultat|conclusion|veredicto|resultado|esito|giudizio|oordeel|resultaat|wynik|ocena|výsledek|hodnocení|bedömning|utlåtande|tulos|lausunto/i;

/** Whether a word says that a limit is met, also behind the label of a verdict: "Ergebnis: bestanden". */
export function saysPass(word: string): boolean {
  const [, label = "", said = ""] = /^([^:]*):\s*(.*)$/.exec(word.trim()) ?? [];
  return isPass.test(verdictLabel.test(label) ? said : word.trim());
}

/** Whether a text begins with the words for a limit that is not met, or for a test that is not valid. */
export const saysFail = (word: string): boolean => isFail.test(word.trim());

const isFail = new RegExp(`^(?:${failWords})(?!\\p{L})`, "iu");

/** A few words claiming a pass, alone or as a sentence: "The house passes". */
export const claimsPass = (text: string): boolean =>
  containsPass.test(text) && text.trim().split(/\s+/).length <= mostWords && !containsTurn.test(text);

/** A mark that stands for a pass where the label of a verdict is before it. */
export const isPassMark = (text: string): boolean => /^[✓✔☑]$/u.test(text.trim());

/** What a sentence calls the tested house. */
export const ofHouse =
  /(?<!\p{L})(house|home|dwelling|flat|building|gebäude|haus|wohnung|bâtiment|maison|logement|edificio|casa|vivienda|edifício|moradia|gebouw|woning|budynek|dom|dům|budova|huset|byggnaden|bostaden|talo|rakennus)(?!\p{L})/iu;

/** Whether a text of any length claims a pass, in the words of a verdict or of a report: "The house meets the limit". */
export const containsClaim = (text: string): boolean => mentionsPass(text) && !containsTurn.test(text);

/** Whether a text speaks of a limit that is met, be it as a question: "Requirement satisfied?" */
export const mentionsPass = (text: string): boolean => containsPass.test(text) || containsMeeting.test(text);

const containsMeeting =
  /(?<!\p{L})(meets|complies|satisfies|fulfils|fulfills|erfüllt|respecte|satisfait|cumple|soddisfa|rispetta|voldoet|spełnia)(?!\p{L})/iu;

const mostWords = 7;

/** Words that a verdict can be. */
export const verdictWord = new RegExp(`^(?:${passWords}|${failWords})$`, "iu");

/** A text as a part of a pattern that matches it. */
export const escapePattern = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
