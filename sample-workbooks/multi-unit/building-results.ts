import { onSheet } from "../blocks/address";
import { formLines } from "../blocks/form";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { buildingVerdict } from "./building-verdict";
import { sheets, unitRows } from "./places";
import { sumOfSizes } from "./sum-of-sizes";
import { listRows } from "./unit-results";

export interface BuildingPlaces {
  readonly basisCell: string;
  readonly suitsCell: string;
  readonly guardedValue: string;
  readonly unguardedValue: string;
  readonly meanOfUnits: string;
  readonly perOuterArea: string;
  readonly toNeighbours: string;
  readonly sumFlow: string;
  readonly sumVolume: string;
  readonly expanded: string;
  readonly result: string;
  readonly verdict: string;
  readonly conditions: string;
  readonly guardedUnits: string;
  readonly unguardedUnits: string;
}

const { first, last } = unitRows;
const column = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
const left = { label: "B", value: "I", unit: "J" } as const;

/** What the runs say of their conditions, in the list of tested units. */
const [unguarded = "", guarded = ""] = ["AB", "AE"].map(
  (letter) => `$${letter}$${listRows.first}:$${letter}$${listRows.last}`,
);

/** Whose runs the figures in a column of flows are from. */
const runsOf = { E: [unguarded], G: [guarded], I: [unguarded, guarded] } as const;

/** #N/A while a run that is filled in has no result: a sum or a mean without it would be that of a smaller building. */
function unlessOpen(letter: keyof typeof runsOf, formula: string): string {
  const open = runsOf[letter].map((conditions) => `COUNTIF(${conditions},"open")`).join("+");
  return `IF(${open}>0,NA(),${formula})`;
}

/** Sums of flows and volumes over the units that have a flow, the mean of the units beside it, uncertainty, conditions, verdict. */
export function buildingResults(sheet: Sheet, at: number): BuildingPlaces {
  sums(sheet, at);
  comparison(sheet, at);
  buildingVerdict(sheet, at);
  const place = (reference: string) => onSheet(sheets.results, reference);
  return {
    basisCell: `T${at + 1}`,
    suitsCell: `T${at + 6}`,
    sumFlow: place(`I${at + 2}`),
    sumVolume: place(`I${at + 3}`),
    guardedValue: place(`I${at + 5}`),
    unguardedValue: place(`I${at + 10}`),
    toNeighbours: place(`I${at + 11}`),
    meanOfUnits: place(`I${at + 14}`),
    perOuterArea: place(`I${at + 6}`),
    guardedUnits: place(`I${at + 1}`),
    unguardedUnits: place(`I${at + 7}`),
    expanded: place(`T${at + 5}`),
    result: place(`T${at + 2}`),
    verdict: place(`T${at + 10}`),
    conditions: place(`T${at + 9}`),
  };
}

function sums(sheet: Sheet, at: number): void {
  section(sheet, at, ["B", "K"], "Building: the sum of the flows over the sum of the volumes");
  const bold = (digits: number) => style({ bold: true }, native(decimals(digits)));
  const over = (flow: number, size: number) =>
    `IF(COUNT(I${at + flow},I${at + size})<2,"",IF(I${at + size}=0,"",I${at + flow}/I${at + size}))`;
  const sum = (letter: keyof typeof runsOf) =>
    unlessOpen(letter, `IF(COUNT(${column(letter)})=0,"",SUM(${column(letter)}))`);
  const sized = (letter: keyof typeof runsOf, sizes: string) =>
    unlessOpen(letter, `IF(COUNT(${column(letter)})=0,"",${sumOfSizes(column(letter), sizes)})`);
  formLines(sheet, at + 1, left, [
    { label: "Units with a guarded run", formula: `COUNT(${column("G")})`, format: decimals(0) },
    { label: "Σq_{50}, guarded: to outdoors alone", formula: sum("G"), format: decimals(1), unit: "m³/h" },
    { label: "ΣV of these units", formula: sized("G", column("D")), format: decimals(1), unit: "m³" },
    {
      label: "Σ of their area to outdoors and ground",
      formula: sized("G", "UnitOuterAreas"),
      format: decimals(1),
      unit: "m²",
    },
    { label: "Building, guarded: Σq_{50} / ΣV", formula: over(2, 3), look: bold(3), unit: "1/h" },
    { label: "Building, guarded, per outer area: Σq_{50} / ΣA", formula: over(2, 4), look: bold(3), unit: "m³/(h·m²)" },
    { label: "Units with an unguarded run", formula: `COUNT(${column("E")})`, format: decimals(0) },
    {
      label: "Σq_{50}, unguarded: neighbours’ leaks counted too",
      formula: sum("E"),
      format: decimals(1),
      unit: "m³/h",
    },
    { label: "ΣV of these units", formula: sized("E", column("D")), format: decimals(1), unit: "m³" },
    { label: "Building, unguarded: Σq_{50} / ΣV, an upper bound", formula: over(8, 9), look: bold(3), unit: "1/h" },
    { label: "From neighbours, units with both runs", formula: sum("I"), format: decimals(1), unit: "m³/h" },
  ]);
}

function comparison(sheet: Sheet, at: number): void {
  const row = at + 13;
  section(sheet, row, ["B", "K"], "Why not the mean of the units’ n_{50}");
  const mean = unlessOpen("G", `IF(COUNT(${column("P")})=0,"",AVERAGE(${column("P")}))`);
  formLines(sheet, row + 1, left, [
    { label: "Mean of the units’ n_{50}, guarded", formula: mean, format: decimals(3), unit: "1/h" },
    {
      label: "Off the building’s value by",
      formula: `IF(COUNT(I${at + 5},I${row + 1})<2,"",I${row + 1}/I${at + 5}-1)`,
      format: '0.0 %;"−"0.0 %',
    },
    { label: "Largest unit’s volume over the smallest one’s", formula: volumeSpread, format: decimals(1) },
  ]);
  sheet.put(
    `B${row + 5}`,
    "The mean counts a small unit as much as a large one, though it holds less air: where small units leak more for their size, the mean lies above the building’s value, and the other way round. " +
      "The air that goes through the building’s envelope is the sum of the flows, and what it is compared with is the sum of the volumes. Only where all volumes are equal are the two the same.",
    looks.note,
  );
  sheet.merge(`B${row + 5}:K${row + 9}`);
}

const volumeSpread = `IF(COUNT(${column("P")})=0,"",${extreme("MAX")}/${extreme("MIN")})`;

/** The largest or smallest volume among units with a guarded run. */
function extreme(which: "MAX" | "MIN"): string {
  return `_xlfn.${which}IFS(${column("D")},${column("G")},">0")`;
}
