import type { Units } from "../blocks/units";
import type { DecidingBudget } from "./deciding-budget";
import type { RunPlaces, Runs } from "./direction";
import { anyOf, anyResult, type Condition, extreme, worded } from "./own-check";

/** Advice of this workbook; a verdict does not depend on it, but the cover tells of it. */
export function ownAdvice(runs: Runs, { in: unit, temperature }: Units, budget: DecidingBudget): readonly Condition[] {
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
      label: `Temperatures likely to be in ${temperature}`,
      limit: "plausible",
      shown: worded(runs, ({ conditions }) => conditions.temperatureDoubtful, "plausible", "hardly"),
      outcome: anyOf("hardly", "look into it"),
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
      shown: ["VolumeUncertainty", 'IF(ISNUMBER(TapeUncertainty),IFERROR(TapeUncertainty/InternalVolume,""),"")'],
      format: "0.0000",
      outcome: (left, right) => judged(`COUNT(${left}:${right})<2`, `${left}>=${right}`),
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
      label: "Native formulas against the add-in",
      limit: "confirm",
      shown: ["ShadowConfirms"],
      outcome: (left) => `IF(${left}="differs","look into it",IF(${left}="confirms","met","not tested"))`,
      basis: "sheet Native formulas",
    },
  ];
}
