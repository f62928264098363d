import type { Place } from "../../book/area";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatFigure, formatCellValue, showFormula } from "../../formatting";
import { shorten } from "../../file/problem";

/** A limit in the table may be in a unit other than the published one: m³/(h·m²), cfm/ft², L/(s·m²); cm²/m², in² per 100 ft². */
const perArea = 1.699010796 / 0.09290304;
const unitRatios = [1, perArea, 3.6, perArea / 3.6, 1.44];
const tolerance = 0.006;

/** Limits that differ from the published value beside them, or have no source. */
export const checkLimits: Check = (review) => {
  const rows = listLimitRows(review);
  return [...findUnpublished(review, rows), ...findOutsideTable(review, rows)];
};

export interface LimitRow {
  readonly place: Place;
  readonly name: string;
  readonly limit: number;
}

const limitHeading = /(^|\s)(limit|at most|grenzwert|höchstwert|valeur limite|seuil)(?!\p{L})/iu;

/** Typed numbers under a heading "limit" with words in the first text cell of their row. */
export function listLimitRows(review: Review): LimitRow[] {
  const { view, book } = review;
  const rows: LimitRow[] = [];
  for (const [sheet, { cells }] of book.sheets.entries()) {
    for (const { row, column, value } of cells.values()) {
      const place = { sheet, row, column };
      if (typeof value !== "number" || !view.isTyped(place) || !limitHeading.test(view.labels.readWordsAbove(place)))
        continue;
      rows.push({ place, limit: value, name: findFirstText(review, place) });
    }
  }
  return rows;
}

function findFirstText({ view }: Review, { sheet, row, column }: Place): string {
  for (let left = 0; left < column; left++) {
    const text = view.readText({ sheet, row, column: left });
    if (text !== "") return text;
  }
  return "";
}

function findUnpublished({ view }: Review, rows: readonly LimitRow[]): Finding[] {
  return rows.flatMap(({ place, name, limit }): Finding[] => {
    for (let column = place.column + 1; column < place.column + 12; column++) {
      const beside = { ...place, column };
      if (!/as published/i.test(view.labels.readWordsAbove(beside))) continue;
      const text = view.readText(beside);
      const numbers = [...text.matchAll(/\d+(?:\.\d+)?/g)].map(([number]) => Number(number));
      if (numbers.length === 0 || numbers.some((number) => isSameLimit(limit, number))) return [];
      return [
        {
          kind: "limit changed",
          severity: "error",
          place: view.formatAddress(place),
          what: `The limit of “${shorten(name)}” is ${formatCellValue(limit)}, but it was published as “${shorten(text)}”.`,
          why: "A raised limit turns a fail into a pass.",
          todo: "Restore the published limit, or state the change with its source.",
        },
      ];
    }
    return [];
  });
}

function isSameLimit(limit: number, published: number): boolean {
  return unitRatios.some((ratio) =>
    [published * ratio, published / ratio].some((value) => Math.abs(limit / value - 1) <= tolerance),
  );
}

/** A verdict's limit written into its formula, or typed in and different from the chosen criterion's. */
function findOutsideTable(review: Review, rows: readonly LimitRow[]): Finding[] {
  const { view, verdicts } = review;
  return verdicts.flatMap(({ call, target }): Finding[] => {
    const [given] = target ? (view.evaluateNode(target.node, call.place) ?? []) : [];
    const place = target?.area && view.listCells(target.area)[0];
    if (target && !place && target.areas.length === 0 && typeof given === "number") {
      const where =
        target.node.type === "name"
          ? `is hidden in the name ${target.node.name}`
          : "is written into the verdict's formula";
      return [
        {
          kind: "limit changed",
          severity: "warning",
          place: view.formatAddress(call.place),
          what: `The limit ${given} ${where}; no cell shows it and its source.`,
          why: "A limit inside a formula can be changed unnoticed.",
          todo: "Reference the criterion's cell for the limit.",
        },
      ];
    }
    const value = place && view.readNumber(place);
    if (!place || value === undefined) return [];
    const chosen = rows.find(
      (row) => row.place.sheet === place.sheet && row.name !== "" && isChosen(review, place, row),
    );
    if (!chosen || isSameLimit(value, chosen.limit)) return [];
    return [
      {
        kind: "limit changed",
        severity: "error",
        place: view.formatAddress(place),
        what: `The limit ${formatFigure(value)} is ${view.isTyped(place) ? "typed in" : `computed (${showFormula(view.findCell(place)?.formula?.text ?? "")})`}; the chosen criterion, “${shorten(chosen.name)}”, has ${formatFigure(chosen.limit)} in ${view.formatAddress(chosen.place)}.`,
        why: "A raised limit turns a fail into a pass.",
        todo: "Restore the reference to the table.",
      },
    ];
  });
}

/** The row's name appears as the chosen criterion near the limit, outside its own table. */
function isChosen({ view }: Review, { sheet, row, column }: Place, chosen: LimitRow): boolean {
  for (let up = Math.max(0, row - 6); up <= row; up++)
    for (let left = Math.max(0, column - 3); left <= column; left++)
      if (up !== chosen.place.row && view.readText({ sheet, row: up, column: left }) === chosen.name) return true;
  return false;
}
