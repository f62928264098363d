import type { RunPlaces, Runs } from "./direction";
import { certificateWord } from "./instruments";
import type { Units } from "./units";

/** A condition that no standard's table of checks holds: it belongs to this workbook or to the criterion. */
export interface Condition {
  readonly label: string;
  readonly limit: string | { readonly formula: string };
  /** What stands under the two directions, formulas. */
  readonly shown: readonly [string, string?];
  readonly format?: string;
  /** The outcome, a formula on the two cells. */
  readonly outcome: (left: string, right: string) => string;
  readonly basis: string;
}

/** A word for each direction: `bad` where it holds for one of its runs, `good` where it has readings, else blank. */
function worded(runs: Runs, isBad: (run: RunPlaces) => string, good: string, bad: string): [string, string] {
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

const anyOf = (word: string, missing: string) => (left: string, right: string) =>
  `IF(COUNTIF(${left}:${right},"${word}")>0,"${missing}","met")`;

/** Binding conditions: without them there is no verdict. `enough` says whether as many directions as asked for hold a result. */
export function ownConditions(runs: Runs, tested: readonly [string, string], enough: string): readonly Condition[] {
  return [
    {
      label: "Directions with readings",
      limit: "as asked",
      shown: tested,
      outcome: () => `IF(${enough},"met","open")`,
      basis: "criterion",
    },
    {
      label: "Barometric pressure read at the house",
      limit: "given",
      shown: worded(runs, ({ conditions }) => `COUNT(${conditions.pressureRead})=0`, "given", "missing"),
      outcome: anyOf("missing", "open"),
      basis: "this workbook",
    },
    {
      label: "Certified range of the openings in use",
      limit: "given",
      shown: worded(runs, ({ openings }) => `SUMPRODUCT(ISERROR(${openings})*1)>0`, "given", "missing"),
      outcome: anyOf("missing", "open"),
      basis: "certificate",
    },
    {
      label: "Readings left out have their reason",
      limit: "given",
      shown: worded(
        runs,
        ({ uses, reasons }) => `COUNTIF(${uses},"no")>COUNTIFS(${uses},"no",${reasons},"?*")`,
        "given",
        "missing",
      ),
      outcome: anyOf("missing", "open"),
      basis: "this workbook",
    },
    {
      label: "Steps of the readings against the whole test",
      limit: "agree",
      shown: worded(runs, ({ line }) => `IFERROR(${line.agreement},"")="differ"`, "agree", "differ"),
      outcome: anyOf("differ", "not met"),
      basis: "this workbook",
    },
    {
      label: "Criterion’s pressure reached, highest reading, Pa",
      limit: { formula: 'IFERROR("≥ "&TargetPressure,"no criterion")' },
      shown: extreme(runs, "MIN", ({ wholeTest }) => wholeTest.value("dp_max")),
      format: "0.0",
      outcome: (left, right) =>
        `IFERROR(IF(COUNT(${left}:${right})=0,"open",IF(OR(TargetPressure<=50,MIN(${left}:${right})>=TargetPressure),"met","not met")),"open")`,
      basis: "a result above all readings is a guess",
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
      shown: ["VolumeConvention", 'IFERROR(TargetConvention,"no criterion")'],
      outcome: (left, right) =>
        `IF(${right}="no criterion","open",IF(OR(${right}="not used",${left}=${right}),"met","not met"))`,
      basis: "criterion",
    },
    {
      label: "Rooms half filled, as text, out of range",
      limit: "none",
      shown: ["RoomSlips"],
      format: "0",
      outcome: (left) => `IF(${left}=0,"met","not met")`,
      basis: "this workbook",
    },
    {
      label: "Volume and outlines once more by the add-in",
      limit: "agree",
      shown: [
        'IF(IFERROR(VolumeAgrees,"differs")="agrees","agree",IF(FloorArea=0,"no rooms","differs"))',
        "OutlinesAgree",
      ],
      outcome: (left, right) =>
        `IF(${left}="no rooms","open",IF(AND(${left}="agree",${right}="agree"),"met","not met"))`,
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
export function ownAdvice(runs: Runs, { in: unit }: Units): readonly Condition[] {
  const least = 'IF(VolumeConvention="whole internal",98,70)';
  const judged = (missing: string, good: string) => `IF(${missing},"look into it",IF(${good},"met","look into it"))`;
  const [low, high] = [2, 4].map((metres) => Number((metres / unit.length).toFixed(1)));
  const baseline = (run: RunPlaces) => `IFERROR(${run.conditions.baseline},"")`;
  return [
    {
      label: "Baseline readings, the fewer of before and after",
      limit: "≥ 10",
      shown: extreme(runs, "MIN", ({ conditions }) => conditions.fewestBaselines),
      format: "0",
      outcome: (left, right) => judged(`COUNT(${left}:${right})=0`, `MIN(${left}:${right})>=10`),
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
      outcome: (left) => judged(`COUNT(${left})=0`, `ROUND(${left},1)>=${least}`),
      basis: "practice, advisory",
    },
    {
      label: "Mean clear height, volume by floor area",
      limit: `${low} to ${high}`,
      shown: ['IFERROR(InternalVolume/FloorArea,"")'],
      format: "0.00",
      outcome: (left) => judged(`COUNT(${left})=0`, `AND(${left}>=${low},${left}<=${high})`),
      basis: "practice, advisory",
    },
    {
      label: "Relative humidity; 50 % is assumed where blank",
      limit: "given",
      shown: worded(runs, ({ conditions }) => `COUNT(${conditions.humidityRead})<2`, "given", "50 % assumed"),
      outcome: anyOf("50 % assumed", "look into it"),
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
      shown: ["VolumeUncertainty", 'IFERROR(TapeUncertainty/InternalVolume,"")'],
      format: "0.0000",
      outcome: (left, right) => judged(`COUNT(${left}:${right})<2`, `${left}>=${right}`),
      basis: "JCGM 100, advisory",
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
