/** What is known about one add-in function, all from its doc comment. */
export interface FunctionNote {
  readonly id: string;
  /** What it returns, in a few words. */
  readonly does: string;
  readonly equation: string;
  readonly source: string;
  /** The names of its table's columns, if its comment lists them. */
  readonly columns: readonly string[];
  readonly parameters: readonly string[];
}

/** An entry of functions.json, limited to what is read here. */
export interface DescribedFunction {
  readonly id: string;
  readonly description: string;
  readonly parameters: readonly { readonly name: string }[];
}

/** The text after a keyword at the start of a sentence, up to the next keyword or the end. */
function cutSentence(description: string, word: string): string {
  const found = new RegExp(`(?:^|[.:] |\\) )${word}: (.*?)(?=\\. (?:Equation|Source|Columns): |$)`, "s").exec(
    description,
  );
  return (found?.[1] ?? "").replace(/\.$/, "").trim();
}

/** Extracts "Equation: …", "Columns: …" and "Source: …" from a function's description. */
export function noteOf({ id, description, parameters }: DescribedFunction): FunctionNote {
  const does = /^.*?(?=[,:;(]|\. |\.$|$)/s.exec(description)?.[0].trim() ?? "";
  const columns = /(?:^|[.:] )Columns: ([^.;]*)[.;]/.exec(description)?.[1] ?? "";
  return {
    id,
    does: does.charAt(0).toLowerCase() === does.charAt(0) ? does : lowerFirst(does),
    equation: cutSentence(description, "Equation"),
    source: cutSentence(description, "Source"),
    columns: columns === "" ? [] : columns.split(",").map((name) => name.trim()),
    parameters: parameters.map(({ name }) => name.replaceAll("_", " ")),
  };
}

/** A symbol at the start (C, n50) keeps its capital. */
const lowerFirst = (text: string): string =>
  /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

/** The notes on all functions by id, from the metadata that Excel also uses. */
export function collectNotes(functions: readonly DescribedFunction[]): ReadonlyMap<string, FunctionNote> {
  return new Map(functions.map((entry) => [entry.id.toUpperCase(), noteOf(entry)]));
}
