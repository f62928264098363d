import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native } from "../blocks/style";
import { type Direction, directions, sheets, stationColumns, stationRows } from "./places";
import { argumentsOf } from "./readings";

const heads = 16;

/** Below the heads, for each of the two sets: how many stations, standard uncertainty of their mean, its degrees of freedom. */
const sets = ["before", "after"] as const;

type Set = (typeof sets)[number];

const figures = ["count", "uncertainty", "freedom"] as const;

function rowOf(set: Set, figure: (typeof figures)[number]): number {
  return heads + 1 + sets.indexOf(set) * figures.length + figures.indexOf(figure);
}

const lastFigure = rowOf("after", "freedom");

/** The last row that it takes, note included. */
export const belowBaselineFacts = lastFigure + 3;

const columnOf: Readonly<Record<Direction, string>> = { depressurization: "C", pressurization: "D" };

/** What a budget is told of a baseline of one direction, by address. */
export function baselineFactsOf(direction: Direction, set: Set): Readonly<Record<"uncertainty" | "freedom", string>> {
  const at = (figure: "uncertainty" | "freedom") => `${columnOf[direction]}${rowOf(set, figure)}`;
  return { uncertainty: at("uncertainty"), freedom: at("freedom") };
}

/**
 * How well the baselines of each direction are known, from the standard errors of their stations: of the mean of k stations u² = Σu_i²/k² and
 * ν = u⁴/Σ((u_i/k)⁴/ν_i) (JCGM 100, G.4.1).
 */
export function baselineFacts(sheet: Sheet): void {
  section(sheet, heads - 1, ["B", "E"], "How well the baselines are known, from the stations of the log");
  columnHeads(sheet, heads, "B", ["<", ...directions, "<<unit"]);
  const stationColumn = (letter: string) =>
    onSheet(sheets.stations, `${letter}${stationRows.first}:${letter}${stationRows.last}`);
  const [error, freedom] = [stationColumns.error, stationColumns.freedom].map(stationColumn) as [string, string];
  for (const set of sets) {
    const labels = [
      [rowOf(set, "count"), `Stations ${set}`, ""],
      [rowOf(set, "uncertainty"), `Baseline ${set}: standard uncertainty of its mean`, "Pa"],
      [rowOf(set, "freedom"), "its degrees of freedom", ""],
    ] as const;
    for (const [row, label, unit] of labels) sheet.rich(`B${row}`, label, looks.label).put(`E${row}`, unit, looks.unit);
    for (const direction of directions) {
      const letter = columnOf[direction];
      const stations = argumentsOf(direction)[set];
      const [count, u] = [`${letter}${rowOf(set, "count")}`, `${letter}${rowOf(set, "uncertainty")}`];
      const sum = (power: number, over: string) =>
        `SUMPRODUCT((${stations}<>"")*${error}^${power}${over})/${count}^${power}`;
      sheet.formula(count, `COUNT(${stations})`, native("0"));
      sheet.formula(u, `IF(${count}=0,"",SQRT(${sum(2, "")}))`, native("0.000"));
      const ofMean = `MAX(1,${u}^4/(${sum(4, `/(${freedom}+(${freedom}=0))`)}))`;
      sheet.formula(`${letter}${rowOf(set, "freedom")}`, `IF(COUNT(${u})=0,"",IF(${u}=0,"",${ofMean}))`, native("0.0"));
    }
  }
  sheet.put(
    `B${lastFigure + 1}`,
    "Handed on as the settings “baseline before uncertainty”, “baseline after uncertainty” and their degrees of freedom. The form of the final test takes one uncertainty for both, on its sheet Uncertainty: there type the larger one and the fewer degrees of freedom.",
    looks.note,
  );
  sheet.merge(`B${lastFigure + 1}:E${belowBaselineFacts}`);
}
