import { word, type Words } from "./walk";

/**
 * Excel's own functions in words. {1}, {2} … are the arguments, {all} all of them in a row, {pairs} "range matches criterion" from the second
 * on; what is not listed is told by its name and its arguments.
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
  COUNT: "how many numbers are in {all}",
  COUNTA: "how many cells are filled in {all}",
  COUNTBLANK: "how many cells are blank in {1}",
  COUNTIF: "how many of {1} are {2}",
  COUNTIFS: "how many rows there are where {pairs}",
  STDEV: "the standard deviation of {all}",
  "STDEV.S": "the standard deviation of {all}",
  "STDEV.P": "the standard deviation of the whole of {all}",
  "VAR.S": "the variance of {all}",
  DEVSQ: "the sum of the squared deviations of {all}",
  SLOPE: "the slope of the line of {1} over {2}",
  INTERCEPT: "the intercept of the line of {1} over {2}",
  RSQ: "r² of {1} over {2}",
  STEYX: "the scatter of {1} about its line over {2}",
  CORREL: "the correlation of {1} and {2}",
  LINEST: "the line fitted to {1} over {2}",
  "T.INV.2T": "Student’s t for a probability of {1} outside and {2} degrees of freedom",
  "T.INV": "Student’s t for a probability of {1} below and {2} degrees of freedom",
  TINV: "Student’s t for a probability of {1} outside and {2} degrees of freedom",
  "NORM.S.DIST": "the normal probability below {1}",
  "NORM.S.INV": "the normal deviate of the probability {1}",
  ABS: "|{1}|",
  SIGN: "the sign of {1}",
  SQRT: "√({1})",
  EXP: "e^({1})",
  LN: "ln({1})",
  LOG10: "log10({1})",
  POWER: "({1})^({2})",
  PI: "π",
  INT: "the whole part of {1}, downwards",
  ROUND: "{1} rounded to {2} decimals",
  ROUNDUP: "{1} rounded up to {2} decimals",
  ROUNDDOWN: "{1} cut to {2} decimals",
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
  TRANSPOSE: "{1} turned over",
  FILTER: "the rows of {1} where {2}",
  SORT: "{1} sorted",
  UNIQUE: "the different entries of {1}",
  TEXT: "{1} as text",
  VALUE: "{1} as a number",
  LEN: "the length of {1}",
  TRIM: "{1} without blanks at its ends",
  UPPER: "{1} in capitals",
  LOWER: "{1} in small letters",
  TODAY: "today",
  NOW: "now",
  TRUE: "true",
  FALSE: "false",
  HYPERLINK: "a link to {1}",
};

const joiners: Readonly<Record<string, string>> = { AND: " and ", OR: " or ", CONCATENATE: " & ", CONCAT: " & " };

/** Looser than every operator but comparisons: "the sum of x × 2" could mean either. */
const phrase = 2.5;

/** A call of one of Excel's own functions in words, its arguments in words already. */
export function nativeWords(name: string, given: readonly Words[]): Words {
  const joiner = joiners[name];
  if (joiner !== undefined && given.length > 0)
    return given.length === 1 ? (given[0] ?? word("")) : word(`(${given.map(({ text }) => text).join(joiner)})`);
  const template = Object.hasOwn(templates, name) ? templates[name] : undefined;
  const places = template?.match(/\{\d\}/g)?.map((place) => Number(place[1])) ?? [];
  if (template === undefined || places.some((place) => given[place - 1] === undefined))
    return given.length === 0
      ? word(name)
      : { text: `${name} of ${listed(given.map((one) => enclosed(one, 9)))}`, rank: phrase };
  const isStatement = /^\{1\} is /.test(template);
  const parts = given.length > 1 || template.startsWith("{1}") ? (one: Words) => enclosed(one, 9) : enclosed;
  const text = template
    .replaceAll("{all}", () => listed(given.map((one) => parts(one))))
    .replaceAll("{pairs}", () => listed(pairsOf(name === "COUNTIFS" ? given : given.slice(1))))
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

/** Words that an operator holds together stand in parentheses within a phrase; so does a phrase where another could end with it. */
const enclosed = ({ text, rank }: Words, least = phrase): string =>
  rank < least || (rank > phrase && rank < 9) ? `(${text})` : text;

/** "“state” matches "open"" for each range with its criterion. */
function pairsOf(given: readonly Words[]): string[] {
  return given.flatMap((range, place) =>
    place % 2 === 0 ? [`${enclosed(range)} matches ${enclosed(given[place + 1] ?? word("nothing"))}`] : [],
  );
}

/** "a", "a and b", "a, b and c". */
function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}
