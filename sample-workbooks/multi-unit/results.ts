import { call } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { notOn, repeatsIn } from "../blocks/typed-cells";
import { oneOf } from "../blocks/validation";
import { footer, sheets, testedCount, unitRows } from "./layout";
import type { TestedPlaces } from "./runs";
import { inTargetQuantity, listRows, writeUnitResults } from "./unit-results";

const buildingAt = unitRows.last + 3;

/** Units first, a row each; then the building, whose value is the sum of the flows over the sum of the volumes. */
export function resultsPage(tested: readonly TestedPlaces[]): Page & { readonly places: BuildingPlaces } {
  const widths = [
    ...[1.5, 5, 12.5, 7.5, 9.5, 8, 8, 8, 9.5, 7.5, 6.5, 6.5, 9.5, 12, 9.5, 8, 9.5, 9.5, 9.5, 8, 8.5, 2],
    ...[7, 2, 9, 10, 9, 10, 10, 9, 10],
  ];
  const sheet = new Sheet(sheets.results, widths, palette.petrol, {
    orientation: "landscape",
    areas: [`B1:U${buildingAt - 1}`, `B${buildingAt}:U${buildingAt + 24}`],
    pages: 2,
    titleRows: "1:4",
    footer,
  });
  const lead =
    "All flows at 50 Pa and reference conditions, depressurization. Unguarded less guarded is what comes from the neighbours. Per six sides: the unguarded flow; per area to outdoors and ground: the guarded one. Untested units stay blank.";
  writePageHead(sheet, letterhead, ["B", "U"], sheets.results, lead);
  sheet.heightOf(14, 5, buildingAt + 24);
  writeUnitResults(sheet, tested);
  const places = writeBuildingResults(sheet, buildingAt);
  const column = (letter: string) => onSheet(sheets.results, `${letter}${unitRows.first}:${letter}${unitRows.last}`);
  const names = column("Y").replaceAll(`$${unitRows.last}`, `$${unitRows.first + testedCount - 1}`);
  return {
    sheet,
    names: {
      TestedUnits: names,
      Basis: onSheet(sheets.results, places.basisCell),
      CriterionSuits: onSheet(sheets.results, places.suitsCell),
    },
    places,
  };
}

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
function writeBuildingResults(sheet: Sheet, at: number): BuildingPlaces {
  writeSums(sheet, at);
  writeComparison(sheet, at);
  writeBuildingVerdict(sheet, at);
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

function writeSums(sheet: Sheet, at: number): void {
  writeHeading(sheet, at, ["B", "K"], "Building: the sum of the flows over the sum of the volumes");
  const bold = (digits: number) => style({ bold: true }, native(decimals(digits)));
  const over = (flow: number, size: number) =>
    `IF(COUNT(I${at + flow},I${at + size})<2,"",IF(I${at + size}=0,"",I${at + flow}/I${at + size}))`;
  const sum = (letter: keyof typeof runsOf) =>
    unlessOpen(letter, `IF(COUNT(${column(letter)})=0,"",SUM(${column(letter)}))`);
  const sized = (letter: keyof typeof runsOf, sizes: string) =>
    unlessOpen(letter, `IF(COUNT(${column(letter)})=0,"",${sumOfSizes(column(letter), sizes)})`);
  writeFormLines(sheet, at + 1, left, [
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

function writeComparison(sheet: Sheet, at: number): void {
  const row = at + 13;
  writeHeading(sheet, row, ["B", "K"], "Why not the mean of the units’ n_{50}");
  const mean = unlessOpen("G", `IF(COUNT(${column("P")})=0,"",AVERAGE(${column("P")}))`);
  writeFormLines(sheet, row + 1, left, [
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

const right = { label: "M", value: "T", unit: "U" } as const;

const listed = (letter: string) => `$${letter}$${listRows.first}:$${letter}$${listRows.last}`;

/** How many runs bear a word about their conditions. */
const runsWith = (word: string) => `(COUNTIF(${listed("AB")},"${word}")+COUNTIF(${listed("AE")},"${word}"))`;

/** Blocks with readings whose unit is unknown, and blocks of one unit that stands twice: a look-up would pass them over. */
const strayBlocks = [
  `SUMPRODUCT(((${listed("AB")}<>"")+(${listed("AE")}<>"")>0)*(${listed("Y")}=""))`,
  notOn("UnitNames", listed("Y")),
  repeatsIn("UnitNames", first),
  repeatsIn(listed("Y"), listRows.first),
].join("+");

/** Result, limit, uncertainty, conditions and verdict of the building; rows from a heading on. */
function writeBuildingVerdict(sheet: Sheet, at: number): void {
  writeHeading(sheet, at, ["M", "U"], "Verdict for the building");
  const flow = `IF(T${at + 1}="guarded",I${at + 2},I${at + 8})`;
  const volume = `IF(T${at + 1}="guarded",I${at + 3},I${at + 9})`;
  const chosen = (guarded: string, unguarded: string) => `IF(T${at + 1}="guarded",${guarded},${unguarded})`;
  const flows = chosen(column("G"), column("E"));
  const uncertainties = chosen(column("H"), column("F"));
  const added = (ofGuarded: string, ofUnguarded: string) =>
    chosen(sumOfSizes(column("G"), ofGuarded), sumOfSizes(column("E"), ofUnguarded));
  const area = added("UnitOuterAreas", "UnitEnvelopeAreas");
  const floorArea = added("UnitFloorAreas", "UnitFloorAreas");
  const own = `(SUMSQ(${uncertainties})-DeviceUncertainty^2*SUMSQ(${flows}))`;
  const convention = 'OR(TargetConvention="not used",TargetConvention=VolumeConvention)';
  const bold = style({ bold: true }, native(decimals(3)));
  writeFormLines(sheet, at + 1, right, [
    { label: "Which runs decide", typed: "guarded", align: "left" },
    {
      label: "Result, as the criterion counts it",
      formula: inTargetQuantity(flow, volume, area, floorArea),
      look: bold,
    },
    { label: "Limit", formula: 'IF(TargetLimit="","",TargetLimit)', format: "0.0##" },
    {
      label: "Standard uncertainty of the sum, its calibration common",
      formula: `IF(OR(COUNT(T${at + 2},DeviceUncertainty)<2,COUNT(${uncertainties})<COUNT(${flows})),"",SQRT(MAX(0,${own})/${flow}^2+DeviceUncertainty^2))`,
      format: "0.0 %",
    },
    {
      label: "Expanded, k = 2, for information; sizes not counted",
      formula: `IF(COUNT(T${at + 2},T${at + 4})<2,"",2*T${at + 4}*T${at + 2})`,
      format: decimals(3),
    },
    {
      label: "Volume convention and direction, as the criterion has them",
      formula: `IF(OR(TargetConvention="",TargetDirections="",VolumeConvention=""),"open",IF(AND(TargetDirections<>"both",${convention}),"met","not met"))`,
    },
    {
      label: "Every run: readings, pressures, baseline, n and r² (below)",
      formula: `IF(${runsWith("not met")}>0,"not met",IF(${runsWith("open")}>0,"open",IF(${runsWith("met")}>0,"met","open")))`,
    },
    {
      label: "Every run has its unit, every unit one block and its sizes",
      formula: `IF((${strayBlocks})>0,"not met",IF(COUNT(${flows})=0,"open",IF(COUNT(${flows})=COUNT(${column("T")}),"met","open")))`,
    },
    {
      label: "All conditions, with the pressure and quantity of the limit",
      formula: `IF(COUNTIF(T${at + 6}:T${at + 8},"not met")>0,"not met",IF(OR(COUNTIF(T${at + 6}:T${at + 8},"open")>0,COUNT(T${at + 2})=0),"open","met"))`,
    },
  ]);
  for (const row of [at + 2, at + 3, at + 5]) sheet.formula(`U${row}`, 'IF(TargetUnit="","",TargetUnit)', looks.unit);
  const verdict = at + 10;
  sheet
    .put(`M${verdict}`, "Verdict, plain acceptance (JCGM 106)", style({ bold: true }, looks.label))
    .paint(`N${verdict}:S${verdict}`, looks.label);
  const call_ = call("PASSFAIL", `T${at + 2}`, "TargetLimit", undefined, '"plain"', "TargetDecimals", `T${at + 9}`);
  sheet.addIn(
    `T${verdict}`,
    `IF(OR(COUNT(T${at + 2})=0,COUNT(TargetLimit)=0,T${at + 9}="open"),"",${call_})`,
    style({ bold: true, size: 11 }, fromAddIn()),
  );
  sheet.when(`T${verdict}`, `T${verdict}="pass"`, { font: { bold: true, color: { rgb: palette.pass } } });
  sheet.when(`T${verdict}`, `T${verdict}<>"pass"`, { font: { bold: true, color: { rgb: palette.fail } } });
  sheet.moreDigitsNear(`T${at + 2}`, `T${at + 3}`);
  sheet.put(
    `M${at + 12}`,
    "Every run: the barometer was read; 5 readings or more from 10 to 50 Pa; a baseline of at most 5 Pa and a fifth of the lowest pressure (M); n 0.5 to 1; r² at least 0.98 (ISO 9972). Depressurization alone: a criterion that asks for both directions is not met by it. A limit at another pressure than 50 Pa, or one for a leakage area, gives no result here. The verdict speaks of the tested units; what they stand for, the sheet Sampling says. " +
      "Unguarded runs count the leaks between units, twice where both neighbours are tested, so that their sum is an upper bound. The verdict of a single unit is information: programmes differ on whether each unit has to meet the limit.",
    looks.note,
  );
  sheet.merge(`M${at + 12}:U${at + 19}`);
  sheet.validate(
    oneOf(
      `T${at + 1}`,
      ["guarded", "unguarded"],
      "Which runs decide",
      "Guarded: leaks to outdoors alone. Unguarded: an upper bound where nothing was guarded.",
    ),
  );
}

/** The sizes of the units that have a flow, added; blank where one of them is missing, which a sum would take for nothing. */
function sumOfSizes(flows: string, sizes: string): string {
  return `IF(SUMPRODUCT(ISNUMBER(${flows})*(1-ISNUMBER(${sizes})))>0,"",SUMIF(${flows},">0",${sizes}))`;
}
