import { sentence } from "../file/problem";
import type { BaseKind, FunctionEntry } from "../formula/calls/function-entry";
import { ordinaryFunctions } from "../formula/functions/index";
import type { Node } from "../formula/parse/syntax";
import { toLogical, toNumber } from "../formula/values/coerce";
import { Matrix, type Scalar } from "../formula/values/value";
import { ErrorValue } from "../model";
import { lookUpWords } from "./explain-look-ups";
import { evaluateScalars, type Spot, type Walker, word, type Words } from "./explanation";

/** A call of a built-in Excel function, or of a name defined as a LAMBDA. */
export function callWords(walker: Walker, node: Node & { type: "call" }, spot: Spot): Words {
  const special = explainBranch(walker, node.name, node.arguments, spot) ?? followLookUp(walker, node, spot);
  if (special) return special;
  const entry = Object.hasOwn(ordinaryFunctions, node.name) ? ordinaryFunctions[node.name] : undefined;
  if (!entry && walker.tools.names.find(node.name.toLowerCase(), "", spot.frame.sheet) !== undefined) {
    const named = walker.name({ type: "name", name: node.name, sheet: "" }, { ...spot, unsure: true });
    const given = node.arguments.map((part) => walker.walk(part, { ...spot, single: false }).text);
    return word(`${named.text} with ${given.join(", ")}`);
  }
  const given = node.arguments.map((part, place) => {
    const kind = entry && findKind(entry, place);
    const single = kind === "number" || kind === "text" || kind === "logical" || kind === "scalar" || kind === "any";
    const whole = kind === "array" || kind === "table";
    const way = whole ? "array" : spot.way === "cell" ? "nested" : spot.way;
    return part ? walker.walk(part, { ...spot, way, single }) : word("nothing");
  });
  return describeNativeCall(node.name, given);
}

/** What a look-up noted before giving up would be reported twice, so its reads are kept only if it succeeds. */
function followLookUp(walker: Walker, node: Node & { type: "call" }, spot: Spot): Words | undefined {
  const before = walker.findings.reads.length;
  const words = lookUpWords(walker, node, spot);
  if (!words) walker.findings.reads.length = before;
  return words;
}

/** A call of an add-in function: what it does, and each argument by parameter name. */
export function addInWords(walker: Walker, node: Node & { type: "addIn" }, spot: Spot): Words {
  const id = node.id.toUpperCase();
  walker.findings.calls.add(id);
  const note = walker.tools.functions.get(id);
  if (!note) walker.findings.notes.add(sentence`the add-in has no function ${id}`);
  const way = spot.way === "cell" ? "nested" : spot.way;
  const given = node.arguments.flatMap((part, place) => {
    if (!part) return [];
    const role = note?.parameters[Math.min(place, note.parameters.length - 1)] ?? "";
    const words = walker.walk(part, { ...spot, way, role, single: false });
    return [role === "" ? words.text : `${role}: ${words.text}`];
  });
  return word(`${note?.does ?? id}${given.length > 0 ? ` (${given.join("; ")})` : ""}`);
}

/** How a function treats the argument at a position; the last kinds in its list may repeat, as the pairs of COUNTIFS do. */
function findKind({ kinds, repeats }: FunctionEntry, place: number): BaseKind | undefined {
  if (place < kinds.length) return kinds[place];
  return repeats === 0 ? undefined : kinds[kinds.length - repeats + ((place - kinds.length) % repeats)];
}

type Given = readonly (Node | null)[];

/** IF and similar functions: follows only the branch that applied, with the reasons why. Undefined for any other function. */
function explainBranch(walker: Walker, name: string, given: Given, spot: Spot): Words | undefined {
  switch (name) {
    case "IF":
      return explainIf(walker, given, spot);
    case "IFERROR":
    case "IFNA":
      return explainUnless(walker, name, given, spot);
    case "IFS":
      return explainFirstHolding(walker, splitIntoPairs(given), undefined, spot);
    case "SWITCH": {
      const [subject, ...rest] = given;
      const last = rest.length % 2 === 1 ? rest.at(-1) : undefined;
      const pairs = splitIntoPairs(last === undefined ? rest : rest.slice(0, -1)).map(([value, result]): Pair => {
        const left = subject ?? blank;
        return [{ type: "operation", operator: "=", left, right: value ?? blank }, result];
      });
      return explainFirstHolding(walker, pairs, last, spot);
    }
    case "CHOOSE":
      return chooseWords(walker, given, spot);
    default:
      return undefined;
  }
}

