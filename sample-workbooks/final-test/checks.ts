import { keepBlanks } from "../blocks/add-in";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { looks, native, palette, style } from "../blocks/style";
import type { Units } from "../blocks/units";
import { ofCriterion } from "./criteria";
import { certificateWord } from "./firm";
import { sheets } from "./layout";
import type { RunPlaces, Runs } from "./run";
import { limitedRow, runCells } from "./run-results";
import type { Direction } from "./scenario";
import type { DecidingBudget } from "./uncertainty";
import { validityPlaces } from "./validity";

/** How many rows the section takes, summary included. */
export const checkRows = 2 + 13 + 10 + 2;

interface CheckPlaces {
  /** The cell that sums up this workbook's own binding conditions: "met", "not met" or "open". */
  readonly own: string;
  /** All binding checks, the standard's too, with the number of findings to look into. */
  readonly findings: string;
  /** What to do where a condition is not met, a formula; blank where all are. */
  readonly advice: string;
  /** The first binding check that stands in the way, in words with its sheet; blank where none does. */
  readonly firstInTheWay: string;
}

/**
 * What the standard's own checks do not hold, as native formulas: "met", "not met", or "open" while something is missing; advisory ones say
 * "look into it". Then the sum of both.
 */
export function checksSection(
  sheet: Sheet,
  at: number,
  runs: Runs,
  tested: readonly [string, string],
  budget: DecidingBudget,
): CheckPlaces {
  writeHeading(sheet, at, ["B", "H"], "Further conditions of this workbook and of the criterion");
  writeColumnHeads(sheet, at + 1, "B", [
    "<check",
    "<<limit",
    "depressurization",
    "pressurization",
    "outcome",
    "<<basis",
    "",
  ]);
  const either = `MAX(1,COUNTIF($D$${at + 2}:$E$${at + 2},"yes"))`;
  const needed = `IFERROR(IF(TargetDirections="either",${either},IF(TargetDirections="depressurization",1,2)),2)`;
  const both = `$D$${at + 2}:$E$${at + 2}`;
  const enough = `AND(COUNTIF(${both},"yes")>=${needed},OR(IFERROR(TargetDirections,"")<>"depressurization",$D$${at + 2}="yes"))`;
  let row = at + 1;
  const advice: string[] = [];
  const write = ({ label, limit, shown, format, outcome, basis, advised }: Condition) => {
    row += 1;
    if (advised) advice.push(`IF(OR(F${row}="open",F${row}="not met"),${advised},"")`);
    sheet.put(`B${row}`, label, looks.label).put(`H${row}`, null, looks.unit);
    const look = style({ shrink: true }, looks.unit);
    if (typeof basis === "string") sheet.put(`G${row}`, basis, look);
    else sheet.formula(`G${row}`, basis.formula, look);
    sheet.merge(`G${row}:H${row}`);
    if (typeof limit === "string") sheet.put(`C${row}`, limit, looks.unit);
    else sheet.formula(`C${row}`, limit.formula, looks.unit);
    for (const letter of ["D", "E"]) sheet.put(`${letter}${row}`, null, looks.label);
    shown.forEach((formula, which) => {
      if (formula) sheet.formula(`${"DE".charAt(which)}${row}`, formula, native(format));
    });
    sheet.formula(`F${row}`, outcome(`D${row}`, `E${row}`), native());
  };
  const binding = ownConditions(runs, tested, enough);
  const advisory = ownAdvice(runs, runs[0].form.units, budget);
  for (const condition of [...binding, ...advisory]) write(condition);
  if (row - at - 1 + 4 !== checkRows) throw new Error("the section takes another number of rows than it says");
  const first = at + 2;
  const outcomes = `F${first}:F${row}`;
  sheet.when(outcomes, `AND(F${first}<>"met",F${first}<>"not tested",F${first}<>"open")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet.when(outcomes, `F${first}="open"`, { font: { bold: true, color: { rgb: palette.open } } });
  const [own, last] = [row + 1, row + 2];
  const sum = style({ bold: true, top: palette.petrol, align: "right" });
  sheet
    .put(`B${own}`, "Binding conditions of this workbook", style({ align: "left" }, sum))
    .paint(`C${own}:H${own}`, sum);
  const word = (cells: string) =>
    `IF(COUNTIF(${cells},"not met")>0,"not met",IF(COUNTIF(${cells},"open")>0,"open","met"))`;
  sheet.formula(`F${own}`, word(outcomes), sum);
  const { outcomes: judged, weights, symbols } = validityPlaces;
  const standard = (outcome: string) => `COUNTIFS(${weights},"binding",${judged},"${outcome}")`;
  const notMet = `OR(F${own}="not met",${standard("not met")}>0)`;
  const errors = runs.map((run, index) => `AND(COUNTA(${run.readings})>0,ISERROR(${tableOf(index)}))`);
  const open = `OR(F${own}="open",${standard("cannot be judged")}>0,${errors.join(",")})`;
  sheet.put(
    `B${last}`,
    "All binding checks, the standard’s too; findings",
    style({ bold: true, align: "left" }, native()),
  );
  sheet.paint(`C${last}:H${last}`, looks.label);
  sheet.formula(`F${last}`, `IF(${notMet},"not met",IF(${open},"open","met"))`, style({ bold: true }, native()));
  const ofStandard = `COUNTIFS(${weights},"advisory",${judged},"not met",${symbols},"<>reach_4")`;
  const toLookInto = `(COUNTIF(${outcomes},"look into it")+${ofStandard})`;
  sheet.formula(
    `G${last}`,
    `F${last}&IF(${toLookInto}>0,"; "&${toLookInto}&" to look into","")`,
    style({ align: "left", indent: 1, size: 8 }, native()),
  );
  const firstInTheWay = firstOf(`F${last}`, { labels: `B${first}:B${row}`, outcomes });
  return { own: `F${own}`, findings: `G${last}`, advice: advice.join("&"), firstInTheWay };
}

/** Words that name the first check with the outcome that counts: those of this workbook first, then the standard's. */
function firstOf(state: string, own: { readonly labels: string; readonly outcomes: string }): string {
  const { outcomes, weights, labels } = validityPlaces;
  const inStandard = `IF(${state}="open","cannot be judged",${state})`;
  const row = `MATCH(1,INDEX((${weights}="binding")*(${outcomes}=${inStandard}),0),0)`;
  const named = (label: string, sheet: string) => `" First: “"&${label}&"” on the sheet ${sheet}."`;
  const ownName = named(`INDEX(${own.labels},MATCH(${state},${own.outcomes},0))`, sheets.results);
  const standardName = named(`INDEX(${labels},${row})`, sheets.validity);
  return `IF(${state}="met","",IFERROR(${ownName},IFERROR(${standardName},"")))`;
}

/** The first cell of a run's table of checks, which holds the error if there is one. */
function tableOf(index: number): string {
  const [sheet = "", range = ""] = validityPlaces.tables.split("!");
  const [, top = "", bottom = ""] = /\$C\$(\d+):\$K\$(\d+)/.exec(range) ?? [];
  const step = (Number(bottom) - Number(top) + 2) / 4;
  return `${sheet}!$C$${Number(top) + index * step}`;
}

/** Binding conditions: without them there is no verdict. `enough` says whether as many directions as asked for hold a result. */
function ownConditions(runs: Runs, tested: readonly [string, string], enough: string): readonly Condition[] {
  return [
    {
      label: "Directions with readings",
      limit: "as asked",
      shown: tested,
      outcome: () => `IF(${enough},"met","open")`,
      basis: "criterion",
    },
    {
      label: "Readings of the example",
      limit: "none left",
      shown: ['IF(ExampleSheets="","none","still there")'],
      outcome: (left) => `IF(${left}="none","met","open")`,
      basis: { formula: namedSheets("ExampleSheets") },
      advised: '"Readings of the example are still on "&ExampleSheets&". "',
    },
    {
      label: "Runs of one direction apart, % of their mean",
      limit: { formula: 'IF(COUNT(RunSpreadLimit)=0,"missing","≤ "&ROUND(100*RunSpreadLimit,1))' },
      shown: [spreadOf("depressurization"), spreadOf("pressurization")],
      format: "0.0",
      outcome: (left, right) =>
        `IF(COUNT(${left}:${right})=0,"not tested",IF(COUNT(RunSpreadLimit)=0,"open",IF(MAX(${left}:${right})<=100*RunSpreadLimit,"met","not met")))`,
      basis: "practice, no source",
      advised:
        '"Two runs of one direction are too far apart: test once more, or empty the disturbed one and say so on Preparation. "',
    },
    {
      label: "Barometric pressure read at the house",
      limit: "given",
      shown: wordPerDirection(runs, ({ conditions }) => `COUNT(${conditions.pressureRead})=0`, "given", "missing"),
      outcome: anyOf("missing", "open", "open"),
      basis: "this workbook",
    },
    {
      label: "Certified range of the openings in use",
      limit: "given",
      shown: wordPerDirection(runs, ({ openings }) => `SUMPRODUCT(ISERROR(${openings})*1)>0`, "given", "missing"),
      outcome: anyOf("missing", "open", "open"),
      basis: "certificate",
    },
    {
      label: "Readings left out have their reason",
      limit: "given",
      shown: wordPerDirection(
        runs,
        ({ uses, reasons }) => `COUNTIF(${uses},"no")>COUNTIFS(${uses},"no",${reasons},"?*")`,
        "given",
        "missing",
      ),
      outcome: anyOf("missing", "open", "open"),
      basis: "this workbook",
    },
    {
      label: "Steps of the readings against the whole test",
      limit: "agree",
      shown: wordPerDirection(runs, ({ line }) => `IFERROR(${line.agreement},"")="differ"`, "agree", "differ"),
      outcome: anyOf("differ", "not met", "open"),
      basis: "this workbook",
    },
    {
      label: "Criterion’s pressure reached, highest reading, Pa",
      limit: { formula: ofCriterion('"≥ "&TargetPressure', '"no criterion"') },
      shown: extreme(runs, "MIN", ({ wholeTest }) => wholeTest.value("dp_max")),
      format: "0.0",
      outcome: (left, right) =>
        `IFERROR(IF(OR(COUNT(TargetPressure)=0,COUNT(${left}:${right})=0),"open",IF(OR(TargetPressure<=50,MIN(${left}:${right})>=TargetPressure),"met","not met")),"open")`,
      basis: "no extrapolation",
    },
    {
      label: "Further certificates; none dated after the test",
      limit: "in order",
      shown: [certificateWord],
      outcome: (left) => `IF(${left}="in order","met",IF(${left}="no test day","open","not met"))`,
      basis: "ISO 9972 (M)",
    },
    {
      label: "Volume convention, measured and asked for",
      limit: "the same",
      shown: ['IF(VolumeConvention="","",VolumeConvention)', ofCriterion("TargetConvention", '"no criterion"')],
      outcome: (left, right) =>
        `IF(OR(${right}="no criterion",${left}=""),"open",IF(OR(${right}="not used",${left}=${right}),"met","not met"))`,
      basis: "criterion",
    },
    {
      label: "Rooms half filled, as text, out of range",
      limit: "none",
      shown: ["RoomSlips"],
      format: "0",
      outcome: (left) => `IF(${left}>0,"not met",IF(${noRooms},"open","met"))`,
      basis: "this workbook",
    },
    {
      label: "Volume and outlines once more by the add-in",
      limit: "agree",
      shown: [
        'IF(IFERROR(VolumeAgrees,"differs")="agrees","agree",IF(IFERROR(FloorArea="",FALSE),"no rooms","differs"))',
        "OutlinesAgree",
      ],
      outcome: (left, right) =>
        `IF(${left}="no rooms","open",IF(AND(${left}="agree",${right}<>"differs"),"met","not met"))`,
      basis: "this workbook",
    },
    {
      label: "Outlines that the rooms fill: least, most, %",
      limit: "≤ 100",
      shown: ['IFERROR(100*SmallestShare,"")', 'IFERROR(100*LargestShare,"")'],
      format: "0.0",
      outcome: (left, right) => `IF(COUNT(${left}:${right})<2,"open",IF(ROUND(${right},1)<=100,"met","not met"))`,
      basis: "this workbook",
    },
  ];
}

/** Advice of this workbook; a verdict does not depend on it, but the cover tells of it. */
function ownAdvice(runs: Runs, { in: unit, temperature }: Units, budget: DecidingBudget): readonly Condition[] {
  const least = 'IF(VolumeConvention="whole internal",98,70)';
  const judged = (untested: string, missing: string, good: string) =>
    `IF(${untested},"not tested",IF(${missing},"look into it",IF(${good},"met","look into it")))`;
  const noReadings = `COUNTA(${runs.map(({ readings }) => readings).join(",")})=0`;
  const [low, high] = [2, 4].map((metres) => Number((metres / unit.length).toFixed(1)));
  const baseline = (run: RunPlaces) => `IFERROR(${keepBlanks(run.conditions.baseline)},"")`;
  return [
    {
      label: "Baseline readings, the fewer of before and after",
      limit: "≥ 10",
      shown: extreme(runs, "MIN", ({ conditions }) => conditions.fewestBaselines),
      format: "0",
      outcome: (left, right) => judged(noReadings, `COUNT(${left}:${right})=0`, `MIN(${left}:${right})>=10`),
      basis: "ISO 9972 (M), advisory",
    },
    {
      label: "Rooms fill enough of the outlines: least, %",
      limit: { formula: `"≥ "&${least}` },
      shown: [
        'IFERROR(100*SmallestShare,"")',
        'IF(VolumeConvention="whole internal",IFERROR(IF(SmallestShare<0.98,"partitions out?",""),""),"")',
      ],
      format: "0.0",
      outcome: (left) => judged(noRooms, `COUNT(${left})=0`, `ROUND(${left},1)>=${least}`),
      basis: "practice, advisory",
    },
    {
      label: "Mean clear height, volume by floor area",
      limit: `${low} to ${high}`,
      shown: ['IFERROR(InternalVolume/FloorArea,"")'],
      format: "0.00",
      outcome: (left) => judged(noRooms, `COUNT(${left})=0`, `AND(${left}>=${low},${left}<=${high})`),
      basis: "practice, advisory",
    },
    {
      label: `Temperatures likely to be in ${temperature}`,
      limit: "plausible",
      shown: wordPerDirection(runs, ({ conditions }) => conditions.temperatureDoubtful, "plausible", "hardly"),
      outcome: anyOf("hardly", "look into it", "not tested"),
      basis: "practice, advisory",
    },
    {
      label: "Relative humidity; 50 % is assumed where blank",
      limit: "given",
      shown: wordPerDirection(runs, ({ conditions }) => `COUNT(${conditions.humidityRead})<2`, "given", "50 % assumed"),
      outcome: anyOf("50 % assumed", "look into it", "not tested"),
      basis: "practice, advisory",
    },
    {
      label: "Baselines of both directions, first runs, Pa",
      limit: "same sign",
      shown: [baseline(runs[0]), baseline(runs[2])],
      format: '0.00;"−"0.00',
      outcome: (left, right) =>
        `IF(COUNT(${left}:${right})<2,"not tested",IF(${left}*${right}>=0,"met","look into it"))`,
      basis: "practice, advisory",
    },
    {
      label: "Volume’s uncertainty, assumed and by the tape",
      limit: "not below it",
      shown: [
        keepBlanks("VolumeUncertainty"),
        'IF(ISNUMBER(TapeUncertainty),IFERROR(TapeUncertainty/InternalVolume,""),"")',
      ],
      format: "0.0000",
      outcome: (left, right) => judged(noRooms, `COUNT(${left}:${right})<2`, `${left}>=${right}`),
      basis: "JCGM 100, advisory",
    },
    {
      label: "Warnings of the budget that decides",
      limit: "none",
      shown: [
        `IF(${budget.which}="",IF(${anyResult(runs)},"no uncertainty",""),IF(ISERROR(${budget.expanded}),"no uncertainty",${budget.warnings}))`,
      ],
      format: "0",
      outcome: (left) => `IF(${left}="","not tested",IF(${left}=0,"met","look into it"))`,
      basis: "sheet Uncertainty",
    },
    {
      label: "Sealing list and instruments of the example",
      limit: "none left",
      shown: ['IF(ExampleLists="","none","still there")'],
      outcome: (left) => `IF(${left}="none","met","look into it")`,
      basis: { formula: namedSheets("ExampleLists") },
    },
    {
      label: "Native formulas against the add-in",
      limit: "confirm",
      shown: ["ShadowConfirms"],
      outcome: (left) => `IF(${left}="differs","look into it",IF(${left}="confirms","met","not tested"))`,
      basis: "sheet Native formulas",
    },
  ];
}

/** A formula: the sheet with the table, or the one on which something is left; several do not fit beside a condition. */
function namedSheets(name: string): string {
  return `IF(${name}="","sheet Method",IF(ISNUMBER(FIND(",",${name})),"on several sheets, see Method","on "&${name}))`;
}

/** How far the limited results of a direction's two runs are apart, in % of their mean; blank while there are not two. */
function spreadOf(direction: Direction): string {
  const cells = runCells(direction, limitedRow);
  const [one = "", other = ""] = cells.split(":");
  return `IF(COUNT(${cells})<2,"",200*ABS(${one}-${other})/(${one}+${other}))`;
}

/** A condition that no standard's table of checks holds: it belongs to this workbook or to the criterion. */
interface Condition {
  readonly label: string;
  readonly limit: string | { readonly formula: string };
  /** What stands under the two directions, formulas. */
  readonly shown: readonly [string, string?];
  readonly format?: string;
  /** The outcome, a formula on the two cells. */
  readonly outcome: (left: string, right: string) => string;
  /** Where it comes from; as a formula where it says what to do. */
  readonly basis: string | { readonly formula: string };
  /** A sentence for the cover while the condition stands in the way, a formula. */
  readonly advised?: string;
}

/** A word for each direction: `bad` where it holds for one of its runs, `good` where it has readings, else blank. */
function wordPerDirection(runs: Runs, isBad: (run: RunPlaces) => string, good: string, bad: string): [string, string] {
  const of = (first: RunPlaces, second: RunPlaces) => {
    const made = [first, second].map((run) => `COUNTA(${run.readings})>0`);
    const failed = [first, second].map((run, index) => `AND(${made[index]},${isBad(run)})`);
    return `IF(OR(${failed.join(",")}),"${bad}",IF(OR(${made.join(",")}),"${good}",""))`;
  };
  return [of(runs[0], runs[1]), of(runs[2], runs[3])];
}

/** What each direction shows at least or at most among its runs; blank while it has no result. */
function extreme(runs: Runs, pick: "MIN" | "MAX", cell: (run: RunPlaces) => string): [string, string] {
  const of = (first: RunPlaces, second: RunPlaces) => {
    const both = [first, second].map((run) => `IFERROR(ABS(${cell(run)}),"")`);
    const [one = "", two = ""] = both;
    return `IF(COUNTA(${first.readings},${second.readings})=0,"",IF(ISNUMBER(${one}),IF(ISNUMBER(${two}),${pick}(${one},${two}),${one}),${two}))`;
  };
  return [of(runs[0], runs[1]), of(runs[2], runs[3])];
}

/** "met", unless one of the two cells holds the word, or neither holds any. */
const anyOf = (word: string, missing: string, untested: string) => (left: string, right: string) =>
  `IF(COUNTIF(${left}:${right},"?*")=0,"${untested}",IF(COUNTIF(${left}:${right},"${word}")>0,"${missing}","met"))`;

/** A formula: nothing is typed of the rooms. */
const noRooms = 'IFERROR(FloorArea="",FALSE)';

/** A formula: any run holds a result. */
export function anyResult(runs: Runs): string {
  return `OR(${runs.map(({ wholeTest }) => `ISNUMBER(${wholeTest.value("q50")})`).join(",")})`;
}
