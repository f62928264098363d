import { type FormLine, formLines } from "../blocks/form";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals } from "../blocks/style";
import type { BuildingPlaces } from "./building-results";

/** A value that stays blank while its cell is. */
const kept = (cell: string) => `IF(${cell}="","",${cell})`;

function buildingLines(places: BuildingPlaces): readonly FormLine[] {
  return [
    { label: "Building, guarded: Σq_{50} / ΣV", formula: kept(places.guardedValue), format: decimals(3), unit: "1/h" },
    {
      label: "Mean of the units’ n_{50}, guarded",
      formula: kept(places.meanOfUnits),
      format: decimals(3),
      unit: "1/h",
    },
    {
      label: "Building, unguarded: Σq_{50} / ΣV",
      formula: kept(places.unguardedValue),
      format: decimals(3),
      unit: "1/h",
    },
    {
      label: "Σq_{50} / Σ outer area, guarded",
      formula: kept(places.perOuterArea),
      format: decimals(3),
      unit: "m³/(h·m²)",
    },
    { label: "Σq_{50}, guarded", formula: kept(places.sumFlow), format: decimals(1), unit: "m³/h" },
    { label: "ΣV of these units", formula: kept(places.sumVolume), format: decimals(1), unit: "m³" },
    { label: "From the neighbours", formula: kept(places.toNeighbours), format: decimals(1), unit: "m³/h" },
  ];
}

function sampleLines(places: BuildingPlaces): readonly FormLine[] {
  return [
    { label: "Units of the building", formula: "COUNTA(UnitNames)", format: decimals(0) },
    { label: "Units tested", formula: 'COUNTIF(UnitsTested,"yes")', format: decimals(0) },
    { label: "with a guarded run", formula: places.guardedUnits, format: decimals(0) },
    { label: "Share of the units", formula: kept("SampleShare"), format: "0 %" },
    { label: "Positions not in the sample", formula: "SampleGaps", format: decimals(0) },
    { label: "Conditions", formula: kept(places.conditions) },
    {
      label: "Verdict",
      formula: `IF(ISTEXT(${places.verdict}),IF(${places.verdict}="","open",${places.verdict}),"open")`,
    },
  ];
}

/** Building on the left, sample on the right; eight rows. */
export function figures(sheet: Sheet, at: number, places: BuildingPlaces): void {
  section(sheet, at, ["B", "D"], "Building");
  section(sheet, at, ["F", "H"], "Sample");
  formLines(sheet, at + 1, { label: "B", value: "C", unit: "D" }, buildingLines(places));
  formLines(sheet, at + 1, { label: "F", value: "G", unit: "H" }, sampleLines(places));
}

/** All figures as label, value and unit, beside the page; the range goes by the name Summary, which the recalculation prints. */
export function summarySection(sheet: Sheet, at: number, places: BuildingPlaces): string {
  section(sheet, at, ["J", "L"], "Summary (not printed)");
  const lines = [...buildingLines(places), ...sampleLines(places)];
  formLines(sheet, at + 1, { label: "J", value: "K", unit: "L" }, lines);
  return `J${at + 1}:L${at + lines.length}`;
}
