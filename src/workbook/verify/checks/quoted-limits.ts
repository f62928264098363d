import { areaOf, isSingleCell, type Place, placeKey } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { CellValue } from "../../model";
import { shorten } from "../../file/problem";
import { formatFigure } from "../../formatting";
import type { Finding } from "../finding";
import type { Judgement } from "../judgements";
import { findEntry } from "../look-ups";
import { listJudgedQuantities } from "../result-steps";
import type { Check, Review } from "../review";
import { type LimitRow, listLimitRows } from "./limits";

/** A limit wider than the one that a text beside it quotes, or whose entry of a table it names. A stricter one is a contract's own affair. */
export const checkQuotedLimits: Check = (review) => {
  const { view } = review;
  const rows = listLimitRows(review);
  return review.judgements.flatMap((judgement): Finding[] => {
    const { limit, result } = judgement;
    const place = findOrigin(view, rows, judgement);
    const value = view.readNumber(place) ?? limit.value;
    const quotation = findQuotation(review, judgement, place) ?? findNamedEntry(review, rows, place);
    if (!quotation || value <= quotation.quoted * (1 + tolerance)) return [];
    const { quoted, where } = quotation;
    const isTurned = result.value <= limit.value * (1 + 1e-9) && result.value > (limit.value * quoted) / value;
    return [
      {
        kind: "limit changed",
        severity: "warning",
        decides: isTurned,
        place: view.formatAddress(place),
        what:
          `The limit is ${formatFigure(value)}, but ${where}` +
          `${isTurned ? `, which ${formatFigure(result.value, 5)} does not meet` : ""}.`,
        why: "A raised limit turns a fail into a pass.",
        todo: "Restore the limit that is named, or state which one is agreed and where.",
      },
    ];
  });
};

/** A limit named beside the one in use, and where. */
interface Quotation {
  readonly quoted: number;
  readonly where: string;
}

/** The widest limit that the texts beside a cell state in figures. */
function findQuotation(review: Review, judgement: Judgement, place: Place): Quotation | undefined {
  const quantities = listJudgedQuantities(review, judgement);
  const [widest] = listTextsBeside(review, place, furthestAcross)
    .flatMap((text) => listQuoted(text, quantities).map((quoted) => ({ quoted, text })))
    .sort((one, other) => other.quoted - one.quoted);
  if (!widest) return undefined;
  const { quoted, text } = widest;
  return { quoted, where: `the text beside it quotes ${formatFigure(quoted)} (“${shorten(text)}”)` };
}

/** The only entry of a table of limits whose name a text near the cell contains. */
function findNamedEntry(review: Review, rows: readonly LimitRow[], place: Place): Quotation | undefined {
  if (rows.some((row) => placeKey(row.place) === placeKey(place))) return undefined;
  const texts = listTextsBeside(review, place, furthestAcross, furthestAbove).map((text) => text.toLowerCase());
  const named = rows.flatMap((row) => {
    if (row.place.sheet === place.sheet && row.place.row === place.row) return [];
    const isNamed = (name: string): boolean => texts.some((text) => text.includes(name.toLowerCase()));
    const name = listWordsBefore(review, row.place).find((words) => words.length >= leastName && isNamed(words));
    return name === undefined ? [] : [{ ...row, name }];
  });
  const [entry] = named;
  // A name of several rows, such as that of their quantity, tells none of them.
  if (!entry || named.length > 1) return undefined;
  const { limit: quoted, name, place: of } = entry;
  const where = `“${shorten(name)}”, which is named beside it, has ${formatFigure(quoted)} in ${review.view.formatAddress(of)}`;
  return { quoted, where };
}

const leastName = 6;

/** The texts of an entry's row, back to the first blank cell. */
function listWordsBefore({ view }: Review, { sheet, row, column }: Place): string[] {
  const words: string[] = [];
  for (let left = column - 1; left >= 0; left--) {
    const value = view.readValue({ sheet, row, column: left });
    if (value === null) break;
    if (typeof value === "string") words.push(value);
  }
  return words;
}

/** Quoted figures are rounded to the digits of the standard. */
const tolerance = 0.006;

