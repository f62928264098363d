import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native } from "../blocks/style";
import { directions, sheets, stationColumns, stationRows, type Direction } from "./places";
import { argumentsOf } from "./readings";

const heads = 16;
const rows = { before: 17, after: 18, uncertainty: 19, freedom: 20, each: 21, freedomOfEach: 22 } as const;

/** The last row that it takes, note included. */
export const belowBaselineFacts = 25;

const columnOf: Readonly<Record<Direction, string>> = { depressurization: "C", pressurization: "D" };

/** What a budget is told of the baselines of one direction, by address. */
export function baselineFactsOf(direction: Direction): Readonly<Record<"uncertainty" | "freedom", string>> {
  const column = columnOf[direction];
  return { uncertainty: `${column}${rows.each}`, freedom: `${column}${rows.freedomOfEach}` };
}

/**
 * How well the baseline of each direction is known, from the standard errors of its stations: u² = Σ(c·u_i)², c the weight of a station in the mean of the two means, and
 * ν = u⁴/Σ((c·u_i)⁴/ν_i) (JCGM 100, G.4.1). The settings speak of each of the two means: with √2·u each and half of ν, their mean has u and ν again.
 */
export function baselineFacts(sheet: Sheet): void {
  section(sheet, heads - 1, ["B", "E"], "How well the baselines are known, from the stations of the log");
  columnHeads(sheet, heads, "B", ["<", ...directions, "<<unit"]);
  const stationColumn = (letter: string) =>
    onSheet(sheets.stations, `${letter}${stationRows.first}:${letter}${stationRows.last}`);
  const [error, freedom] = [stationColumns.error, stationColumns.freedom].map(stationColumn) as [string, string];
  const labels: readonly (readonly [row: number, label: string, unit: string])[] = [
    [rows.before, "Stations before", ""],
    [rows.after, "Stations after", ""],
    [rows.uncertainty, "Baseline Δp_{0}: standard uncertainty", "Pa"],
    [rows.freedom, "its degrees of freedom", ""],
    [rows.each, "Handed on, each of the two means: standard", "Pa"],
    [rows.freedomOfEach, "degrees of freedom of each", ""],
  ];
  for (const [row, label, unit] of labels) sheet.rich(`B${row}`, label, looks.label).put(`E${row}`, unit, looks.unit);
  for (const direction of directions) {
    const letter = columnOf[direction];
    const at = (row: number) => `${letter}${row}`;
    const { before, after } = argumentsOf(direction);
    sheet.formula(at(rows.before), `COUNT(${before})`, native("0"));
    sheet.formula(at(rows.after), `COUNT(${after})`, native("0"));
    const [counts, sets] = [
      [at(rows.before), at(rows.after)] as const,
      `((${at(rows.before)}>0)+(${at(rows.after)}>0))`,
    ];
    // The sum over the stations of (c·u)^power, each divided by what is given.
    const sum = (power: number, over: string) =>
      [before, after]
        .map((set, index) => {
          const weight = `MAX(1,${counts[index]})*${sets}`;
          return `SUMPRODUCT((${set}<>"")*${error}^${power}${over})/(${weight})^${power}`;
        })
        .join("+");
    const whenKnown = (formula: string) => `IF(COUNT(${before},${after})=0,"",${formula})`;
    sheet.formula(at(rows.uncertainty), whenKnown(`SQRT(${sum(2, "")})`), native("0.000"));
    const u = at(rows.uncertainty);
    const whenAny = (formula: string) => `IF(COUNT(${u})=0,"",IF(${u}=0,"",${formula}))`;
    const overFreedom = `/(${freedom}+(${freedom}=0))`;
    sheet.formula(at(rows.freedom), whenAny(`${u}^4/(${sum(4, overFreedom)})`), native("0.0"));
    sheet.formula(at(rows.each), whenAny(`SQRT(${sets})*${u}`), native("0.000"));
    sheet.formula(at(rows.freedomOfEach), whenAny(`MAX(1,${at(rows.freedom)}/${sets})`), native("0.0"));
  }
  sheet.put(
    `B${rows.freedomOfEach + 1}`,
    "The two lines handed on are the settings “baseline uncertainty” and “baseline degrees of freedom”: the form of the final test takes them too, on its sheet Uncertainty; there the larger uncertainty and the fewer degrees of freedom hold for both directions.",
    looks.note,
  );
  sheet.merge(`B${rows.freedomOfEach + 1}:E${belowBaselineFacts}`);
}