type Pair = readonly [condition: Node | null, result: Node | null];
const blank: Node = { type: "constant", value: "" };
const splitIntoPairs = (nodes: Given): Pair[] =>
  Array.from({ length: Math.floor(nodes.length / 2) }, (_, place) => [
    nodes[place * 2] ?? null,
    nodes[place * 2 + 1] ?? null,
  ]);

function explainIf(walker: Walker, given: Given, spot: Spot): Words {
  const [condition = null, yes = null, no = null] = given;
  // IF(x="","",x) only keeps a blank cell blank; there is no choice to explain.
  if (isBlankGuard(condition, yes, no)) return walker.walk(no, spot);
  const truths = collectTruths(condition ? evaluateScalars(walker, condition, { ...spot, single: true }) : undefined);
  const walkCondition = (): Words => walker.walk(condition, { ...spot, role: "condition", single: true });
  if (truths === undefined) {
    walker.findings.notes.add("could not determine which IF branch applied; both are shown");
    return explainBoth(walker, yes, no, walkCondition, spot);
  }
  if (truths.size > 1) return explainBoth(walker, yes, no, walkCondition, spot);
  const [truth] = truths;
  if (truth === "error") {
    walker.findings.notes.add("the IF condition is an error, so neither branch applied");
    return word(`an error, from ${walkCondition().text}`);
  }
  const branch = truth ? yes : no;
  const words = branch ? walker.walk(branch, spot) : word(truth ? "0" : "false");
  walker.findings.reasons.add(truth ? walkCondition().text : `not: ${walkCondition().text}`);
  return words;
}

function explainBoth(walker: Walker, yes: Node | null, no: Node | null, asked: () => Words, spot: Spot): Words {
  const [first, second] = [walker.walk(yes, spot), walker.walk(no, spot)];
  return { text: `${first.text} where ${asked().text}, otherwise ${second.text}`, rank: 0 };
}

function isBlankGuard(condition: Node | null, yes: Node | null, no: Node | null): boolean {
  if (condition?.type !== "operation" || condition.operator !== "=" || !no) return false;
  const isEmptyText = (node: Node | null): boolean => node?.type === "constant" && node.value === "";
  const subject = isEmptyText(condition.right) ? condition.left : isEmptyText(condition.left) ? condition.right : null;
  return subject !== null && isEmptyText(yes) && JSON.stringify(subject) === JSON.stringify(no);
}

/** The different outcomes of a condition; undefined if it could not be evaluated. */
function collectTruths(value: Scalar | Matrix | undefined): Set<boolean | "error"> | undefined {
  if (value === undefined) return undefined;
  const values = value instanceof Matrix ? value.values : [value];
  return new Set(
    values.map((one) => {
      const truth = toLogical(one);
      return truth instanceof ErrorValue ? "error" : truth;
    }),
  );
}

function explainUnless(walker: Walker, name: string, given: Given, spot: Spot): Words {
  const [first = null, second = null] = given;
  const value = first ? evaluateScalars(walker, first, spot) : null;
  const isCaught = (one: Scalar): boolean => one instanceof ErrorValue && (name === "IFERROR" || one.code === "#N/A");
  const caught =
    value === undefined ? undefined : value instanceof Matrix ? value.values.map(isCaught) : [isCaught(value)];
  if (caught?.every((one) => !one)) return walker.walk(first, spot);
  const what = name === "IFNA" ? "#N/A" : "an error";
  const failing = walker.walk(first, caught?.every(Boolean) ? { ...spot, role: `gave ${what}` } : spot);
  const instead = walker.walk(second, spot);
  if (caught?.every(Boolean)) {
    walker.findings.reasons.add(`${failing.text} gives ${what}`);
    return instead;
  }
  return { text: `${failing.text}, or where that is ${what}, ${instead.text}`, rank: 0 };
}