/** The cell where a limit was typed in; the judgement's own cell where it is written into the formula. */
function findOrigin(view: Inspector, rows: readonly LimitRow[], { limit, place }: Judgement): Place {
  const { area } = limit;
  if (!area || !isSingleCell(area)) return place;
  let at: Place = { sheet: area.sheet, row: area.top, column: area.left };
  for (let steps = 0; steps < 9; steps++) {
    const next = findSource(view, at);
    if (!next) break;
    at = next;
  }
  // Where a formula chooses, the entry of its table that has the limit.
  const behind = view.findUpstream([areaOf(at)]);
  return rows.find((row) => row.limit === limit.value && behind.has(placeKey(row.place)))?.place ?? at;
}

/** The one cell whose value a cell repeats or looks up. */
function findSource(view: Inspector, at: Place): Place | undefined {
  const root = view.findOwner(at) ? undefined : view.parseFormulaAt(at)?.root;
  if (!root) return undefined;
  const [read] = root.type === "area" || root.type === "name" ? view.resolveNode(root, at) : [];
  return read && isSingleCell(read)
    ? { sheet: read.sheet, row: read.top, column: read.left }
    : findEntry(view, root, at);
}

const furthestAcross = 12;
const furthestAbove = 6;

/** Texts in the cell's row; in the row below and some rows above, as far as no figure of theirs stands there. */
function listTextsBeside({ view, book }: Review, { sheet, row, column }: Place, across: number, above = 1): string[] {
  const lines = new Map<number, CellValue[]>();
  for (const cell of book.sheets[sheet]?.cells.values() ?? []) {
    const away = Math.abs(cell.column - column);
    if (cell.row < row - above || cell.row > row + 1 || away > (cell.row === row ? across : 3)) continue;
    const line = lines.get(cell.row) ?? [];
    lines.set(cell.row, line);
    line.push(view.readValue({ sheet, row: cell.row, column: cell.column }));
  }
  return [...lines].flatMap(([line, values]) => {
    if (line !== row && values.some((value) => typeof value === "number")) return [];
    return values.filter((value): value is string => typeof value === "string");
  });
}

const rateUnit = String.raw`1\s*\/\s*h|\/\s*h(?![\w·(])|h\s*(?:-1|⁻¹)|ach(?:50)?|air changes`;
const areaUnit = String.raw`m(?:³|3)\s*\/\s*\(?h\s*[·*.\/ ]?\s*m(?:²|2)\)?|cfm(?:50)?\s*\/\s*ft(?:²|2)|l\s*\/\s*\(?s\s*[·*. ]?\s*m(?:²|2)\)?`;
const atMost = String.raw`≤|<=|=<|<|at most|max(?:imum|\.)?|not (?:more|greater) than|not exceeding|up to|höchstens|maximal|au plus`;

/** "n50 ≤ 0.6 1/h", "at most 0,6 1/h", "standard: 0.6 ACH"; the unit alone, "limit, 1/h", states none. */
const figureInText = new RegExp(
  String.raw`(?<symbol>\b[nqw]_?[ef]?_?\d{1,3}\b)?\s*(?<sign>${atMost})?\s*(?<![\d.,])(?!1\/h)(?<figure>\d+(?:[.,]\d+)?)\s*(?:(?<rate>${rateUnit})|(?<area>${areaUnit}))?`,
  "giu",
);

/** Words by which a text says that its figure is a limit. */
const limiting =
  /limit|standard|publish|criteri|require|regulation|code\b|programme|grenzwert|anforderung|norm|vorgabe|seuil|exigence|norme|valeur/iu;

/** The limits on one of some quantities that a text states, each with its sign and symbol or its unit. */
function listQuoted(text: string, quantities: readonly string[]): number[] {
  return [...text.matchAll(figureInText)].flatMap(({ groups = {} }) => {
    const { symbol, sign, figure = "", rate, area } = groups;
    if (symbol === undefined && rate === undefined && area === undefined) return [];
    if (sign === undefined && !(limiting.test(text) && (rate ?? area) !== undefined)) return [];
    const isMeant = quantities.some((quantity) => {
      if (symbol !== undefined && !isSameSymbol(symbol, quantity)) return false;
      return rate === undefined && area === undefined
        ? symbol !== undefined
        : /^n/.test(quantity) === (rate !== undefined);
    });
    return isMeant ? [Number(figure.replace(",", "."))] : [];
  });
}

/** Programmes write q50 or w50 where ISO 9972 has qE50 or qF50. */
const isSameSymbol = (written: string, quantity: string): boolean =>
  /^n/i.test(written) === /^n/.test(quantity) && /\d+$/.exec(written)?.[0] === /\d+$/.exec(quantity)?.[0];
