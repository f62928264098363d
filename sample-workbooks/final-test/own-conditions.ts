import type { Runs } from "./direction";
import { certificateWord } from "./instruments";
import { anyOf, type Condition, extreme, worded } from "./own-check";

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
        `IFERROR(IF(OR(COUNT(TargetPressure)=0,COUNT(${left}:${right})=0),"open",IF(OR(TargetPressure<=50,MIN(${left}:${right})>=TargetPressure),"met","not met")),"open")`,
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
      shown: ['IF(VolumeConvention="","",VolumeConvention)', 'IFERROR(TargetConvention,"no criterion")'],
      outcome: (left, right) =>
        `IF(OR(${right}="no criterion",${left}=""),"open",IF(OR(${right}="not used",${left}=${right}),"met","not met"))`,
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
        'IF(IFERROR(VolumeAgrees,"differs")="agrees","agree",IF(IFERROR(FloorArea=0,FALSE),"no rooms","differs"))',
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