function explainFirstHolding(
  walker: Walker,
  pairs: readonly Pair[],
  otherwise: Node | null | undefined,
  spot: Spot,
): Words {
  const reasons: string[] = [];
  const { reasons: told } = walker.findings;
  for (const [condition, result] of pairs) {
    const truths = condition ? collectTruths(evaluateScalars(walker, condition, spot)) : undefined;
    const asked = walker.walk(condition, { ...spot, role: "condition", single: true });
    if (truths?.size === 1 && truths.has(false)) {
      reasons.push(asked.text);
      continue;
    }
    if (truths?.size === 1 && truths.has("error")) return word(`an error, from ${asked.text}`);
    const words = walker.walk(result, spot);
    if (truths?.size === 1 && truths.has(true)) {
      told.add(asked.text);
      return words;
    }
    walker.findings.notes.add("could not determine which case applied; the possible ones are shown");
    reasons.push(asked.text);
  }
  if (otherwise === undefined) return { text: `none of: ${reasons.join("; ")}`, rank: 0 };
  told.add(`none of: ${reasons.join("; ")}`);
  return walker.walk(otherwise, spot);
}

function chooseWords(walker: Walker, given: Given, spot: Spot): Words {
  const [index = null, ...rest] = given;
  const value = index ? evaluateScalars(walker, index, spot) : undefined;
  const number = value === undefined || value instanceof Matrix ? undefined : toNumber(value);
  const asked = walker.walk(index, { ...spot, role: "condition", single: true });
  const place = typeof number === "number" ? Math.trunc(number) : 0;
  const branch = rest[place - 1];
  if (branch) {
    walker.findings.reasons.add(`number ${String(place)} by ${asked.text}`);
    return walker.walk(branch, spot);
  }
  walker.findings.notes.add("could not determine which CHOOSE entry applied; all are shown");
  const all = rest.map((node) => walker.walk(node, spot).text);
  return { text: `one of ${all.join(", ")}, by ${asked.text}`, rank: 0 };
}

/**
 * Excel's built-in functions in words. {1}, {2} … are the arguments, {all} all of them listed, {pairs} "range matches criterion" from the second
 * on; a function not listed is described by its name and arguments.
 */
const templates: Readonly<Record<string, string>> = {
  SUM: "the sum of {all}",
  SUMSQ: "the sum of the squares of {all}",
  PRODUCT: "the product of {all}",
  SUMPRODUCT: "the sum of the products of {all}",
  SUMIFS: "the sum of {1} where {pairs}",
  AVERAGE: "the mean of {all}",
  AVERAGEIFS: "the mean of {1} where {pairs}",
  MEDIAN: "the median of {all}",
  MIN: "the smallest of {all}",
  MAX: "the largest of {all}",
  MINIFS: "the smallest of {1} where {pairs}",
  MAXIFS: "the largest of {1} where {pairs}",
  LARGE: "number {2} from the top of {1}",
  SMALL: "number {2} from the bottom of {1}",
  COUNT: "the count of numbers in {all}",
  COUNTA: "the number of filled cells in {all}",
  COUNTBLANK: "the number of blank cells in {1}",
  COUNTIF: "how many of {1} are {2}",
  COUNTIFS: "the number of rows where {pairs}",
  STDEV: "the standard deviation of {all}",
  "STDEV.S": "the standard deviation of {all}",
  "STDEV.P": "the population standard deviation of {all}",
  "VAR.S": "the variance of {all}",
  DEVSQ: "the sum of the squared deviations of {all}",
  SLOPE: "the slope of the regression of {1} on {2}",
  INTERCEPT: "the intercept of the regression of {1} on {2}",
  RSQ: "r² of {1} against {2}",
  STEYX: "the standard error of the regression of {1} on {2}",
  CORREL: "the correlation of {1} and {2}",
  LINEST: "the line fitted to {1} against {2}",
  "T.INV.2T": "Student’s t for a two-sided probability of {1} and {2} degrees of freedom",
  "T.INV": "Student’s t for a lower-tail probability of {1} and {2} degrees of freedom",
  TINV: "Student’s t for a two-sided probability of {1} and {2} degrees of freedom",
  "NORM.S.DIST": "the normal probability below {1}",
  "NORM.S.INV": "the normal quantile for the probability {1}",
  ABS: "|{1}|",
  SIGN: "the sign of {1}",
  SQRT: "√({1})",
  EXP: "e^({1})",
  LN: "ln({1})",
  LOG10: "log10({1})",
  POWER: "({1})^({2})",
  PI: "π",
  INT: "{1} rounded down to a whole number",
  ROUND: "{1} rounded to {2} decimals",
  ROUNDUP: "{1} rounded up to {2} decimals",
  ROUNDDOWN: "{1} truncated to {2} decimals",
  NOT: "not ({1})",
  ISNUMBER: "{1} is a number",
  ISTEXT: "{1} is text",
  ISBLANK: "{1} is blank",
  ISERROR: "{1} is an error",
  ISNA: "{1} is #N/A",
  NA: "#N/A",
  N: "{1} as a number",
  ROWS: "the number of rows of {1}",
  COLUMNS: "the number of columns of {1}",
  ROW: "the row number of {1}",
  COLUMN: "the column number of {1}",
  TRANSPOSE: "{1} transposed",
  FILTER: "the rows of {1} where {2}",
  SORT: "{1} sorted",
  UNIQUE: "the different entries of {1}",
  TEXT: "{1} as text",
  VALUE: "{1} as a number",
  LEN: "the length of {1}",
  TRIM: "{1} trimmed of blanks",
  UPPER: "{1} in upper case",
  LOWER: "{1} in lower case",
  TODAY: "today",
  NOW: "now",
  TRUE: "true",
  FALSE: "false",
  HYPERLINK: "a link to {1}",
};

