import type { DirectionPlaces } from "./direction";
import { certificateWord } from "./instruments";

/** A condition with its own way to be judged. */
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

type Both = readonly [DirectionPlaces, DirectionPlaces];

/** The words of what a direction's cells hold, shown only where it has readings. */
function worded(directions: Both, word: (direction: DirectionPlaces) => string): [string, string] {
  const [left, right] = directions.map((direction) => `IF(COUNTA(${direction.readings})=0,"",${word(direction)})`) as [
    string,
    string,
  ];
  return [left, right];
}

/** Binding conditions: without them there is no verdict. `enough` says whether a word stands for each direction that counts. */
export function otherConditions(directions: Both, enough: (word: string) => string): readonly Condition[] {
  const [depressurization, pressurization] = directions;
  const given = (word: string) => () => `IF(${enough(word)},"met","open")`;
  return [
    {
      label: "Barometric pressure read at the house",
      limit: "given",
      shown: worded(directions, ({ conditions }) => `IF(COUNT(${conditions.pressureRead})=1,"given","missing")`),
      outcome: given("given"),
      basis: "this workbook",
    },
    {
      label: "Certified range of the openings in use",
      limit: "given",
      shown: worded(directions, ({ openings }) => `IF(SUMPRODUCT(ISERROR(${openings})*1)=0,"given","missing")`),
      outcome: given("given"),
      basis: "certificate",
    },
    {
      label: "Step by step against the whole test",
      limit: "agree",
      shown: [depressurization.line.agreement, pressurization.line.agreement],
      outcome: (left, right) =>
        `IF(COUNTIF(${left}:${right},"differ")>0,"not met",IF(${enough("agree")},"met","open"))`,
      basis: "this workbook",
    },
    {
      label: "Certificates on the test day",
      limit: "all valid",
      shown: [certificateWord],
      outcome: (left) => `IF(${left}="all valid","met","not met")`,
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
      label: "Outlines that the rooms fill: least, most, %",
      limit: "≤ 100",
      shown: ['IFERROR(100*SmallestShare,"")', 'IFERROR(100*LargestShare,"")'],
      format: "0.0",
      outcome: (left, right) => `IF(COUNT(${left}:${right})<2,"open",IF(ROUND(${right},1)<=100,"met","not met"))`,
      basis: "this workbook",
    },
  ];
}

/** Advice that is not a number for each direction; `single` says that one direction alone has readings and is enough. */
export function otherAdvice(directions: Both, single: string): readonly Condition[] {
  const [depressurization, pressurization] = directions;
  const [d, p] = [depressurization.wholeTest.value("q50"), pressurization.wholeTest.value("q50")];
  const least = 'IF(VolumeConvention="whole internal",98,70)';
  const judged = (missing: string, good: string) => `IF(${missing},"look into it",IF(${good},"met","look into it"))`;
  return [
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
      label: "Mean clear height, volume by floor area, m",
      limit: "2 to 4",
      shown: ['IFERROR(InternalVolume/FloorArea,"")'],
      format: "0.00",
      outcome: (left) => judged(`COUNT(${left})=0`, `AND(${left}>=2,${left}<=4)`),
      basis: "practice, advisory",
    },
    {
      label: "Relative humidity; 50 % is assumed where blank",
      limit: "given",
      shown: worded(directions, ({ conditions }) => `IF(COUNT(${conditions.humidityRead})=2,"given","50 % assumed")`),
      outcome: (left, right) => `IF(COUNTIF(${left}:${right},"50 % assumed")>0,"look into it","met")`,
      basis: "practice, advisory",
    },
    {
      label: "Baselines of both directions, Pa",
      limit: "same sign",
      shown: [
        `IFERROR(${depressurization.conditions.baseline},"")`,
        `IFERROR(${pressurization.conditions.baseline},"")`,
      ],
      format: '0.00;"−"0.00',
      outcome: (left, right) =>
        `IF(${single},"not tested",${judged(`COUNT(${left}:${right})<2`, `${left}*${right}>=0`)})`,
      basis: "practice, advisory",
    },
    {
      label: "Directions apart, % of their mean",
      limit: "≤ 10",
      shown: [`IF(${single},"not tested",IFERROR(200*ABS(${d}-${p})/(${d}+${p}),""))`],
      format: "0.0",
      outcome: (left) => `IF(${single},"not tested",${judged(`COUNT(${left})=0`, `${left}<=10`)})`,
      basis: "practice, advisory",
    },
  ];
}
