import { call } from "../blocks/add-in";
import { formLines } from "../blocks/form";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { notOn, repeatsIn } from "../blocks/typed-cells";
import { oneOf } from "../blocks/validation";
import { unitRows } from "./places";
import { sumOfSizes } from "./sum-of-sizes";
import { inTargetQuantity, listRows } from "./unit-results";

const { first, last } = unitRows;
const column = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
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
export function buildingVerdict(sheet: Sheet, at: number): void {
  section(sheet, at, ["M", "U"], "Verdict for the building");
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
  formLines(sheet, at + 1, right, [
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