const joiners: Readonly<Record<string, string>> = { AND: " and ", OR: " or ", CONCATENATE: " & ", CONCAT: " & " };

/** Looser than every operator but comparisons: "the sum of x × 2" could mean either. */
const phrase = 2.5;

/** A call of a built-in Excel function in words, with its arguments already in words. */
function describeNativeCall(name: string, given: readonly Words[]): Words {
  const joiner = joiners[name];
  if (joiner !== undefined && given.length > 0)
    return given.length === 1 ? (given[0] ?? word("")) : word(`(${given.map(({ text }) => text).join(joiner)})`);
  const template = Object.hasOwn(templates, name) ? templates[name] : undefined;
  const places = template?.match(/\{\d\}/g)?.map((place) => Number(place[1])) ?? [];
  if (template === undefined || places.some((place) => given[place - 1] === undefined))
    return given.length === 0
      ? word(name)
      : { text: `${name} of ${joinWithAnd(given.map((one) => encloseWords(one, 9)))}`, rank: phrase };
  const isStatement = /^\{1\} is /.test(template);
  const parts = given.length > 1 || template.startsWith("{1}") ? (one: Words) => encloseWords(one, 9) : encloseWords;
  const text = template
    .replaceAll("{all}", () => joinWithAnd(given.map((one) => parts(one))))
    .replaceAll("{pairs}", () => joinWithAnd(describeMatches(name === "COUNTIFS" ? given : given.slice(1))))
    .replace(/([(|]?)\{(\d)\}(?=([)|]?))/g, (_, before: string, place: string, after: string) => {
      const one = given[Number(place) - 1] ?? word("");
      return `${before}${(before !== "" && after !== "") || isStatement ? one.text : parts(one)}`;
    });
  return { text, rank: rankOf(template) };
}

function rankOf(template: string): number {
  if (/^(√|ln|log10)?\(\{1\}\)$|^\|\{1\}\|$|^[^{]+$/.test(template)) return 9;
  return template.includes(")^(") || template.startsWith("e^") ? 6 : phrase;
}

/** Puts an operator expression within a phrase in parentheses, and likewise a phrase that could merge with its context. */
const encloseWords = ({ text, rank }: Words, least = phrase): string =>
  rank < least || (rank > phrase && rank < 9) ? `(${text})` : text;

/** "“state” matches "open"" for each range with its criterion. */
function describeMatches(given: readonly Words[]): string[] {
  return given.flatMap((range, place) =>
    place % 2 === 0 ? [`${encloseWords(range)} matches ${encloseWords(given[place + 1] ?? word("nothing"))}`] : [],
  );
}

/** "a", "a and b", "a, b and c". */
function joinWithAnd(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}
